// lens paints what the lens sees at the instant of the playhead: the picture of its
// frame, or else the nearest that there is.
import { at, words } from "./make.js";
import { frameOf, on, shot } from "./shot.js";
import { follow, playhead } from "./playhead.js";
import { drawnFrom } from "./older.js";
import { seenAt, whenThere } from "./pictures.js";
import { held, newest, painted, seen, whenUnpacked } from "./rounds.js";

/** @typedef {import("./rounds.js").Round} Round */

const canvas = at("lens");
const part = at("seen");
const AHEAD = 4; // frames that are unpacked ahead of the playhead
/** The names under which the browser keeps how long it took from a change to the picture of the playhead's frame, and to the whole round. */
export const PICTURE = "change to picture on screen";
export const MEASURE = "change to whole preview";

/** @type {ImageBitmap | null} on the canvas */
let shown = null;
/** @type {Round | null} that it is of */
let of = null;
let measured = 0; // step up to which pictures were measured
/** @type {Round | null} of which all has come */
let whole = null;
/** @type {Map<number, number>} */
const began = new Map(); // when each change was made, by its number

on("asked", (job) => {
  began.set(job.id, job.began);
  for (const id of began.keys()) if (id <= shot.step - 1) began.delete(id);
});

/** Paints the picture of the playhead's frame, or the nearest, of the newest round that has any. */
function paint(p = playhead) {
  const round = seen();
  if (!round) return none("Drawing\u2026");
  if (round.failed) return gives(round);
  const frame = frameOf(p.frame);
  const near = round.frames.nearest(Math.min(frame, round.frames.count - 1));
  if (p.playing) for (let k = 1; k <= AHEAD; k++) if (round.frames.held.has(round.frames.round(near + k))) round.bitmaps.get(round.frames.round(near + k));
  const bitmap = round.bitmaps.get(near);
  if (!bitmap) return;
  none("");
  if (bitmap !== shown) show(bitmap);
  canvas.dataset.shows = `${near} ${bitmap.width}`;
  if (of !== round) stamp(round);
  if (near === frame) measure(round);
}

/** Tells which change the picture is of. @param {Round} round */
function stamp(round) {
  of = round;
  told();
  painted(round);
}

function told() {
  if (of) drawnFrom(part, { step: of.step, text: of.text, words: "drawing" });
}

/** @param {Round} round */
function gives(round) {
  none(round.failed);
  stamp(round);
}

/** @param {string} text */
function none(text) {
  at("lens-none").hidden = text === "";
  words(at("lens-none"), text);
  canvas.classList.toggle("none", text !== "");
}

/** @param {ImageBitmap} bitmap */
function show(bitmap) {
  if (canvas.width !== bitmap.width || canvas.height !== bitmap.height) Object.assign(canvas, { width: bitmap.width, height: bitmap.height });
  canvas.getContext("2d")?.drawImage(bitmap, 0, 0);
  shown = bitmap;
}

/** @param {Round} round */
function measure(round) {
  const from = began.get(round.step);
  if (round.step <= measured || from === undefined) return;
  measured = round.step;
  requestAnimationFrame(() => performance.measure(PICTURE, { start: from, end: performance.now() }));
}

/** Says how far the round is drawn. @param {Round} round */
function progress(round) {
  const { there, of: all } = round.frames.first();
  if (there === all && whole !== round) {
    whole = round;
    if (round.began) performance.measure(MEASURE, { start: round.began, end: performance.now() });
  }
  canvas.dataset.frames = String(round.frames.held.size);
  const { packed, unpacked } = held();
  Object.assign(canvas.dataset, { packed: String(packed), unpacked: String(unpacked) });
  if (there < all) part.dataset.drawing = `drawing, ${there} of ${all}`;
  else delete part.dataset.drawing;
}

whenThere((round) => {
  if (round === newest() && round.text !== null) progress(round);
  paint();
  told(); // what a change led to may have become known
});
whenUnpacked(() => paint());
seenAt(() => canvas.clientWidth * devicePixelRatio);
follow(paint);
