// course is what a curve is drawn from: where an axis is over the round and beside it.
import { position, turned } from "./shot.js";
import { beside } from "./span.js";

const AIR = 0.14; // of the travel, above and below the curve
const LEAST = 1; // mm or degrees: what stays is drawn in a window of this

/**
 * Where an axis is at a frame of the round or of those beside it: turned on by what a round turns it.
 * @param {{ pos: number[] }} axis
 * @param {number} frame
 * @param {number} frames
 */
export function where(axis, frame, frames) {
  if (frame < 0) return position(axis, frame + frames) - turned(axis);
  if (frame > frames) return position(axis, frame - frames) + turned(axis);
  return position(axis, frame);
}

/**
 * Frames, where the axis is in the round, and where in those beside it.
 * @param {{ pos: number[] }} axis
 * @param {{ frames: number, every: number }} view
 */
export function course(axis, { frames, every }) {
  const side = Math.max(1, Math.round(beside() / every)) * every;
  /** @type {[number[], (number | null)[], (number | null)[]]} */
  const [x, own, others] = [[], [], []];
  const put = (/** @type {number} */ frame, /** @type {number | null} */ a, /** @type {number | null} */ b) => (x.push(frame), own.push(a), others.push(b));
  for (let f = -side; f < 0; f += every) put(f, null, where(axis, f, frames));
  axis.pos.forEach((p, i) => put(Math.min(i * every, frames), p, i === 0 || i === axis.pos.length - 1 ? p : null));
  for (let f = frames + every; f <= frames + side; f += every) put(f, null, where(axis, f, frames));
  return [x, own, others];
}

/** What has to be seen of an axis, with air about it. @param {Curved} axis @returns {[number, number]} */
export function extent(axis) {
  let low = Infinity, high = -Infinity;
  const hold = (/** @type {number} */ pos) => ((low = Math.min(low, pos)), (high = Math.max(high, pos)));
  axis.pos.forEach(hold);
  for (const h of axis.handles) hold(h.pos);
  const air = Math.max((high - low) * AIR, LEAST / 2);
  return [low - air, high + air];
}
