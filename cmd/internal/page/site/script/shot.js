// shot is what the page knows: the text of the shot, what it was planned to,
// what is on disk. Everything on screen is drawn from it.

export const shot = {
  text: "",
  saved: "", // the text on disk, as last heard
  revision: "",
  view: null, // of the last text that could be planned
  faults: [], // of text
  start: null,
  dragged: false, // whether more of the same change is to come
  began: 0, // when the change was made that led to the view, in ms of the page's clock
};

const hearers = new Map();

/** Calls f whenever something of that name is told: "asking" and "planned" (before and after plans), "view", "controller" (its verdicts have come), "text", "faults", "disk", "drive". */
export function on(name, f) {
  hearers.set(name, [...(hearers.get(name) ?? []), f]);
}

export function tell(name, what) {
  for (const f of hearers.get(name) ?? []) f(what);
}

export const unsaved = () => shot.text !== shot.saved || Boolean(shot.start?.new && shot.revision === "");

/** Whether the plan on screen is of an earlier text than the one at hand. */
export const stale = () => shot.faults.length > 0;

/** Timeline frames in a captured one. */
export const timelinePerFrame = (view) => view.timelineFrames / view.frames;

/** Where an axis is at a captured frame of the round; between places, in proportion. */
export function position(axis, frame, view = shot.view) {
  const at = Math.min(Math.max(frame / view.every, 0), axis.pos.length - 1);
  const low = Math.floor(at);
  const a = axis.pos[low];
  const b = axis.pos[Math.min(low + 1, axis.pos.length - 1)];
  return a + (b - a) * (at - low);
}

/** What a round turns an axis on by. */
export const turned = (axis) => axis.pos.at(-1) - axis.pos[0];

export function number(x, places = 1) {
  const text = x.toFixed(places);
  return Number(text) === 0 ? (0).toFixed(places) : text.replace("-", "\u2212");
}
