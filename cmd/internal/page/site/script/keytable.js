// keytable shows the keys of a move as a table: when, where, and what else each
// has. A key is added in the widest gap, on the curve.
import { make } from "./make.js";
import { shot } from "./shot.js";
import { field } from "./fields.js";
import { add, remover, removes } from "./shape.js";

/**
 * The table of the keys at a path; show it with each plan.
 * @param {string} path
 */
export function keyTable(path) {
  const body = make("tbody");
  const more = make("button.quiet.add", { type: "button", "data-add": path, onclick: () => {
    const thing = shot.view.adds.find((t) => t.path === path);
    if (thing) void add(thing);
  } }, "Add a key");
  const el = make("div.keys", {}, make("table", {}, make("caption.unseen", {}, path),
    make("thead", {}, make("tr", {}, ["Key", "Time", "Place", "Besides", ""].map((t) => make("th", { scope: "col" }, t)))), body), more);
  /** @type {ReturnType<typeof row>[]} */
  const rows = [];
  return { el, show: () => {
    const values = shot.view.values.filter((v) => v.path.startsWith(path + "["));
    const count = new Set(values.map((v) => v.group)).size;
    while (rows.length > count) rows.pop()?.el.remove();
    while (rows.length < count) rows.push(row(body, `${path}[${rows.length + 1}]`, rows.length + 1));
    const takes = shot.view.takes.filter((t) => t.path.startsWith(path + "["));
    for (const r of rows) r.show([values, takes].flatMap((some) => some.filter((v) => v.group === r.path)));
  } };
}

const PLACE = ["pos", "level", "focus"];

/** @param {HTMLElement} body @param {string} path @param {number} n */
function row(body, path, n) {
  const time = make("td"), place = make("td"), rest = make("td"), gone = make("td");
  const el = make("tr", { "data-path": path }, make("th", { scope: "row" }, String(n)), time, place, rest, gone);
  body.append(el);
  /** @type {Map<string, import("./fields.js").Field>} */
  const fields = new Map();
  const besides = make("details", {}, make("summary", {}, "more"));
  rest.append(besides);
  const put = (/** @type {Wire.Value} */ v) => {
    const f = field(v, "key:" + v.path);
    fields.set(v.path, f);
    if (v.label === "at" || PLACE.includes(v.label)) f.input.setAttribute("aria-label", `key ${n}, ${v.label === "at" ? "time" : "place"}`);
    return f;
  };
  return { el, path, show: (/** @type {Wire.Value[]} */ all) => {
    for (const [p, f] of fields) if (!all.some((v) => v.path === p)) (f.el.remove(), fields.delete(p));
    for (const v of all) {
      const f = fields.get(v.path) ?? put(v);
      const cell = v.label === "at" ? time : PLACE.includes(v.label) ? place : v.value === "" ? besides : rest;
      if (f.el.parentElement !== cell) cell.append(f.el);
      f.show(v);
    }
    const thing = removes(path);
    if (!thing) gone.replaceChildren();
    else if (!gone.firstChild) gone.append(remover(thing, ""));
  } };
}
