// script/refusal.js
var Refusal = class extends Error {
  /**
   * @param {number} status 0 where nobody answers
   * @param {{ error?: string, faults?: Wire.Fault[] } & Partial<Wire.Disk>} body
   */
  constructor(status, body) {
    super(body.error || "The answer makes no sense.");
    this.status = status;
    this.body = body;
    this.faults = body.faults ?? [];
  }
  /** Its first fault alone. */
  get first() {
    return this.faults[0]?.text || this.message;
  }
  /** What it says, fault by fault where it knows them. */
  get words() {
    return this.faults.map((f) => told(f)).join(". ") || this.message;
  }
};
var told = ({ axis, text, fit }, before) => [before, axis, text, fit].filter(Boolean).join(": ");
var refusal = (err) => err instanceof Refusal ? err : new Refusal(NaN, { error: err instanceof Error ? err.message : String(err) });
var givenUp = (err) => err instanceof DOMException && err.name === "AbortError";

// script/server.js
var HEADER = "Seamrail-Key";
var SHOT = "Seamrail-Shot";
var KEPT = "seamrail-key";
var key = await takeKey();
var named = new URLSearchParams(location.search).get("shot") ?? "";
var addressOf = (file) => "?shot=" + encodeURIComponent(file);
function nameShot(file) {
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
async function keyFor(once) {
  try {
    const answer = await fetch("/api/key", { method: "POST", headers: { [HEADER]: once }, cache: "no-store", redirect: "error" });
    return answer.ok ? (await answer.json()).key : null;
  } catch {
    return null;
  }
}
var GONE = "seamrail does not answer: it has ended, or is held up. What is on this page is still here.";
async function send(path, question, signal, of = named) {
  const head = { [HEADER]: key, ...of && { [SHOT]: encodeURIComponent(of) } };
  const init = question === void 0 ? { headers: head, signal } : {
    method: "POST",
    headers: { ...head, "Content-Type": "application/json" },
    body: JSON.stringify(question),
    signal
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
async function ask(path, question, signal, of) {
  return (await send(path, question, signal, of)).json();
}
function lastWord(path, question) {
  const headers = { [HEADER]: key, "Content-Type": "application/json" };
  void fetch("/api/" + path, { method: "POST", headers, body: JSON.stringify(question), keepalive: true, cache: "no-store", redirect: "error" }).catch(() => {
  });
}
async function askFile(path, question, signal) {
  const answer = await send(path, question, signal);
  const name = /filename="?([^";]+)/.exec(answer.headers.get("Content-Disposition") ?? "");
  return { name: name ? name[1] : "seamrail", blob: await answer.blob() };
}
function sendFile(film, part, file, each, signal) {
  return new Promise((gone, fails) => {
    const sends = new XMLHttpRequest();
    sends.open("POST", "/api/film/bytes");
    for (const [name, value] of [[HEADER, key], ["Seamrail-Film", film], ["Seamrail-Part", String(part)]]) sends.setRequestHeader(name, value);
    sends.upload.onprogress = (e) => each(e.loaded);
    sends.onload = () => sends.status === 200 ? gone() : fails(new Refusal(sends.status, said(sends.responseText)));
    sends.onerror = () => fails(new Refusal(0, { error: `${file.name} did not get through: it cannot be read any more, or seamrail does not answer.` }));
    sends.onabort = () => fails(new DOMException("given up", "AbortError"));
    signal.addEventListener("abort", () => sends.abort(), { once: true });
    sends.send(file);
  });
}
function said(text) {
  try {
    return JSON.parse(text);
  } catch {
    return { error: text };
  }
}
async function lines(path, question, each, signal) {
  const reader = bodyOf(await send(path, question, signal)).pipeThrough(new TextDecoderStream()).getReader();
  let rest = "";
  for (; ; ) {
    const { value, done } = await reader.read();
    if (done) return;
    const parts = (rest + value).split("\n");
    rest = parts.pop() ?? "";
    for (const line of parts) if (line) each(JSON.parse(line));
  }
}
var bodyOf = (answer) => (
  /** @type {ReadableStream<Uint8Array<ArrayBuffer>>} */
  answer.body
);
async function pictures(path, question, each, signal, of, begins) {
  const answer = await send(path, question, signal, of);
  if (!answer.body) return;
  begins?.(Number(/of=(\d+)/.exec(answer.headers.get("Seamrail-Frames") ?? "")?.[1] ?? 0));
  const reader = bodyOf(answer).getReader();
  let held = new Uint8Array(0);
  let number = 0;
  for (; ; ) {
    const { value, done } = await reader.read();
    if (done) return;
    held = joined(held, value);
    for (let n; held.length >= 4 && held.length >= 4 + (n = lengthOf(held)); ) {
      each(held.slice(4, 4 + n), number++);
      held = held.subarray(4 + n);
    }
  }
}
var lengthOf = (bytes) => new DataView(bytes.buffer, bytes.byteOffset, 4).getUint32(0, true);
function joined(a, b) {
  if (a.length === 0) return b;
  const out = new Uint8Array(a.length + b.length);
  out.set(a);
  out.set(b, a.length);
  return out;
}

// script/again.js
var HELD = "seamrail-claim";
var AGAIN = 80;
var TRIES = 10;
var BEAT = 250;
var WHOLE = 6e3;
function keepClaim(claim) {
  if (claim) sessionStorage.setItem(HELD, claim);
  else sessionStorage.removeItem(HELD);
}
var regained = haveBack();
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
var whole = () => {
};
function meanwhile(claim) {
  const beats = setInterval(() => void ask("drive/beat", { claim }).catch(() => {
  }), BEAT);
  const stop = () => void ask("drive/do", { claim, request: "stop" }).catch(() => {
  });
  const space = (e) => {
    if (e.key !== " ") return;
    e.preventDefault();
    if (!e.repeat) stop();
  };
  addEventListener("keydown", space, { capture: true });
  const button = document.getElementById("stop");
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

export {
  told,
  refusal,
  givenUp,
  addressOf,
  nameShot,
  GONE,
  ask,
  lastWord,
  askFile,
  sendFile,
  lines,
  pictures,
  keepClaim,
  regained,
  whole
};
