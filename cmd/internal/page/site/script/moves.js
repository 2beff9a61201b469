// moves shows how each axis moves: the law by the picture of its shape, and
// every key that its move takes.
import { at, draw, make } from "./make.js";
import { shot } from "./shot.js";
import { onViewOf } from "./tabs.js";
import { change } from "./planner.js";
import { field } from "./fields.js";

const SIZE = 44; // of a picture, in its own units
const LAWS = new Set(["law", "back-law"]);
const axes = new Map();

onViewOf("bench-moves", () => {
  const names = new Set(shot.view.axes.map((a) => a.name));
  for (const [name, a] of axes) if (!names.has(name)) (a.el.remove(), axes.delete(name));
  for (const a of shot.view.axes) axis(a);
});

function axis(a) {
  let m = axes.get(a.name);
  if (m && m.move !== a.move) {
    m.el.remove();
    m = null;
  }
  if (!m) {
    m = { el: make("fieldset", {}, make("legend", {}, `${a.name}: ${a.move}`)), fields: new Map(), move: a.move };
    m.more = make("details", {}, make("summary", {}, "What else this move takes"));
    axes.set(a.name, m);
    at("moves").append(m.el);
    m.el.append(m.more);
  }
  const below = shot.view.values.filter((v) => v.group.startsWith(`axis.${a.name}.`)).map((v) => ({ ...v, label: v.path.slice(`axis.${a.name}.`.length) }));
  const paths = new Set([...a.moveKeys, ...below].map((k) => k.path));
  for (const [path, f] of m.fields) if (!paths.has(path)) (f.el.remove(), m.fields.delete(path));
  for (const k of [...a.moveKeys, ...below]) (m.fields.get(k.path) ?? put(m, k)).show(k);
}

function put(m, k) {
  const f = LAWS.has(k.label) ? laws(k) : field(k, "move:" + k.path);
  m.fields.set(k.path, f);
  if (k.value === "") m.more.append(f.el);
  else m.more.before(f.el);
  return f;
}

/** The laws as a group of which one is chosen. Arrow keys go from one to the next, as in any such group. */
function laws(k) {
  const name = "law-" + k.path;
  const inputs = shot.start.laws.map((l) => make("input", { type: "radio", name, value: l.name, onchange: () => change([{ path: k.path, value: l.name }], { label: k.label }) }));
  const group = make("div.laws", { role: "radiogroup", "aria-label": k.path.replaceAll(".", " ") },
    shot.start.laws.map((l, i) => make("label.law", { title: l.name }, inputs[i], picture(l.curve), make("span", {}, l.name))));
  const head = make("div.law-head", {}, make("span", {}, k.label), make("small", {}, k.help));
  const other = make("p.law-other", {});
  const el = make("div.law-field", { "data-path": k.path }, head, group, other);
  return { el, show: (v) => {
    for (const i of inputs) i.checked = i.value === v.value;
    const known = inputs.some((i) => i.checked);
    other.textContent = known ? "" : v.value ? `Now: ${v.value}, a law with numbers of its own.` : "Left out.";
  } };
}

const picture = (curve) => draw("svg", { viewBox: `-3 -3 ${SIZE + 6} ${SIZE + 6}`, "aria-hidden": "true" },
  draw("path", { d: "M" + curve.map(([u, s]) => `${(u * SIZE).toFixed(1)} ${(SIZE - s * SIZE).toFixed(1)}`).join("L") }));
