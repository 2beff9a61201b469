// clip shows a sequence: the pieces in their lengths, how the picture moves out
// of each cut into the next, and the order of the day.
import { draw, make } from "./make.js";
import { number } from "./shot.js";

const STRIP = { wide: 1000, high: 60 }; // of the drawing, in its own units
const GIGA = 1e9;

const seconds = (text) => {
  const [a, b = 1] = String(text).split("/").map(Number);
  return a / b;
};

/** What the sequence command answers. */
export function sequenced(told) {
  return make("div.answers", {},
    make("p", {}, make("b", {}, told.title), `: ${told.frames} frames, ${seconds(told.screen_seconds).toFixed(3)} s shown, ${told.first_label} to ${told.last_label}`),
    strip(told),
    told.troubles.length ? part("What does not hold", told.troubles.map((t) => make("li.bad", {}, make("span.mark", { "aria-hidden": "true" }, "\u25b2"), " ", typeof t === "string" ? t : t.text ?? JSON.stringify(t)))) : null,
    part("Pieces", told.pieces.map((p) => make("li", {}, `${p.label}  ${p.title}: ${p.frames} frames of ${p.file} from frame ${p.from}`))),
    part("Cuts", told.cuts.map((c) => cut(c, told.pieces))),
    part("The order to film in", told.order.films.map((i) => film(told.films[i]))),
    make("p", {}, `The day: ${told.needs.takes} takes, ${duration(told.needs.record_seconds)} of recording, ${duration(told.needs.day_seconds)} with every change; ${number(told.needs.bytes / GIGA, 1)} of ${number(told.needs.card_bytes / GIGA, 0)} GB of card.`));
}

const part = (name, items) => make("section", {}, make("h3", {}, name), make("ul.found", {}, items));

function cut(c, pieces) {
  const pace = c.seen ? `, at ${number(c.pace, 2)} of the pace` : "";
  return make("li", {}, `${c.label}  ${pieces[c.from].title} to ${pieces[c.to].title}: `, make("b", {}, c.momentum), pace, c.to === 0 ? "; the clip's own seam" : "");
}

const film = (f) => make("li", {}, `${f.file}: ${f.rig}; ${f.light}; ${f.takes} takes, ${duration(f.record_seconds)} each`);

function duration(text) {
  const s = seconds(text);
  return s < 90 ? `${s.toFixed(1)} s` : `${Math.round(s / 60)} min`;
}

/** The pieces side by side, and at each cut the stitches of a seam. */
function strip(told) {
  const x = (frame) => (frame / told.frames) * STRIP.wide;
  return draw("svg.strip", { viewBox: `0 0 ${STRIP.wide} ${STRIP.high}`, role: "img", "aria-label": "The pieces of the clip, in their lengths" },
    told.pieces.map((p, i) => draw("rect.piece", { x: x(p.start) + 2, y: 4 + (i % 2) * 8, width: Math.max(x(p.frames) - 4, 1), height: STRIP.high - 16, "data-film": p.film % 4 })),
    told.pieces.map((p) => draw("path.cut", { d: [12, 26, 40].map((y) => `M${x(p.start) - 6} ${y + 3}l12 -5`).join("") })));
}
