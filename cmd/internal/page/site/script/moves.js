// moves shows how each axis moves: what it does, chosen from a list in plain
// words, its law, its keys, and all that its move takes.
import { at, make, words } from "./make.js";
import { shot } from "./shot.js";
import { onViewOf } from "./tabs.js";
import { field } from "./fields.js";
import { laws } from "./laws.js";
import { adder, become, offer, remover, removes } from "./shape.js";
import { keyTable } from "./keytable.js";

const LAWS = new Set(["law", "back-law"]);
const SEEN = new Set(["law"]); // in sight though it is left out: how a move eases is chosen for each
/** @typedef {import("./fields.js").Field | ReturnType<typeof laws>} AnyField */

/** @typedef {{ el: HTMLElement, kind: HTMLSelectElement, fields: Map<string, AnyField>, move: string, rests: HTMLElement, gone: HTMLElement, keys: ReturnType<typeof keyTable> | null, more: HTMLElement }} Shown */

/** @type {Map<string, Shown>} */
const axes = new Map();
const more = make("div.pair.adds", { role: "group", "aria-label": "Add an axis" });
const head = make("h3", {}, "Axes of the rig that do not move yet");
at("bench-moves").append(head, more);

onViewOf("bench-moves", () => {
  const names = new Set(shot.view.axes.map((a) => a.name));
  for (const [name, a] of axes) if (!names.has(name)) (a.el.remove(), axes.delete(name));
  for (const a of shot.view.axes) axis(a);
  const idle = shot.view.adds.filter((t) => t.what === "axis");
  head.hidden = idle.length === 0;
  offer(more, idle, (t) => adder(t, `Add ${t.path.slice("axis.".length)}`));
});

/** @param {Wire.Axis} a */
function axis(a) {
  const path = `axis.${a.name}`;
  let m = axes.get(a.name);
  if (m && m.move !== a.move) {
    const held = m.el.contains(document.activeElement) && document.activeElement === m.kind;
    m.el.remove();
    m = made(a, path);
    if (held) m.kind.focus();
  }
  m ??= made(a, path);
  const under = (/** @type {Wire.Value} */ v) => v.group.startsWith(path + ".");
  const below = m.keys ? [] : shot.view.values.filter(under).map((v) => ({ ...v, label: v.path.slice(path.length + 1) }));
  const all = [...a.moveKeys.filter((k) => k.path !== path + ".move"), ...below];
  const paths = new Set(all.map((k) => k.path));
  for (const [p, f] of m.fields) if (!paths.has(p)) (f.el.remove(), m.fields.delete(p));
  for (const k of all) put(m, k).show(k);
  m.keys?.show();
  offer(m.rests, shot.view.adds.filter((t) => t.what === "rest" && t.path.startsWith(path + ".")));
  const gone = removes(path);
  offer(m.gone, gone ? [gone] : [], (t) => remover(t, "Remove this axis"));
}

/**
 * @param {Wire.Axis} a
 * @param {string} path
 * @returns {Shown}
 */
function made(a, path) {
  /** @type {HTMLSelectElement} */
  const kind = make("select", { "aria-label": `what ${a.name} does`, onchange: () => void chosen(kind, a, path, wrong) },
    a.moves.map((m) => make("option", { value: m.name, selected: m.name === a.move }, `${m.words} (${m.name})`)));
  const wrong = make("small.wrong", { role: "alert" });
  const m = {
    el: make("fieldset", { "data-axis": a.name }, make("legend", {}, a.name), make("div.field.kind", { "data-path": `move:${path}.move` }, make("label", {}, "It does"), kind, wrong)),
    kind, fields: new Map(), move: a.move, rests: make("div.pair.adds"), gone: make("div.pair.adds"),
    keys: a.moveKeys.length && shot.view.adds.some((t) => t.path === path + ".keys") ? keyTable(path + ".keys") : null,
    more: make("details", {}, make("summary", {}, "What else this move takes")),
  };
  if (m.keys) m.el.append(m.keys.el);
  m.el.append(m.rests, m.more, m.gone);
  axes.set(a.name, m);
  const next = shot.view.axes.slice(shot.view.axes.findIndex((x) => x.name === a.name) + 1).map((x) => axes.get(x.name)).find((x) => x);
  if (next) next.el.before(m.el);
  else at("moves").append(m.el);
  return m;
}

/** @param {HTMLSelectElement} kind @param {Wire.Axis} a @param {string} path @param {HTMLElement} wrong */
async function chosen(kind, a, path, wrong) {
  const answer = await become(path + ".move", kind.value);
  if (!answer?.refused) return void words(wrong, "");
  words(wrong, answer.faults.map((f) => [f.text, f.fit].filter(Boolean).join("; ")).join(". "));
  kind.value = a.move;
}

/** @param {Shown} m @param {Wire.Value} k */
function put(m, k) {
  const had = m.fields.get(k.path);
  const f = had ?? (LAWS.has(k.label) ? laws(k) : field(k, "move:" + k.path));
  m.fields.set(k.path, f);
  const inside = f.el.parentElement === m.more;
  const away = k.value === "" && !SEEN.has(k.label);
  if (away && (!had || !inside)) m.more.append(f.el);
  else if (!away && (!had || inside)) m.rests.before(f.el);
  return f;
}
