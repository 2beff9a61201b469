// lens plays what the lens sees: pictures that the program draws, kept here for
// the round at hand. While a new round is drawn, the old one is still seen.
import { at, words } from "./make.js";
import { pictures } from "./server.js";
import { on, shot } from "./shot.js";
import { follow, playhead } from "./playhead.js";
import { rig } from "./driver.js";

const canvas = at("lens");
const WIDE = 240, FINE = 640; // px: at once, and when nothing has changed for a while
const RESTED = 1500; // ms
const STILL = 60; // ms that what is dragged has to rest before the round is drawn: plans come first
/** The name under which the browser keeps how long the whole round took. */
export const MEASURE = "change to whole preview";

let frames = []; // ImageBitmaps by captured frame
let drawnOf = ""; // text that the frames are of
let askedOf = "";
let under = null; // the question under way
let rest = 0;

async function ask(text, wide) {
  under?.abort();
  under = new AbortController();
  const { signal } = under;
  const { began } = shot;
  const fresh = [];
  const waits = [];
  try {
    await pictures("preview", { text, edits: [], width: wide, from: 0, to: 0 }, (blob) => {
      const k = fresh.length;
      fresh.push(null);
      waits.push(createImageBitmap(blob).then((b) => put(fresh, k, b, signal)));
    }, signal);
    await Promise.all(waits);
    if (signal.aborted) return;
    under = null;
    drawnOf = text;
    swap(fresh);
    canvas.dataset.frames = fresh.length;
    if (wide === WIDE) performance.measure(MEASURE, { start: began, end: performance.now() });
    none("");
    if (wide === WIDE) rest = setTimeout(() => rig?.open || document.hidden || ask(text, FINE), RESTED);
  } catch (err) {
    if (err.name === "AbortError") return;
    under = null;
    drawnOf = text;
    swap([]);
    none(err.message);
  }
}

/** A picture is seen at once where there is none yet. */
function put(fresh, k, bitmap, signal) {
  if (signal.aborted) return bitmap.close();
  fresh[k] = bitmap;
  if (frames.length === 0 && k === Math.floor(playhead.frame)) show(bitmap);
}

function swap(fresh) {
  const old = frames;
  frames = fresh;
  for (const b of old) b?.close();
  paint(playhead);
}

function none(text) {
  at("lens-none").hidden = text === "";
  words(at("lens-none"), text);
  canvas.classList.toggle("none", text !== "");
}

function show(bitmap) {
  if (canvas.width !== bitmap.width || canvas.height !== bitmap.height) Object.assign(canvas, { width: bitmap.width, height: bitmap.height });
  canvas.getContext("2d").drawImage(bitmap, 0, 0);
}

let shown = null;
function paint(p) {
  const bitmap = frames[Math.min(Math.floor(p.frame + 1e-6), frames.length - 1)];
  if (bitmap && bitmap !== shown) show((shown = bitmap));
}

// A plan comes first: what is drawn for an earlier one makes room for it.
on("asking", () => {
  clearTimeout(rest);
  under?.abort();
  under = null;
  askedOf = drawnOf;
});
on("planned", () => {
  if (!shot.view || shot.text === askedOf || shot.faults.length) return;
  askedOf = shot.text;
  if (shot.dragged) rest = setTimeout(() => ask(shot.text, WIDE), STILL);
  else void ask(shot.text, WIDE);
});
// While the rig is driven, this machine has better things to do than to draw finely.
on("drive", () => {
  if (!rig?.open || askedOf !== drawnOf) return;
  clearTimeout(rest);
  under?.abort();
  under = null;
});
follow(paint);
