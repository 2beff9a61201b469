// shape adds to the shot and takes out of it: buttons for what the program says
// can be added, and for what can be taken out. What is added is gone to.
import { at, button, make } from "./make.js";
import { on, shot } from "./shot.js";
import { change } from "./planner.js";
import { say } from "./notice.js";

/**
 * Adds what is at a path, at a place of the curve where one is given.
 * @param {Wire.Thing} thing
 * @param {{frame?: number, pos?: number}} [spot]
 */
export async function add(thing, spot = {}) {
  const answer = await change([{ do: "add", path: thing.path, ...spot }], { label: `add: ${thing.label}` });
  if (answer && !answer.refused && answer.at) goTo(answer.at);
}

/**
 * Takes out what is at a path, and goes back to where it was asked for.
 * @param {Wire.Thing} thing
 * @param {HTMLElement} [home]
 */
async function takeOut(thing, home) {
  const answer = await change([{ do: "remove", path: thing.path }], { label: `remove: ${thing.label}` });
  if (!answer || answer.refused) return;
  if (answer.told.length) say(`Taken out with it: ${answer.told.join("; ")}. Undo brings it back.`, "fair");
  home?.focus();
}

/**
 * Makes the move of an axis another one.
 * @param {string} path
 * @param {string} kind
 */
export const become = (path, kind) => change([{ do: "kind", path, value: kind }], { label: "another move" });

/**
 * A button that adds something.
 * @param {Wire.Thing} thing
 * @param {string} [text]
 */
export const adder = (thing, text = `Add ${lower(thing.label)}`) => button(text, () => void add(thing), { class: "quiet add", title: thing.help, "data-add": thing.path });

/**
 * A button that takes something out.
 * @param {Wire.Thing} thing
 * @param {string} [text]
 * @param {() => HTMLElement | undefined} [home]
 */
export const remover = (thing, text = `Remove ${thing.label}`, home) =>
  button(text, () => void takeOut(thing, home?.()), { class: "quiet remove", "aria-label": `Remove ${thing.label}`, "data-remove": thing.path });

const lower = (/** @type {string} */ text) => text.charAt(0).toLowerCase() + text.slice(1);

/** @param {string} path */
export const removes = (path) => shot.view.removes.find((r) => r.path === path);

/**
 * Puts the focus into the first field of what stands at a path, in the bench in sight.
 * @param {string} path
 */
export function goTo(path) {
  requestAnimationFrame(() => {
    const bench = document.querySelector("[role=tabpanel]:not([hidden])");
    const under = [...(bench?.querySelectorAll("[data-path]") ?? [])].filter((el) => {
      const own = (/** @type {HTMLElement} */ (el).dataset.path ?? "").replace("move:", "");
      return own === path || own.startsWith(path + ".") || own.startsWith(path + "[");
    });
    const field = /** @type {HTMLElement | undefined | null} */ (under[0]?.querySelector("input, select"));
    if (field) return void field.focus();
    const gone = bench?.querySelector(`[data-remove="${CSS.escape(path)}"]`);
    if (gone) /** @type {HTMLElement} */ (gone).focus();
  });
}

/**
 * Shows buttons for what can be added, anew only where it is something else.
 * @param {HTMLElement} el
 * @param {Wire.Thing[]} things
 * @param {(thing: Wire.Thing) => HTMLElement} [made]
 */
export function offer(el, things, made = (t) => adder(t)) {
  const as = things.map((t) => t.path + t.label).join("|");
  if (el.dataset.as === as) return;
  el.dataset.as = as;
  const held = /** @type {HTMLElement | null} */ (document.activeElement)?.closest?.("[data-add],[data-remove]");
  const path = held && el.contains(held) ? held.getAttribute("data-add") : null;
  el.replaceChildren(...things.map(made));
  if (path) /** @type {HTMLElement | null} */ (el.querySelector(`[data-add="${CSS.escape(path)}"]`))?.focus();
}

/** What is shown somewhere can be added there. */
const beside = [
  { part: "plan", what: ["lamp", "hole", "product", "board", "scene"], after: true },
  { part: "bench-cues", what: ["cue"], after: false },
  { part: "bench-spin", what: ["stand"], after: false },
];
for (const b of beside) {
  const adds = make("div.pair.adds", { role: "group", "aria-label": "Add to the shot" });
  const gone = make("div.pair.adds", { role: "group", "aria-label": "Take out of the shot" });
  const part = at(/** @type {"plan"} */ (b.part));
  if (b.after) part.append(adds);
  else part.prepend(adds), part.append(gone);
  on("view", () => {
    offer(adds, shot.view.adds.filter((t) => b.what.includes(t.what)), b.after ? (t) => adder(t, t.what) : undefined);
    if (!b.after) offer(gone, shot.view.removes.filter((t) => b.what.includes(t.what)), (t) => remover(t));
  });
}
