// handle is one point of a curve: what moving it asks for, and where it is in words. What the
// place means, the plan says.
import { number, timelinePerFrame } from "./shot.js";
import { arrow } from "./nearest.js";

const STEPS = { fine: 0.1, plain: 1, coarse: 10 }; // mm, degrees or frames a key press

/**
 * The edit that puts a handle at a place, as far as it can be put elsewhere.
 * @param {Pick<Wire.Handle, "path" | "vary">} h
 * @param {number} frame
 * @param {number} pos
 * @returns {Wire.Edit}
 */
export function edited({ path, vary }, frame, pos) {
  return { path, ...(vary !== "pos" && { frame: Math.max(frame, 0) }), ...(vary !== "time" && { pos }) };
}

/**
 * The edit that a key press asks for; null for a key that moves it nowhere.
 * @param {Wire.Handle} h
 * @param {import("./nearest.js").Key} e
 * @param {{ frames: number, timelineFrames: number }} view
 */
export function pressed(h, e, view) {
  const to = arrow(e, STEPS);
  if (!to || (h.vary === "pos" && to.up === 0)) return null;
  const along = h.vary === "time" ? to.right || to.up : to.right;
  const frame = h.frame + (along * Math.max(to.by, STEPS.plain)) / timelinePerFrame(view);
  return edited(h, frame, h.pos + to.up * (h.step || to.by));
}

/**
 * Where a handle is: its place, when that is on screen, and in which frame of the timeline.
 * @param {Wire.Handle} h
 * @param {{ frames: number, timelineFrames: number, loopScreenSeconds: number }} view
 */
export function telling(h, { frames, timelineFrames, loopScreenSeconds }) {
  const share = h.frame / frames;
  const parts = h.vary === "time" ? [] : [`${number(h.pos, 1)} ${h.unit}`];
  return [...parts, `${number(share * loopScreenSeconds, 2)} s on screen`, `frame ${Math.round(share * timelineFrames)}`].join(", ");
}
