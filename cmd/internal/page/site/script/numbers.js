// numbers lists every value that the shot has, table by table, what each table
// takes besides, and what can be added to it.
import { at, make, words } from "./make.js";
import { shot } from "./shot.js";
import { onViewOf } from "./tabs.js";
import { field } from "./fields.js";
import { Table, byTable, dropOthers, titled } from "./tables.js";
import { adder, offer, remover, removes } from "./shape.js";

/** @type {Map<string, Table & { adds: HTMLElement }>} */
const tables = new Map();
const more = make("div.pair.adds", { role: "group", "aria-label": "Add to the shot" });
at("numbers").before(make("details", {}, make("summary", {}, "Add to the shot"), more));

onViewOf("bench-numbers", () => {
  const by = byTable(shot.view.values, shot.view.takes, (name) => removes(name) !== undefined);
  /** @type {Table | null} */
  let last = null;
  for (const [name, values] of by) last = show(name, values, last);
  dropOthers(tables, by);
  offer(more, shot.view.adds);
});

/** @param {string} name @param {Wire.Value[]} values @param {Table | null} after */
function show(name, values, after) {
  const t = tables.get(name) ?? made(name, values[0].in, after);
  t.show(values, (v) => field(v));
  const gone = removes(name);
  const own = shot.view.adds.filter((t) => name !== "" && t.path.startsWith(name + ".") && !t.path.slice(name.length + 1).includes("."));
  offer(t.adds, [...own, ...(gone ? [gone] : [])], (thing) => (thing === gone ? remover(thing) : adder(thing)));
  return t;
}

/** @param {string} name @param {string} called @param {Table | null} after */
function made(name, called, after) {
  const t = Object.assign(new Table(called, make("small.key", {}, titled(name, "shot"))), { adds: make("div.pair.adds") });
  t.el.append(t.adds);
  tables.set(name, t);
  if (after) after.el.after(t.el);
  else at("numbers").prepend(t.el);
  return t;
}

at("numbers-find").addEventListener("input", () => {
  const word = at("numbers-find").value.trim().toLowerCase();
  let count = 0;
  for (const g of tables.values()) {
    let any = false, inside = false;
    for (const f of g.fields.values()) {
      const hit = (`${f.value.path} ${f.value.words} ${f.value.help}`).toLowerCase().includes(word);
      f.el.hidden = !hit;
      any ||= hit;
      inside ||= hit && f.value.value === "" && word !== "";
      count += hit ? 1 : 0;
    }
    g.el.hidden = !any;
    g.more.open = inside;
  }
  words(at("numbers-found"), word ? `${count} found` : "");
});
