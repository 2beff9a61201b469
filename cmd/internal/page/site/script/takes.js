// takes lists the takes of the shot, as its log has them: which to keep, and
// what was noted.
import { at, button, make, words } from "./make.js";
import { ask } from "./server.js";
import { sayError } from "./notice.js";
import { on, shot } from "./shot.js";
import { extent } from "./rigwords.js";
import { moving } from "./driver.js";

/** Logs a take that was not driven from here. */
at("log-take").addEventListener("click", async () => {
  const number = (/** @type {"log-rounds" | "log-took"} */ id) => Number(at(id).value) || 0;
  const log = { text: shot.text, rounds: number("log-rounds"), took: number("log-took"), group: at("log-group").value.trim(), pass: at("log-pass").value.trim() };
  if (await showTakes(undefined, log)) at("log-took").value = "";
});
on("view", () => (at("log-rounds").placeholder = String(shot.view.rounds)));

/** @param {Wire.Questions["takes"]["mark"]} [mark] @param {Wire.Questions["takes"]["log"]} [log] */
export async function showTakes(mark, log) {
  try {
    const { takes } = await ask("takes", { mark, log });
    const filmed = takes.filter((t) => !t.virtual), virtual = takes.filter((t) => t.virtual);
    anew(at("takes"), filmed.length ? filmed.map(row) : [make("li.none", {}, "No take yet.")]);
    at("virtual-takes").replaceChildren(...virtual.map((t) => make("li", { "data-virtual-take": t.take }, make("p", {}, make("b", {}, `virtual take ${t.take}`), ` ${t.end}, ${extent(t)}${t.group ? `; ${t.group}, pass ${t.pass}` : ""}`))));
    at("virtual-takes-head").hidden = !virtual.length;
    const groups = [...new Set(takes.map((t) => t.group).filter(Boolean))];
    at("groups").replaceChildren(...groups.map((g) => button(`How ${g} matches`, () => void match(g))));
    lock();
    return true;
  } catch (err) {
    sayError(err);
    return false;
  }
}

/**
 * Draws rows anew. What has the focus keeps it, and what was typed in them stays, by their names.
 * @param {HTMLElement} list @param {HTMLElement[]} rows
 */
function anew(list, rows) {
  const name = (/** @type {Element | null} */ e) => e?.getAttribute("aria-label");
  const held = list.contains(document.activeElement) ? name(document.activeElement) : null;
  const typed = new Map([...list.querySelectorAll("input")].map((i) => [name(i), i.value]));
  list.replaceChildren(...rows);
  for (const i of list.querySelectorAll("input")) i.value = typed.get(name(i)) ?? "";
  if (held) [.../** @type {NodeListOf<HTMLElement>} */ (list.querySelectorAll("[aria-label]"))].find((e) => name(e) === held)?.focus();
}

/** @param {string} group */
async function match(group) {
  try {
    words(at("group-match"), (await ask("takes/group", { text: shot.text, group })).text);
  } catch (err) {
    sayError(err);
  }
}

/** When a take began, by the clock of this computer. @param {Wire.Take} t */
const began = (t) => new Date(t.began).toLocaleString([], { dateStyle: "short", timeStyle: "short" });

/** @param {Wire.Take} t */
function row(t) {
  const note = make("input", { type: "text", "aria-label": `Words on take ${t.take}`, placeholder: "a word" });
  const add = async (/** @type {string} */ as) => {
    const word = note.value.trim();
    note.value = "";
    if (word && !(await showTakes({ take: t.take, [as]: word }))) note.value = word;
  };
  note.addEventListener("keydown", (e) => e.key === "Enter" && add("note"));
  const said = [t.byHand && "logged by hand", t.group && `${t.group}, pass ${t.pass}`, t.clip && `clip ${t.clip}`, t.rejected && `rejected: ${t.rejected}`, t.driver && `driven by ${t.driver}`].filter(Boolean).join("; ");
  return make("li", { "data-take": t.take },
    make("p", {}, make("b", {}, `take ${t.take}`), ` ${began(t)}: ${t.end}, ${extent(t)}${said ? "; " + said : ""}`, ...t.notes.map((n) => make("q", {}, n))),
    make("div.pair", {}, button(t.keep ? "\u25cf Kept" : "\u25cb Keep", () => showTakes({ take: t.take, keep: !t.keep, note: "" }), { "aria-pressed": String(t.keep), "aria-label": `Keep take ${t.take}` }), note,
      ...[["note", "Add note"], ["clip", "Is the clip"], ["reject", "Reject, since"]].map(([as, text]) => button(text, () => add(as), { "aria-label": `${text}: take ${t.take}` }))));
}

/** Notes wait until the rig rests: while it moves, the space bar stops it and types nothing. */
function lock() {
  const locked = moving();
  for (const i of at("takes").querySelectorAll("input")) {
    i.disabled = locked;
    i.placeholder = locked ? "when the rig rests" : "a word";
  }
}

on("drive", lock);
at("takes-again").addEventListener("click", () => showTakes());
