// shot is what the page knows: the text of the shot, what it was planned to,
// what is on disk. Everything on screen is drawn from it.

export const shot = {
  text: "",
  saved: "", // the text on disk, as last heard
  revision: "",
  view: /** @type {Wire.View} */ (/** @type {unknown} */ (null)), // of the last text that could be planned; null before the first, when nothing is told
  faults: /** @type {Wire.Fault[]} */ ([]), // of text
  planned: "", // the text that these are of: what is typed is planned once it rests
  start: /** @type {Wire.Start} */ (/** @type {unknown} */ (null)), // null until the program has answered
  step: 0, // the number of the change that the view is of
  asked: 0, // that of the newest change
  pending: false, // whether the newest change is still being planned
  dragged: false, // whether more of the same change is to come
  glanced: false, // whether the view is at a glance, and a closer look at the same is under way
  began: 0, // when the change was made that led to the view, in ms of the page's clock
};

/** @type {Map<keyof Tellings, ((what: never) => unknown)[]>} */
const hearers = new Map();

/**
 * Calls f whenever something of that name is told.
 * @template {keyof Tellings} K
 * @param {K} name
 * @param {(what: Tellings[K]) => unknown} f
 */
export function on(name, f) {
  hearers.set(name, [...(hearers.get(name) ?? []), f]);
}

/**
 * @template {keyof Tellings} K
 * @param {K} name
 * @param {Tellings[K] extends void ? [] : [Tellings[K]]} what
 */
export function tell(name, ...what) {
  for (const f of hearers.get(name) ?? []) f(/** @type {never} */ (what[0]));
}

export const unsaved = () => shot.text !== shot.saved || Boolean(shot.start?.new && shot.revision === "");

/** The frame that a place in the round is in; what falls short of one by rounding is in it. @param {number} place */
export const frameOf = (place) => Math.floor(place + 1e-6);

/**
 * Timeline frames in a captured one.
 * @param {{ frames: number, timelineFrames: number }} view
 */
export const timelinePerFrame = (view) => view.timelineFrames / view.frames;

/**
 * Where an axis is at a captured frame of the round; between places, in proportion.
 * @param {{ pos: number[] }} axis
 * @param {number} frame
 */
export function position(axis, frame, view = shot.view) {
  const at = Math.min(Math.max(frame / view.every, 0), axis.pos.length - 1);
  const low = Math.floor(at);
  const a = axis.pos[low];
  const b = axis.pos[Math.min(low + 1, axis.pos.length - 1)];
  return a + (b - a) * (at - low);
}

/**
 * What a round turns an axis on by.
 * @param {{ pos: number[] }} axis
 */
export const turned = (axis) => axis.pos[axis.pos.length - 1] - axis.pos[0];

/**
 * A number as it is read, with a true minus, and none before nothing.
 * @param {number} x
 * @param {number} [places]
 */
export function number(x, places = 1) {
  const text = x.toFixed(places);
  return Number(text) === 0 ? (0).toFixed(places) : text.replace("-", "\u2212");
}
