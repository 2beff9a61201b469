// listen hears what the program tells for as long as the page is there, and says where it is
// silent. A browser has six connections to one program, and each page that listens keeps
// one: of several pages those behind others let go of theirs, or whoever drives is not heard.
import { GONE, lines } from "./server.js";
import { refusal } from "./refusal.js";
import { gone, patience } from "./dead.js";
import { mine } from "./driver.js";

const AGAIN = 1000; // ms until it is listened to anew

let heardAt = 0;
/** @type {AbortController | null} */
let listening = null;

/** Begins anew: it is something else that is to be heard. */
export const listenAnew = () => listening?.abort();

const behind = () => document.hidden && !mine();
document.addEventListener("visibilitychange", () => behind() && listenAnew());

function inSight() {
  heardAt = 0;
  return new Promise((resolve) => document.addEventListener("visibilitychange", resolve, { once: true }));
}

/**
 * Calls hear with each news of a stream.
 * @template {keyof Wire.Questions} P
 * @param {P} path
 * @param {() => Question<P>} question as it is each time
 * @param {(news: Wire.News) => void} hear
 */
export async function listen(path, question, hear) {
  for (;;) {
    while (behind()) await inSight();
    const { signal } = (listening = new AbortController());
    try {
      await lines(path, question(), (news) => {
        heardAt = performance.now();
        gone("");
        queueMicrotask(() => hear(news)); // what fails there is told as an error, and does not end the stream
      }, signal);
    } catch (err) {
      const { status, message } = refusal(err);
      if (status === 403) {
        heardAt = 0;
        return gone(message);
      }
    }
    if (behind() || signal.aborted) continue;
    gone(GONE, true);
    await new Promise((resolve) => setTimeout(resolve, AGAIN));
  }
}

setInterval(() => heardAt && performance.now() - heardAt > patience() && gone(GONE, true), AGAIN); // it is gone or held up
