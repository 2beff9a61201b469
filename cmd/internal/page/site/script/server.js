// server asks the program that serves the page. Behind # in the address is a word that is
// good once; the key that it fetches goes with every question, and stays with this tab.
import { Refusal, givenUp } from "./refusal.js";

const HEADER = "Seamrail-Key";
const SHOT = "Seamrail-Shot";
const KEPT = "seamrail-key";

const key = await takeKey();

/** The shot in the folder that questions are of: the address names it; "" for the one that the page was opened with. */
export let named = new URLSearchParams(location.search).get("shot") ?? "";

/** Where a shot of the folder is opened. @param {string} file */
export const addressOf = (file) => "?shot=" + encodeURIComponent(file);

/** From now on all questions are of this shot, and so is the address: it is opened again by a reload. @param {string} file */
export function nameShot(file) {
  named = file;
  history.replaceState(null, "", location.pathname + addressOf(file));
}

async function takeKey() {
  const behind = new URLSearchParams(location.hash.slice(1));
  if (location.hash) history.replaceState(null, "", location.pathname + location.search);
  const once = behind.get("once");
  const given = once && await keyFor(once);
  if (given) sessionStorage.setItem(KEPT, given);
  return given || sessionStorage.getItem(KEPT) || "";
}

/** @param {string} once */
async function keyFor(once) {
  try {
    const answer = await fetch("/api/key", { method: "POST", headers: { [HEADER]: once }, cache: "no-store", redirect: "error" });
    return answer.ok ? (await answer.json()).key : null;
  } catch {
    return null;
  }
}

export const GONE = "seamrail does not answer: it has ended, or is held up. What is on this page is still here.";

/**
 * @param {string} path
 * @param {object} [question]
 * @param {AbortSignal} [signal]
 * @param {string} [of]
 */
async function send(path, question, signal, of = named) {
  const head = { [HEADER]: key, ...(of && { [SHOT]: encodeURIComponent(of) }) };
  const init = question === undefined ? { headers: head, signal } : {
    method: "POST", headers: { ...head, "Content-Type": "application/json" }, body: JSON.stringify(question), signal,
  };
  let answer;
  try {
    answer = await fetch("/api/" + path, { ...init, cache: "no-store", redirect: "error" });
  } catch (err) {
    if (givenUp(err)) throw err;
    throw new Refusal(0, { error: GONE });
  }
  if (answer.ok) return answer;
  throw new Refusal(answer.status, await answer.json().catch(() => ({ error: answer.statusText })));
}

/**
 * Asks, and returns what was answered. Without a question it is a GET. It may be of another shot.
 * @template {keyof Wire.Answers} P
 * @param {P} path
 * @param {Question<P>} [question]
 * @param {AbortSignal} [signal]
 * @param {string} [of]
 * @returns {Promise<Wire.Answers[P]>}
 */
export async function ask(path, question, signal, of) {
  return (await send(path, question, signal, of)).json();
}

/**
 * Says something last, of a page that is left: it is sent also when the page is gone.
 * @template {keyof Wire.Questions} P
 * @param {P} path
 * @param {Question<P>} question
 */
export function lastWord(path, question) {
  const headers = { [HEADER]: key, "Content-Type": "application/json" };
  void fetch("/api/" + path, { method: "POST", headers, body: JSON.stringify(question), keepalive: true, cache: "no-store", redirect: "error" }).catch(() => {});
}

/**
 * Asks for a file; returns its name and what is in it.
 * @template {keyof Wire.Questions} P
 * @param {P} path
 * @param {Question<P>} question
 * @param {AbortSignal} [signal]
 */
export async function askFile(path, question, signal) {
  const answer = await send(path, question, signal);
  const name = /filename="?([^";]+)/.exec(answer.headers.get("Content-Disposition") ?? "");
  return { name: name ? name[1] : "seamrail", blob: await answer.blob() };
}

/**
 * Sends a file, the part of a take, byte by byte; each is called with how many have gone.
 * @param {string} film
 * @param {number} part
 * @param {File} file
 * @param {(gone: number) => void} each
 * @param {AbortSignal} signal
 * @returns {Promise<void>}
 */
export function sendFile(film, part, file, each, signal) {
  return new Promise((gone, fails) => {
    const sends = new XMLHttpRequest(); // fetch does not tell how far it is
    sends.open("POST", "/api/film/bytes");
    for (const [name, value] of [[HEADER, key], ["Seamrail-Film", film], ["Seamrail-Part", String(part)]]) sends.setRequestHeader(name, value);
    sends.upload.onprogress = (e) => each(e.loaded);
    sends.onload = () => (sends.status === 200 ? gone() : fails(new Refusal(sends.status, said(sends.responseText))));
    sends.onerror = () => fails(new Refusal(0, { error: `${file.name} did not get through: it cannot be read any more, or seamrail does not answer.` }));
    sends.onabort = () => fails(new DOMException("given up", "AbortError"));
    signal.addEventListener("abort", () => sends.abort(), { once: true });
    sends.send(file);
  });
}

/** @param {string} text */
function said(text) {
  try {
    return JSON.parse(text);
  } catch {
    return { error: text };
  }
}

/**
 * Calls each with every line of a stream, until it ends.
 * @template {keyof Wire.Questions} P
 * @template {object} [N=Wire.News]
 * @param {P} path
 * @param {Question<P>} question
 * @param {(news: N) => void} each
 * @param {AbortSignal} [signal]
 */
export async function lines(path, question, each, signal) {
  const reader = bodyOf(await send(path, question, signal)).pipeThrough(new TextDecoderStream()).getReader();
  let rest = "";
  for (;;) {
    const { value, done } = await reader.read();
    if (done) return;
    const parts = (rest + value).split("\n");
    rest = parts.pop() ?? "";
    for (const line of parts) if (line) each(JSON.parse(line));
  }
}

/** @param {Response} answer */
const bodyOf = (answer) => /** @type {ReadableStream<Uint8Array<ArrayBuffer>>} */ (answer.body);

/**
 * Calls each with every picture of a stream and its number: its length in 4 bytes, the
 * lowest first, and itself. Before them, begins with how many frames the loop has.
 * @template {keyof Wire.Questions} P
 * @param {P} path
 * @param {Question<P>} question
 * @param {(data: Uint8Array, number: number) => void} each
 * @param {AbortSignal} [signal]
 * @param {string} [of]
 * @param {(frames: number) => void} [begins]
 */
export async function pictures(path, question, each, signal, of, begins) {
  const answer = await send(path, question, signal, of);
  if (!answer.body) return;
  begins?.(Number(/of=(\d+)/.exec(answer.headers.get("Seamrail-Frames") ?? "")?.[1] ?? 0));
  const reader = bodyOf(answer).getReader();
  let held = new Uint8Array(0);
  let number = 0;
  for (;;) {
    const { value, done } = await reader.read();
    if (done) return;
    held = joined(held, value);
    for (let n; held.length >= 4 && held.length >= 4 + (n = lengthOf(held));) {
      each(held.slice(4, 4 + n), number++);
      held = held.subarray(4 + n);
    }
  }
}

/** @param {Uint8Array} bytes */
const lengthOf = (bytes) => new DataView(bytes.buffer, bytes.byteOffset, 4).getUint32(0, true);

/**
 * @param {Uint8Array<ArrayBuffer>} a
 * @param {Uint8Array<ArrayBuffer>} b
 */
function joined(a, b) {
  if (a.length === 0) return b;
  const out = new Uint8Array(a.length + b.length);
  out.set(a);
  out.set(b, a.length);
  return out;
}
