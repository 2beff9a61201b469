// driver is the page's hold on the rig: the claim, the beat that keeps it, and
// what is asked of it. Without a beat the program stops the rig by itself.
import { ask, lastWord, lines } from "./server.js";
import { refusal } from "./refusal.js";
import { keepClaim, regained, whole } from "./again.js";
import { shot, tell } from "./shot.js";
import { say, sayError } from "./notice.js";

const BEAT = 250; // ms
const STALE = 400; // ms: a call that is heard so late leads a hand astray

/** What the program last told of the rig. */
export let rig = /** @type {Wire.DriveState} */ (/** @type {unknown} */ (null)); // null before it has told anything
let claim = "";
let beating = 0;
let called = 0; // number of the last call

export const mine = () => claim !== "";

/** Whether anything may move, or is about to. */
const STILL = new Set(["no rig", "opening", "reading settings", "position unknown", "ready", "cautions", "held", "waiting for the hand", "over"]);
export const moving = () => Boolean(rig?.open) && (!STILL.has(rig.state) || Boolean(rig.held?.moving));

/** @param {string} port @param {Omit<Wire.Questions["drive/open"], "text" | "port">} how */
export async function open(port, how) {
  try {
    hold((await ask("drive/open", { text: shot.text, port, ...how })).claim);
  } catch (err) {
    sayError(err);
  }
}

/** @param {string} now */
function hold(now) {
  claim = now;
  keepClaim(claim);
  beating = setInterval(beat, BEAT);
  void beat();
  void stay();
  tell("drive");
}

void regained.then((was) => {
  if (!was) return;
  whole();
  hold(was);
  say("This page was loaded anew, and has the rig in hand again.", "fair");
});

async function beat() {
  try {
    await ask("drive/beat", { claim });
  } catch (err) {
    if (refusal(err).status === 423) letGo();
  }
}

/** Keeps a connection for as long as this page drives: when the page is gone, so is it, and the program knows at once. */
async function stay() {
  for (const own = claim; own === claim;) {
    await lines("drive/stay", { claim: own }, () => {}).catch(() => {});
    await new Promise((resolve) => setTimeout(resolve, BEAT));
  }
}

function letGo() {
  clearInterval(beating);
  claim = "";
  keepClaim("");
  tell("drive");
}

/**
 * Asks something of the rig.
 * @param {string} request
 * @param {Omit<Wire.Questions["drive/do"], "claim" | "request">} [more]
 */
export async function want(request, more = {}) {
  try {
    return await ask("drive/do", { claim, request, ...more });
  } catch (err) {
    if (request === "stop" || request === "abort") return stopAsAny(request === "abort"); // whoever drives
    sayError(err);
    return null;
  }
}

/** @param {boolean} again @returns {Promise<Wire.done | null>} */
async function stopAsAny(again) {
  try {
    return await ask("drive/stop", { again });
  } catch (err) {
    if (refusal(err).status !== 409) sayError(err);
    return null;
  }
}

/** Slows down and stops; while it slows, stops at once. Any page may, whichever drives. */
export function stop() {
  if (!rig?.open) return;
  const again = rig.takes.includes("abort");
  void (mine() ? want(again ? "abort" : "stop") : stopAsAny(again));
}

// A page that is left while the rig moves asks first. What it says last gives it as long to come again as any beat.
const lastBeat = () => mine() && lastWord("drive/beat", { claim });
addEventListener("beforeunload", (e) => {
  lastBeat();
  if (mine() && moving()) e.preventDefault();
});
addEventListener("pagehide", lastBeat);

let drawn = true;

/**
 * Hears how it stands with the rig. News comes faster than a screen shows it: it is known at once, and drawn with the next frame. Calls do not wait for that.
 * @param {Wire.DriveState} state
 */
export function heardDrive(state) {
  const ended = rig?.open && !state.open;
  const calls = rig ? state.calls.filter((c) => c.n > called && Date.now() - c.at < STALE) : [];
  called = Math.max(called, ...state.calls.map((c) => c.n));
  rig = { ...state, pos: state.pos ?? [] }; // nothing of these before anything moves
  if (ended && mine()) letGo();
  if (calls.length) tell("call", calls);
  if (!drawn) return;
  drawn = false;
  requestAnimationFrame(() => {
    drawn = true;
    tell("drive");
  });
}
