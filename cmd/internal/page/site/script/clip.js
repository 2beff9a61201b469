// clip shows a sequence: the pieces in their lengths, how the picture moves out
// of each cut into the next, and the order of the day.
import { draw, make } from "./make.js";
import { number } from "./shot.js";
import { part, shown, valueOf } from "./found.js";
import { MARKS } from "./marks.js";

const STRIP = { wide: 1000, high: 60 }; // of the drawing, in its own units
const GIGA = 1e9;

/** What the sequence command answers. @param {sequencereport.Document} told */
export function sequenced(told) {
  return make("div.answers", {},
    make("p", {}, make("b", {}, told.title), `: ${told.frames} frames, ${shown(told.screen_seconds)}, ${told.first_label} to ${told.last_label}`),
    strip(told),
    told.troubles.length ? part("What does not hold", told.troubles.map((t) => make("li.bad", {}, make("span.mark", { "aria-hidden": "true" }, MARKS.bad.sign), " ", t.text))) : null,
    part("Pieces", told.pieces.map((p) => make("li", {}, `${p.label}  ${p.title}: ${p.frames} frames of ${p.file} from frame ${p.from}`))),
    part("Cuts", told.cuts.map((c) => cut(c, told.pieces))),
    part("The order to film in", told.order.films.map((i) => film(told.films[i]))),
    make("p", {}, `The day: ${told.needs.takes} takes, ${duration(told.needs.record_seconds)} of recording, ${duration(told.needs.day_seconds)} with every change${card(told.needs)}.`));
}

/** @param {sequencereport.Cut} c @param {sequencereport.Piece[]} pieces */
function cut(c, pieces) {
  const pace = c.seen ? `, at ${number(c.pace, 2)} of the pace` : "";
  return make("li", {}, `${c.label}  ${pieces[c.from].title} to ${pieces[c.to].title}: `, make("b", {}, c.momentum), pace, c.to === 0 ? "; the clip's own seam" : "");
}

/** @param {sequencereport.Film} f */
const film = (f) => make("li", {}, `${f.file}: ${f.rig}; ${f.light}; ${f.takes} takes, ${duration(f.record_seconds)} each`);

/** What of a card it fills, where that is known. @param {sequencereport.Needs} needs */
const card = ({ bytes, card_bytes: all }) => (bytes === null || all === null ? "" : `; ${number(bytes / GIGA, 1)} of ${number(all / GIGA, 0)} GB of card`);

/** @param {string} text */
function duration(text) {
  const s = valueOf(text);
  return s < 90 ? `${s.toFixed(1)} s` : `${Math.round(s / 60)} min`;
}

/** The pieces side by side, and at each cut the stitches of a seam. @param {sequencereport.Document} told */
function strip(told) {
  const x = (/** @type {number} */ frame) => (frame / told.frames) * STRIP.wide;
  return draw("svg.strip", { viewBox: `0 0 ${STRIP.wide} ${STRIP.high}`, role: "img", "aria-label": "The pieces of the clip, in their lengths" },
    told.pieces.map((p, i) => draw("rect.piece", { x: x(p.start) + 2, y: 4 + (i % 2) * 8, width: Math.max(x(p.frames) - 4, 1), height: STRIP.high - 16, "data-film": p.film % 4 })),
    told.pieces.map((p) => draw("path.cut", { d: [12, 26, 40].map((y) => `M${x(p.start) - 6} ${y + 3}l12 -5`).join("") })));
}
