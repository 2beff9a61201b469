// playhead is the one instant that everything on screen is of, in captured
// frames from the loop's first, and the clock that moves it.
import { frameOf, on, shot, timelinePerFrame } from "./shot.js";

/** How fast the round passes: as it will be shown, half of that, or as the rig does it. */
/** @typedef {keyof typeof PACES} Pace */
export const PACES = { shown: "As shown", half: "Half", real: "Real time" };

export const playhead = { frame: 0, playing: false, pace: /** @type {Pace} */ ("shown"), seam: false };

/** @type {((p: typeof playhead) => unknown)[]} */
const watchers = [];
let last = 0;

/** Calls f with every move of the playhead. @param {(p: typeof playhead) => unknown} f */
export const follow = (f) => watchers.push(f);

export function refresh() {
  for (const f of watchers) f(playhead);
}

/** Captured frames on each side of the seam when it is looped by itself: half a second on screen, and never more than a quarter of the round. */
function seamReach() {
  const { frames, loopScreenSeconds } = shot.view;
  return Math.min(frames / 4, frames / loopScreenSeconds / 2);
}

/** @param {number} frame @param {number} frames */
const wrap = (frame, frames) => ((frame % frames) + frames) % frames;

/** Where the frame of the timeline begins that a place in the round is in. @param {number} frame */
export function wholeFrame(frame) {
  const per = timelinePerFrame(shot.view);
  return frameOf(frame * per) / per;
}

/** In a loop that has become shorter than that, it stands on the last frame. */
on("view", () => (playhead.frame = Math.min(playhead.frame, shot.view.frames - 1)));

/** @param {number} frame */
export function goTo(frame) {
  if (!shot.view) return;
  playhead.frame = wrap(frame, shot.view.frames);
  refresh();
}

/** Moves on by whole frames of the timeline, and stands still. @param {number} count */
export function stepBy(count) {
  if (!shot.view) return;
  pause();
  const per = timelinePerFrame(shot.view);
  const from = Math.round(playhead.frame * per);
  goTo((from + count) / per);
}

/** Stands still, on a whole frame of the timeline: what it went through in between is of none. */
export function pause() {
  if (playhead.playing) playhead.frame = wholeFrame(playhead.frame);
  playhead.playing = false;
  refresh();
}

export function play() {
  if (!shot.view || playhead.playing) return;
  playhead.playing = true;
  last = performance.now();
  requestAnimationFrame(tick);
  refresh();
}

export const playOrPause = () => (playhead.playing ? pause() : play());

/** @param {Pace} pace */
export function setPace(pace) {
  playhead.pace = pace;
  refresh();
}

/** Stands on the seam, or loops what is around it. */
export function holdSeam() {
  pause();
  goTo(0);
}

/** @param {boolean} on */
export function loopSeam(on) {
  playhead.seam = on;
  if (on) goTo(-seamReach());
  refresh();
}

function speed() {
  const { frames, loopScreenSeconds, captureHz } = shot.view;
  const shown = frames / loopScreenSeconds;
  return { shown, half: shown / 2, real: captureHz }[playhead.pace];
}

/** @param {number} now */
function tick(now) {
  if (!playhead.playing) return;
  const gone = Math.min((now - last) / 1000, 0.25); // a page that was asleep does not jump
  last = now;
  const before = Math.floor(playhead.frame);
  playhead.frame = onward(playhead.frame + gone * speed());
  if (Math.floor(playhead.frame) !== before) refresh();
  requestAnimationFrame(tick);
}

/** @param {number} frame */
function onward(frame) {
  const { frames } = shot.view;
  const reach = seamReach();
  const at = wrap(frame, frames);
  if (playhead.seam && at > reach && at < frames - reach) return frames - reach;
  return at;
}
