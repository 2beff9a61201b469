// span is the part of the round that all curves show: from the last frames of the
// round before to the first of the next, or less of it, where keys are dense.
import { on, shot } from "./shot.js";
import { Glide } from "./glide.js";

const BESIDE = 0.09; // of the round that is seen of its neighbours
const LEAST = 4; // captured frames that are seen at the least
const AIR = 0.05; // of what is seen, about what is dragged
/** By how much a press of a button or a key brings the curves nearer. */
export const STEP = 1.6;

/** @type {(() => void)[]} */
const watchers = [];
const glide = new Glide(() => watchers.forEach((f) => f()));
let whole = true;
let held = false; // while the length of the loop is dragged

/** Calls f whenever another part is seen. @param {() => void} f */
export const onSpan = (f) => watchers.push(f);

/** The captured frames that are seen. @returns {[number, number]} */
export const span = () => (glide.set ? glide.now : all());

/** How many frames of its neighbours there are on each side of the round. */
export const beside = () => shot.view.frames * BESIDE;

/** All that can be seen. @returns {[number, number]} */
export const all = () => [-beside(), shot.view.frames + beside()];

/** Whether the whole round is seen. */
export const seesAll = () => whole;

/** A width that the window can have. @param {number} wide */
function width(wide) {
  const [low, high] = all();
  return Math.min(Math.max(wide, Math.min(LEAST, high - low)), high - low);
}

/** @param {number} from @param {number} to @param {boolean} atOnce */
function put(from, to, atOnce) {
  const [low, high] = all();
  const wide = width(to - from);
  const left = Math.min(Math.max(from, low), high - wide);
  whole = wide >= high - low - 1e-9;
  glide.to([left, left + wide], atOnce);
}

/** Shows frames from one to another, as far as there are. @param {number} from @param {number} to */
export const showSpan = (from, to) => put(from, to, true);

/** Brings the curves nearer by a factor, a frame staying where it is. @param {number} frame @param {number} factor */
export function zoomAt(frame, factor, atOnce = true) {
  const [from, to] = glide.goal;
  const share = width((to - from) / factor) / (to - from);
  put(frame - (frame - from) * share, frame + (to - frame) * share, atOnce);
}

/** Goes along by so many frames. @param {number} frames */
export function panBy(frames) {
  const [from, to] = span();
  put(from + frames, to + frames, true);
}

/** Shows the whole round. */
export const showAll = () => put(...all(), false);

/** Goes along until a frame is seen, if it is not. @param {number} frame */
export function reveal(frame) {
  const [from, to] = span();
  if (frame < from || frame > to) put(frame - (to - from) / 2, frame + (to - from) / 2, false);
}

/** Grows until a frame that is dragged is well within what is seen. @param {number} frame */
export function include(frame) {
  const [from, to] = span(), [low, high] = all();
  const air = (to - from) * AIR;
  glide.to([Math.max(Math.min(from, frame - air), low), Math.min(Math.max(to, frame + air), high)]);
}

/** Keeps the window still, but for a loop that grows out of it, until it is let go. @param {boolean} on */
export function holdSpan(on) {
  held = on;
  if (!on && shot.view) settle();
}

function settle() {
  if (whole && !held) return glide.to(all(), !glide.set);
  const [from, to] = span();
  if (held) glide.to([from, Math.max(to, whole ? all()[1] : shot.view.frames + (to - from) * AIR)]);
  else put(from, to, false);
}

let frames = 0;
on("view", () => {
  const same = frames === shot.view.frames;
  frames = shot.view.frames;
  if (!same || !glide.set) settle();
});
