// verdicts lists what holds and what does not, the worst first, and offers what
// would fit. What is of this instant is marked.
import { at, button, make, words } from "./make.js";
import { on, shot } from "./shot.js";
import { change } from "./planner.js";
import { follow, goTo, pause } from "./playhead.js";
import { MARKS } from "./marks.js";

const NEAR = 0.02; // of the round: so near is this instant
const RANK = ["bad", "fair", "unknown", "good"];
const list = at("verdict-list");
let rows = [];

on("view", draw);
on("controller", draw);

function draw() {
  const had = document.activeElement?.dataset?.fit;
  const all = shot.view.verdicts.map((v, i) => ({ v, i })).sort((a, b) => RANK.indexOf(a.v.level) - RANK.indexOf(b.v.level) || a.i - b.i);
  rows = all.map(({ v }) => row(v));
  list.replaceChildren(...rows.map((r) => r.el));
  const counts = RANK.map((l) => [l, shot.view.verdicts.filter((v) => v.level === l).length]).filter(([, n]) => n);
  at("verdict-sum").replaceChildren(...counts.map(([l, n]) => make("span.sum." + l, {}, `${MARKS[l].sign} ${n} ${n === 1 ? MARKS[l].word : MARKS[l].many}`)));
  words(at("ready"), shot.view.words);
  at("ready").className = shot.view.level;
  at("ready").prepend(make("span.mark", { "aria-hidden": "true" }, MARKS[shot.view.level].sign));
  if (had) list.querySelector(`[data-fit="${CSS.escape(had)}"]`)?.focus();
}

function row(v) {
  const m = MARKS[v.level];
  const when = typeof v.frame === "number" ? button(`frame ${Math.round((v.frame * shot.view.timelineFrames) / shot.view.frames)}`, () => (pause(), goTo(v.frame)), { class: "when", title: `Go to where ${v.name} is found` }) : null;
  const el = make("li.verdict." + v.level, { "data-name": v.name },
    make("span.mark", { role: "img", "aria-label": m.word }, m.sign),
    make("div", {}, make("p", {}, make("b", {}, [v.axis, v.name].filter(Boolean).join(", ")), v.level === "good" ? null : make("em", {}, m.word), make("span.text", {}, v.text), when), fits(v)));
  return { el, frame: v.frame };
}

function fits(v) {
  if (v.fits.length === 0) return null;
  return make("ul.fits", { "aria-label": "What would do" }, v.fits.map((f) => make("li", {}, f.edits?.length
    ? button(f.text, () => change(f.edits, { label: f.text }), { class: "fit", "data-fit": v.name + f.text })
    : f.text)));
}

follow((p) => {
  if (!shot.view) return;
  const near = shot.view.frames * NEAR;
  for (const r of rows) r.el.classList.toggle("now", typeof r.frame === "number" && Math.abs(r.frame - p.frame) <= near);
});
