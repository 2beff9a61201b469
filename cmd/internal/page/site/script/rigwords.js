// rigwords are what the rig does in plain words, and how far a take has come.

/** @type {Record<string, string>} */
const STATES = {
  "opening": "Waiting for the board", "reading settings": "Reading its settings", "position unknown": "Where it stands is not known",
  "homing": "Moving to its switches", "ready": "Ready, at rest", "going to a frame": "Going to a frame", "going to the start": "Going to the start",
  "cautions": "At rest, waiting for your word", "counting in": "Counting in", "running": "Running", "slowing down": "Slowing down",
  "moving on what it holds": "Moving on what it holds", "held": "Held, at rest", "waiting for the hand": "At rest, waiting for the hand",
  "returning": "Going back to the start", "over": "Let go of",
};

/** What the rig does. @param {Wire.DriveState} rig */
export const stateWords = (rig) => (rig.held?.moving && rig.state === "ready" ? "Moved by hand" : STATES[rig.state] ?? rig.state);

const IN_TAKE = new Set(["counting in", "running", "slowing down", "moving on what it holds", "held", "waiting for the hand"]);

/** The states of a run in which the rig is on the curve of its plan. */
const ON_CURVE = new Set(["running", "slowing down", "moving on what it holds", "held", "waiting for the hand"]);

/**
 * Where the rig is on the curve of a plan, of one instant; null where it is on none.
 * @param {Wire.DriveState} rig
 * @param {string | undefined} plan
 * @returns {Wire.Seen | null}
 */
export const onCurve = (rig, plan) => (rig?.open && ON_CURVE.has(rig.state) && rig.plan === plan && rig.seen && rig.seen.round >= 0 && !rig.seen.back ? rig.seen : null);

/** The take in hand; "" where there is none. @param {Wire.DriveState} rig */
export function takeWords(rig) {
  if (!IN_TAKE.has(rig.state) || rig.state === "counting in") return "";
  return rig.take > 0 ? `${rig.where === "virtual" ? "virtual take" : "take"} ${rig.take}` : "walk";
}

/** How far it has come: round of rounds, or frames taken. @param {Wire.DriveState} rig */
export function roundWords(rig) {
  if (!ON_CURVE.has(rig.state)) return "";
  if (rig.of > 0) return `${rig.taken} of ${rig.of} frames taken`;
  if (rig.round < 0) return "run-up";
  return `round ${rig.round + 1}${rig.rounds > 0 ? ` of ${rig.rounds}` : ""}${rig.back ? ", on the way back" : ""}`;
}

/** The frame and its timecode. @param {Wire.DriveState} rig */
export function frameWords(rig) {
  return ON_CURVE.has(rig.state) && rig.round >= 0 && !rig.back ? `frame ${rig.frame}, ${rig.timecode}` : "";
}

/** The hand that is counted to next, or waited for. @param {Wire.DriveState} rig */
export function nextWords(rig) {
  if (rig.state === "waiting for the hand" && rig.calls.length) return `Take ${rig.calls.at(-1)?.text}`;
  return rig.next && rig.state === "running" ? `Next hand: ${rig.next.text}, ${rig.next.in < 1 ? "now" : `in ${Math.floor(rig.next.in)} s`}` : "";
}

/** How much of a take or a pass was run. @param {Pick<Wire.Take, "of" | "frames" | "rounds">} t */
export const extent = (t) => (t.of || t.frames ? `${t.frames}${t.of ? ` of ${t.of}` : ""} frames` : `${t.rounds} ${t.rounds === 1 ? "round" : "rounds"}`);

const TOGETHER = 120; // ms: beats of two hands that are one to the eye

/** Of beats those that are one with the last. @param {Wire.Call[]} calls */
export const together = (calls) => calls.filter((c) => calls[calls.length - 1].at - c.at < TOGETHER);

/** How many are left, as it is shown large. @param {Wire.Call[]} calls of one moment */
export function countOf(calls) {
  const left = Math.min(...calls.map((c) => c.left));
  return left > 0 ? String(left) : calls[calls.length - 1].hand ? "NOW" : "GO";
}
