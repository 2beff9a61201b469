// takes lists the takes of the shot, as its log has them: which to keep, and
// what was noted.
import { at, button, make } from "./make.js";
import { ask } from "./server.js";
import { sayError } from "./notice.js";
import { on } from "./shot.js";
import { moving } from "./driver.js";

export async function showTakes(mark) {
  try {
    const { takes } = await ask("takes", mark ? { mark } : {});
    const filmed = takes.filter((t) => !t.virtual), virtual = takes.filter((t) => t.virtual);
    at("takes").replaceChildren(...(filmed.length ? filmed.map(row) : [make("li.none", {}, "No take yet.")]));
    at("virtual-takes").replaceChildren(...virtual.map((t) => make("li", { "data-virtual-take": t.take }, make("p", {}, make("b", {}, `virtual take ${t.take}`), ` ${t.end}, ${t.rounds} rounds`))));
    at("virtual-takes-head").hidden = !virtual.length;
    lock();
  } catch (err) {
    sayError(err);
  }
}

function row(t) {
  const note = make("input", { type: "text", "aria-label": `Note on take ${t.take}`, placeholder: "a note" });
  const add = () => note.value.trim() && showTakes({ take: t.take, note: note.value.trim() });
  note.addEventListener("keydown", (e) => e.key === "Enter" && add());
  return make("li", { "data-take": t.take },
    make("p", {}, make("b", {}, `take ${t.take}`), ` ${t.end}, ${t.rounds} rounds`, ...t.notes.map((n) => make("q", {}, n))),
    make("div.pair", {}, button(t.keep ? "\u25cf Kept" : "\u25cb Keep", () => showTakes({ take: t.take, keep: !t.keep, note: "" }), { "aria-pressed": String(t.keep), "aria-label": `Keep take ${t.take}` }), note, button("Add note", add)));
}

/** Notes wait until the rig rests: while it moves, the space bar stops it and types nothing. */
function lock() {
  const locked = moving();
  for (const i of at("takes").querySelectorAll("input")) {
    i.disabled = locked;
    i.placeholder = locked ? "when the rig rests" : "a note";
  }
}

on("drive", lock);
at("takes-again").addEventListener("click", () => showTakes());
