// filmseen shows the film beside what the lens was to see, or over it, under the same playhead.
import { at, button, make, words } from "./make.js";
import { pictures } from "./server.js";
import { frameOf, on } from "./shot.js";
import { follow, playhead } from "./playhead.js";
import { givenUp } from "./refusal.js";
import { sayError } from "./notice.js";
import { Frames } from "./frames.js";
import { Bitmaps } from "./bitmaps.js";
import { film, lies } from "./film.js";
import { frameIn, missing, nextWanted } from "./filmplace.js";

const MOST = 24e6; // bytes of packed pictures
const AHEAD = 240, BEHIND = 60; // frames about the playhead that are there before it is
const TURN = 40; // pictures in one question
const UNPACK = 3; // that are unpacked before they are seen
const WIDE = 480; // px, the most that there are

const part = at("seen");
const box = /** @type {HTMLElement} */ (part.querySelector(".frame"));

/** @type {ReturnType<typeof build> | null} what is on the page; none before the first take */
let made = null;
/** @type {{ id: string, frames: Frames, bitmaps: Bitmaps } | null} */
let held = null;
/** @type {AbortController | null} */
let under = null;
let over = false;
/** @type {ImageBitmap | null} on the canvas */
let shown = null;

function build() {
  const canvas = make("canvas", { id: "film", width: "480", height: "270", role: "img", "aria-label": "What the camera saw at this instant" });
  const none = make("p.none-words.film-none", { hidden: true });
  const how = make("span", {}, "As filmed"), which = make("output", { "aria-label": "Frame of the film", "aria-live": "off" });
  const all = make("span.of", {});
  const tag = make("p.film-tag", {}, how, " ", which, all);
  const beside = button("Beside", () => lay(false), { "aria-pressed": "true", title: "The film beside what the lens was to see" });
  const above = button("Over", () => lay(true), { "aria-pressed": "false", title: "The film over what the lens was to see" });
  const mix = make("input", { type: "range", id: "film-mix", min: "0", max: "100", step: "5", value: "50", "aria-label": "How much of the film over the plan, in per cent" });
  const round = make("select", { id: "film-round", "aria-label": "Round of the take that is seen" });
  const label = make("label.film-mix", { hidden: true }, "Plan ", mix, " Film");
  const bar = make("div.film-bar", { role: "group", "aria-label": "The film and the plan" },
    make("span.joined", {}, beside, above), label, round);
  mix.addEventListener("input", paint);
  round.addEventListener("change", () => ((film.round = Number(round.value)), paint()));
  box.append(canvas, none, tag);
  box.after(bar);
  return { canvas, none, tag, how, which, all, beside, above, label, mix, round, bar };
}

/** @param {boolean} is one over the other */
function lay(is) {
  over = is;
  shown = null;
  paint();
}

/** Begins with another take, or ends with the last. */
function begin() {
  const { told } = film;
  if (!told && !made) return;
  made ??= build();
  part.classList.toggle("has-film", Boolean(told));
  for (const el of [made.canvas, made.tag, made.bar]) el.hidden = !told;
  if (held?.id !== film.id || !told) close();
  if (!told) return void (made.none.hidden = true);
  if (!held) {
    const frames = new Frames(told.frames, MOST);
    held = { id: film.id, frames, bitmaps: new Bitmaps(frames, paint) };
  }
  const rounds = Array.from({ length: told.rounds }, (_, n) => make("option", { value: String(n) }, `Round ${n + 1}`));
  if (made.round.options.length !== rounds.length) made.round.replaceChildren(...rounds);
  made.round.value = String(film.round);
  made.round.hidden = rounds.length < 2;
  shown = null;
  paint();
}

function close() {
  under?.abort();
  held?.bitmaps.close();
  under = held = shown = null;
}

/** Paints the frame of the film that is of the playhead's instant. */
function paint() {
  if (!made || !film.told) return;
  mixed(made);
  const how = lies();
  if (!how) return none("Nothing tells where frame 0 is in the film. Set it in the bench, and it is seen here.");
  const frame = frameIn(how, frameOf(playhead.frame));
  const why = missing(how, frame, film.told.pictures);
  none(why);
  if (why) return;
  want(frame);
  if (playhead.playing) for (let k = 1; k <= UNPACK; k++) if (held?.frames.held.has(frame + k)) held.bitmaps.get(frame + k);
  const bitmap = held?.bitmaps.get(frame);
  if (!bitmap) return;
  show(made.canvas, bitmap);
  made.canvas.dataset.shows = String(frame);
  words(made.which, `frame ${frame}`);
  words(made.all, ` of ${how.frames}`);
}

/** @param {NonNullable<typeof made>} of */
function mixed({ canvas, none, beside, above, label, mix, how }) {
  part.classList.toggle("film-over", over);
  beside.setAttribute("aria-pressed", String(!over));
  above.setAttribute("aria-pressed", String(over));
  label.hidden = !over;
  canvas.style.opacity = over ? String(mix.valueAsNumber / 100) : "1";
  mix.setAttribute("aria-valuetext", `${mix.value} % film`);
  words(how, over ? "Film over it," : "As filmed,");
  none.classList.toggle("over-it", over);
}

/** @param {string} why */
function none(why) {
  if (!made) return;
  made.none.hidden = why === "";
  words(made.none, why);
  made.canvas.classList.toggle("none", why !== "");
  if (why) (words(made.which, "no picture"), words(made.all, ""), delete made.canvas.dataset.shows);
}

/** One over the other, both are as wide: what differs in height is cut off or left free. @param {HTMLCanvasElement} canvas @param {ImageBitmap} bitmap */
function show(canvas, bitmap) {
  const { width, height } = over ? at("lens") : bitmap;
  if (bitmap === shown && canvas.width === width && canvas.height === height) return;
  if (canvas.width !== width || canvas.height !== height) Object.assign(canvas, { width, height });
  const high = (width * bitmap.height) / bitmap.width;
  const on = canvas.getContext("2d");
  on?.clearRect(0, 0, width, height);
  on?.drawImage(bitmap, 0, (height - high) / 2, width, high);
  shown = bitmap;
}

/** Asks for pictures from a frame on, one question at a time. @param {number} from */
function want(from) {
  const of = held;
  if (under || !of || !film.told) return;
  const frames = nextWanted(from, film.told.pictures, (k) => of.frames.held.has(k), AHEAD, BEHIND, TURN);
  if (!frames.length) return;
  const mine = (under = new AbortController());
  void pictures("film/pictures", { film: of.id, frames }, (data, i) => {
    of.frames.put(frames[i], { wide: WIDE, data });
    if (i === 0) paint();
  }, mine.signal).then(() => true, (err) => (givenUp(err) || sayError(err), false)).then((came) => {
    if (under !== mine) return;
    under = null;
    if (came) paint();
  });
}

on("film", () => (film.told && film.doing) || begin());
follow(paint);
