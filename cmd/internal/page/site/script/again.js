// again has back what this tab drove before it was loaded anew. It is loaded before all else,
// since a take goes on by itself for a second only, and keeps Stop and the space bar until
// the page is whole.
import { refusal } from "./refusal.js";
import { ask } from "./server.js";

const HELD = "seamrail-claim";
const AGAIN = 80, TRIES = 10; // ms, and how often: until the program has seen that the page before is gone
const BEAT = 250, WHOLE = 6000; // ms: from beat to beat, and until a page must be whole

/** Keeps the claim of this tab over a reload; "" forgets it. @param {string} claim */
export function keepClaim(claim) {
  if (claim) sessionStorage.setItem(HELD, claim);
  else sessionStorage.removeItem(HELD);
}

/** The claim that this tab has back, or "". A copy of a tab has a copy of its claim, and gets nothing for it while that tab is there. */
export const regained = haveBack();

async function haveBack() {
  const was = sessionStorage.getItem(HELD);
  for (let n = 0; was && n < TRIES; n++) {
    try {
      const { claim } = await ask("drive/again", { claim: was });
      keepClaim(claim);
      meanwhile(claim);
      return claim;
    } catch (err) {
      if (refusal(err).status !== 409) break;
    }
    await new Promise((later) => setTimeout(later, AGAIN));
  }
  keepClaim("");
  return "";
}

/** Ends what is done until the page is whole. */
export let whole = () => {};

/** @param {string} claim */
function meanwhile(claim) {
  const beats = setInterval(() => void ask("drive/beat", { claim }).catch(() => {}), BEAT);
  const stop = () => void ask("drive/do", { claim, request: "stop" }).catch(() => {});
  const space = (/** @type {KeyboardEvent} */ e) => {
    if (e.key !== " ") return;
    e.preventDefault();
    if (!e.repeat) stop();
  };
  addEventListener("keydown", space, { capture: true });
  const button = document.getElementById("stop"); // it is there: the program has answered since
  button?.addEventListener("click", stop);
  if (button) button.hidden = false;
  const late = setTimeout(() => whole(), WHOLE);
  whole = () => {
    clearInterval(beats);
    clearTimeout(late);
    removeEventListener("keydown", space, { capture: true });
    button?.removeEventListener("click", stop);
  };
}
