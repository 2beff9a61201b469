// numbers lists every value that the shot has, table by table.
import { at, make, words } from "./make.js";
import { shot } from "./shot.js";
import { onViewOf } from "./tabs.js";
import { field } from "./fields.js";

const groups = new Map();

onViewOf("bench-numbers", () => {
  const seen = new Set();
  const by = new Map();
  for (const v of shot.view.values) by.set(v.group, [...(by.get(v.group) ?? []), v]);
  for (const [name, values] of by) (seen.add(name), group(name, values));
  for (const [name, g] of groups) if (!seen.has(name)) (g.el.remove(), groups.delete(name));
});

function group(name, values) {
  let g = groups.get(name);
  if (!g) {
    g = { el: make("fieldset", {}, make("legend", {}, titled(name))), fields: new Map() };
    groups.set(name, g);
    at("numbers").append(g.el);
  }
  const seen = new Set(values.map((v) => v.path));
  for (const [path, f] of g.fields) if (!seen.has(path)) (f.el.remove(), g.fields.delete(path));
  for (const v of values) {
    const f = g.fields.get(v.path);
    if (f) f.show(v);
    else g.fields.set(v.path, added(g, v));
  }
}

function added(g, v) {
  const f = field(v);
  g.el.append(f.el);
  return f;
}

const titled = (name) => name.replaceAll(".", " \u203a ") || "shot";

at("numbers-find").addEventListener("input", (e) => {
  const word = e.target.value.trim().toLowerCase();
  let count = 0;
  for (const g of groups.values()) {
    let any = false;
    for (const f of g.fields.values()) {
      const hit = (f.value.path + " " + f.value.help).toLowerCase().includes(word);
      f.el.hidden = !hit;
      any ||= hit;
      count += hit ? 1 : 0;
    }
    g.el.hidden = !any;
  }
  words(at("numbers-found"), word ? `${count} found` : "");
});
