// driver is the page's hold on the rig: the claim, the beat that keeps it, and
// what is asked of it. Without a beat the program stops the rig by itself.
import { ask, lines } from "./server.js";
import { shot, tell } from "./shot.js";
import { sayError } from "./notice.js";

const BEAT = 250; // ms

/** What the program last told of the rig. */
export let rig = null;
let claim = "";
let beating = 0;

export const mine = () => claim !== "";

/** Whether anything may move, or is about to. */
const STILL = new Set(["no rig", "opening", "reading settings", "position unknown", "ready", "cautions", "held", "waiting for the hand", "over"]);
export const moving = () => Boolean(rig?.open) && !STILL.has(rig.state);

export async function open(port, how) {
  try {
    const answer = await ask("drive/open", { text: shot.text, port, ...how });
    claim = answer.claim;
    beating = setInterval(beat, BEAT);
    void stay();
    tell("drive");
  } catch (err) {
    sayError(err);
  }
}

async function beat() {
  try {
    await ask("drive/beat", { claim });
  } catch (err) {
    if (err.status === 423) letGo();
  }
}

/** Keeps a connection for as long as this page drives: when the page is gone, so is it, and the program knows at once. */
async function stay() {
  while (claim) {
    await lines("drive/stay", { claim }, () => {}).catch(() => {});
    await new Promise((resolve) => setTimeout(resolve, BEAT));
  }
}

function letGo() {
  clearInterval(beating);
  claim = "";
  tell("drive");
}

/** Asks something of the rig. */
export async function want(request, more = {}) {
  try {
    return await ask("drive/do", { claim, request, ...more });
  } catch (err) {
    sayError(err);
    return null;
  }
}

/** Slows down and stops; while it slows, stops at once. */
export function stop() {
  if (!rig?.open || !mine()) return;
  void want(rig.takes.includes("abort") ? "abort" : "stop");
}

let drawn = true;

/** Hears how it stands with the rig. News comes faster than a screen shows it: it is known at once, and drawn with the next frame. */
export function heardDrive(state) {
  const ended = rig?.open && !state.open;
  rig = { ...state, pos: state.pos ?? [], deviation: state.deviation ?? [] }; // nothing of these before anything moves
  if (ended && mine()) letGo();
  if (!drawn) return;
  drawn = false;
  requestAnimationFrame(() => {
    drawn = true;
    tell("drive");
  });
}
