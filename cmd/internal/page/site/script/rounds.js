// rounds are the pictures there are of the text at hand and of those just before it. A
// newer one is seen as soon as it has a picture; which text a change led to is known once
// its plan has come, and one that led back is the round that was there already.
import { Frames } from "./frames.js";
import { Bitmaps } from "./bitmaps.js";

/** @typedef {{ step: number, text: string | null, frames: Frames, bitmaps: Bitmaps, failed: string, began: number, coarse: boolean }} Round */

/** @type {Round[]} the newest first */
let list = [];
let came = () => {};

/** Calls f whenever a picture has become ready to be painted. @param {() => void} f */
export const whenUnpacked = (f) => (came = f);

/** The newest round that something can be seen of. */
export const seen = () => list.find((r) => r.frames.held.size > 0 || r.failed) ?? null;

/** The round of the text at hand. */
export const newest = () => list[0] ?? null;

/** All that is held, in bytes: packed, and unpacked. */
export const held = () => list.reduce((sum, r) => ({ packed: sum.packed + r.frames.bytes, unpacked: sum.unpacked + r.bitmaps.bytes }), { packed: 0, unpacked: 0 });

/** The round of a change, in a loop of so many frames. @param {number} step @param {number} count @returns {Round} */
export function ofStep(step, count) {
  const there = list.find((r) => r.step === step);
  if (there) return there;
  const frames = new Frames(count);
  const round = { step, text: null, frames, bitmaps: new Bitmaps(frames, () => came()), failed: "", began: 0, coarse: false };
  list = [round, ...list].sort((a, b) => b.step - a.step);
  return round;
}

/** Lets go of what changes before this one led to on the way, but for a round of a text: a change may lead back to it. @param {Round} round */
export function passed(round) {
  keep((r) => r.step >= round.step || r.text !== null);
}

/** A change has led to a text: its round is the one to draw. @param {string} text @param {number} step @param {number} count @returns {Round} */
export function settled(text, step, count) {
  const back = list.find((r) => r.text === text);
  const round = back ?? ofStep(step, count);
  Object.assign(round, { text, step: Math.max(step, round.step) });
  list = [round, ...list.filter((r) => r !== round)];
  const instead = round.frames.held.size ? null : seen();
  keep((r) => r === round || r === instead);
  return round;
}

/** What is older than what is on the screen is of no use. @param {Round} round */
export function painted(round) {
  if (round === list[0] && round.text !== null) keep((r) => r === round);
}

/** @param {(r: Round) => boolean} stays */
function keep(stays) {
  for (const r of list) if (!stays(r)) r.bitmaps.close();
  list = list.filter(stays);
}
