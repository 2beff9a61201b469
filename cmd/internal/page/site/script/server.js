// server asks the program that serves the page. The key came behind # in the
// address, goes with every question, and is taken out of the address at once.

const HEADER = "Seamrail-Key";
const KEPT = "seamrail-key";

const key = await takeKey();

async function takeKey() {
  const behind = new URLSearchParams(location.hash.slice(1));
  if (location.hash) history.replaceState(null, "", location.pathname);
  const once = behind.get("once");
  const given = once ? await keyFor(once) : behind.get("k");
  if (given) sessionStorage.setItem(KEPT, given);
  return given ?? sessionStorage.getItem(KEPT) ?? "";
}

// The page that seamrail itself opened has a word that fetches the key once.
async function keyFor(once) {
  try {
    const answer = await fetch("/api/key", { method: "POST", headers: { [HEADER]: once }, cache: "no-store", redirect: "error" });
    return answer.ok ? (await answer.json()).key : null;
  } catch {
    return null;
  }
}

/** An answer that is no answer: status, words and faults. */
export class Refusal extends Error {
  constructor(status, body) {
    super(body.error || "The answer makes no sense.");
    this.status = status;
    this.body = body;
    this.faults = body.faults ?? [];
  }
}

export const GONE = "seamrail does not answer: it has ended, or is held up. What is on this page is still here.";

async function send(path, question, signal) {
  const head = { [HEADER]: key };
  const init = question === undefined ? { headers: head, signal } : {
    method: "POST", headers: { ...head, "Content-Type": "application/json" }, body: JSON.stringify(question), signal,
  };
  let answer;
  try {
    answer = await fetch("/api/" + path, { ...init, cache: "no-store", redirect: "error" });
  } catch (err) {
    if (err.name === "AbortError") throw err;
    throw new Refusal(0, { error: GONE });
  }
  if (answer.ok) return answer;
  throw new Refusal(answer.status, await answer.json().catch(() => ({ error: answer.statusText })));
}

/** Asks, and returns what was answered. Without a question it is a GET. */
export async function ask(path, question, signal) {
  return (await send(path, question, signal)).json();
}

/** Asks for a file; returns its name and what is in it. */
export async function askFile(path, question) {
  const answer = await send(path, question);
  const name = /filename="?([^";]+)/.exec(answer.headers.get("Content-Disposition") ?? "");
  return { name: name ? name[1] : "seamrail", blob: await answer.blob() };
}

/** Calls each with every line of a stream, until it ends. */
export async function lines(path, question, each, signal) {
  const reader = (await send(path, question, signal)).body.pipeThrough(new TextDecoderStream()).getReader();
  let rest = "";
  for (;;) {
    const { value, done } = await reader.read();
    if (done) return;
    const parts = (rest + value).split("\n");
    rest = parts.pop();
    for (const line of parts) if (line) each(JSON.parse(line));
  }
}

/** Calls each with every picture of a stream: its length in 4 bytes, the lowest first, and itself. */
export async function pictures(path, question, each, signal) {
  const answer = await send(path, question, signal);
  const reader = answer.body.getReader();
  let held = new Uint8Array(0);
  for (;;) {
    const { value, done } = await reader.read();
    if (done) return;
    held = joined(held, value);
    for (let n; held.length >= 4 && held.length >= 4 + (n = lengthOf(held));) {
      each(new Blob([held.slice(4, 4 + n)]));
      held = held.subarray(4 + n);
    }
  }
}

const lengthOf = (bytes) => new DataView(bytes.buffer, bytes.byteOffset, 4).getUint32(0, true);

function joined(a, b) {
  if (a.length === 0) return b;
  const out = new Uint8Array(a.length + b.length);
  out.set(a);
  out.set(b, a.length);
  return out;
}
