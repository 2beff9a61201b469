// laws is how an axis eases: each law by the picture of its shape, its pace
// below it, and the chosen one told in plain words, all in sight at once.
import { draw, make, words } from "./make.js";
import { shot } from "./shot.js";
import { change } from "./planner.js";

const WIDE = 48, TALL = 30; // of a picture, in its own units
const FASTEST = 2.2; // of the mean: the quickest pace of any law that has a name

/** The laws as a group of which one is chosen. Arrow keys go from one to the next, as in any such group. @param {Wire.Value} k */
export function laws(k) {
  const name = "law-" + k.path;
  const inputs = shot.start.laws.map((l) => make("input", { type: "radio", name, value: l.name, onchange: () => change([{ path: k.path, value: l.name }], { label: k.label }) }));
  const told = make("p.law-told", {});
  let now = "";
  const tile = (/** @type {Wire.Curve} */ l, /** @type {number} */ i) => make("label.law", { onpointerenter: () => words(told, `${l.name}: ${l.words}`), onpointerleave: () => words(told, now) }, inputs[i], picture(l), make("span", {}, l.name));
  const group = make("div.laws", { role: "radiogroup", "aria-label": `${k.words}: ${k.in}` }, shot.start.laws.map(tile));
  const head = make("div.law-head", {}, make("span", {}, k.words), make("small.key", {}, k.label), told, make("small.help", {}, k.help));
  const el = make("div.law-field", { "data-path": k.path }, head, group);
  return { el, show: (/** @type {Wire.Value} */ v) => {
    for (const i of inputs) i.checked = i.value === v.value;
    now = sayOf(v.value);
    words(told, now);
  } };
}

/** @param {string} value */
function sayOf(value) {
  const known = shot.start.laws.find((l) => l.name === value);
  if (known) return `${known.name}: ${known.words}`;
  return value ? `${value}: a law with numbers of its own` : "left out";
}

/** @param {[number, number][]} points @param {number} tall */
const line = (points, tall) => points.map(([u, s]) => `${(u * WIDE).toFixed(1)} ${(TALL - s * tall).toFixed(1)}`).join("L");

/** @param {Wire.Curve} l */
const picture = (l) => draw("svg", { viewBox: `-2 -2 ${WIDE + 4} ${TALL + 4}`, "aria-hidden": "true" },
  draw("path.pace", { d: `M0 ${TALL}L${line(l.pace, TALL / FASTEST)}L${WIDE} ${TALL}Z` }), draw("path.way", { d: "M" + line(l.curve, TALL) }));
