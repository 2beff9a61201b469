// verdicts lists what holds and what does not, the worst first, and offers what would
// fit. What is of this instant is marked. Rows stay where they are while something is
// dragged, and are put in order when it rests.
import { at, button, make } from "./make.js";
import { on, shot } from "./shot.js";
import { follow, goTo, pause } from "./playhead.js";
import { MARKS } from "./marks.js";
import { drawnFrom } from "./older.js";
import { curesOf } from "./cures.js";
import { folds } from "./folds.js";

const NEAR = 0.02; // of the round: so near is this instant
/** @type {Level[]} */
const RANK = ["bad", "fair", "unknown", "good"];
const part = at("verdicts");
const list = at("verdict-list");
const { names, line, held, unsure, count } = folds();
const open = make("span.open");
/** @type {[Level, HTMLElement][]} */
const groups = [["good", held], ["unknown", unsure]];
/** @typedef {{ el: HTMLElement, as: string, frame: number | null }} Row */
/** @type {Map<string, Row>} by what they are of */
const rows = new Map();

list.append(line);
at("verdict-sum").append(...names, open);
on("view", draw);
on("controller", draw);

/** A glance that a closer look follows would have the rows move twice: those there are stay, dimmed, until it has come. */
function draw() {
  const first = rows.size === 0;
  if (shot.glanced && !first) return;
  drawnFrom(part);
  part.toggleAttribute("data-glanced", shot.view.sketch);
  const focus = document.activeElement;
  const had = list.contains(focus) ? focus?.getAttribute("data-fit") : null;
  const top = shot.dragged ? null : list.scrollTop; // the page is laid out to tell it
  const all = named(shot.view.verdicts.toSorted((a, b) => RANK.indexOf(a.level) - RANK.indexOf(b.level)));
  for (const [key, v] of all) write(rowOf(key), v);
  for (const [key, r] of rows) r.el.classList.toggle("past", !all.has(key)); // it is no longer told
  if (shot.dragged && !first) keep(all);
  else settle(all);
  tally();
  if (top !== null) list.scrollTop = top;
  if (had && document.activeElement !== focus) /** @type {HTMLElement | null} */ (list.querySelector(`[data-fit="${CSS.escape(had)}"]`))?.focus();
}

/** Verdicts by what they are of: several of one name are told apart by their order. @param {Wire.Verdict[]} verdicts */
function named(verdicts) {
  /** @type {Map<string, Wire.Verdict>} */
  const out = new Map();
  for (const v of verdicts) {
    let key = `${v.axis ?? ""} ${v.name}`;
    while (out.has(key)) key += "'";
    out.set(key, v);
  }
  return out;
}

/** @param {string} key @returns {Row} */
function rowOf(key) {
  const row = rows.get(key) ?? { el: make("li"), as: "", frame: null };
  rows.set(key, row);
  return row;
}

/** @param {Row} row @param {Wire.Verdict} v */
function write(row, v) {
  const as = JSON.stringify([v, shot.view.frames, shot.view.timelineFrames]);
  if (row.as === as) return;
  const m = MARKS[v.level];
  const { frame = null } = v;
  Object.assign(row, { as, frame });
  const now = row.el.classList.contains("now");
  const when = frame !== null ? button(`frame ${Math.round((frame * shot.view.timelineFrames) / shot.view.frames)}`, () => (pause(), goTo(frame)), { class: "when", title: `Go to where ${v.plain} is found`, "data-fit": "frame of " + v.axis + v.name }) : null;
  row.el.className = `verdict ${v.level}`;
  row.el.classList.toggle("now", now);
  row.el.dataset.name = v.name;
  row.el.replaceChildren(make("span.mark", { role: "img", "aria-label": m.word }, m.sign),
    make("div", {}, make("p", {}, make("b", {}, v.plain), " ", v.plain === v.name ? null : make("small.term", {}, v.name), " ", v.level === "good" ? null : make("em", {}, m.word), " ", make("span.text", {}, v.text), " ", when), curesOf(v.fits, v.name)));
}

/** While something is dragged every row keeps its place; what gets worse comes into sight below the others. @param {Map<string, Wire.Verdict>} all */
function keep(all) {
  for (const [key, v] of all) {
    const { el } = rowOf(key);
    const hidden = el.parentNode !== list && (v.level === "bad" || v.level === "fair");
    if (!el.isConnected || hidden) list.insertBefore(el, line);
  }
}

/** When it rests, rows are where they belong. Only what is elsewhere moves, so that the focus stays. @param {Map<string, Wire.Verdict>} all */
function settle(all) {
  for (const [key, r] of rows) {
    if (all.has(key)) continue;
    r.el.remove();
    rows.delete(key);
  }
  const of = (/** @type {Level[]} */ levels) => [...all].filter(([, v]) => levels.includes(v.level)).map(([key]) => rowOf(key).el);
  order(list, [...of(["bad", "fair"]), line]);
  for (const [level, into] of groups) order(into, of([level]));
}

/** @param {HTMLElement} into @param {HTMLElement[]} items */
function order(into, items) {
  items.forEach((el, i) => into.children[i] !== el && into.insertBefore(el, into.children[i] ?? null));
}

function tally() {
  const of = (/** @type {Level} */ level) => shot.view.verdicts.filter((v) => v.level === level).length;
  const some = RANK.slice(0, 2).map((l) => ({ l, n: of(l) })).filter(({ n }) => n);
  open.replaceChildren(...some.map(({ l, n }) => make("span.sum." + l, {}, `${MARKS[l].sign} ${n} ${n === 1 ? MARKS[l].word : MARKS[l].many}`)));
  count(of("good"), of("unknown"));
}

follow((p) => {
  if (!shot.view) return;
  const near = shot.view.frames * NEAR;
  for (const r of rows.values()) r.el.classList.toggle("now", r.frame !== null && Math.abs(r.frame - p.frame) <= near);
});
