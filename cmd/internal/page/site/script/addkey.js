// addkey puts keys on the curve of an axis that moves from key to key, and takes
// them away. What a key there means, the program says.
import { position, shot, turned } from "./shot.js";
import { change } from "./planner.js";
import { say } from "./notice.js";

/** Where keys of an axis can be added, or undefined where its move has none. @param {Curved} axis */
export const adding = (axis) => shot.view.adds.find((a) => a.path === `axis.${axis.name}.keys`);

/**
 * Adds a key to an axis, at a captured frame that may lie in the rounds beside.
 * @param {Curved} axis
 * @param {number} frame
 * @param {number} [pos] left out, where the curve is
 */
export function addKey(axis, frame, pos) {
  const add = adding(axis);
  if (!add) return say(without(axis), "fair");
  const { frames } = shot.view;
  const rounds = Math.floor(frame / frames);
  const at = frame - rounds * frames;
  const edit = { do: "add", path: add.path, frame: at, pos: pos === undefined ? position(axis, at) : pos - rounds * turned(axis) };
  return change([edit], { label: `${axis.name}, another key` });
}

/** What to do to have keys where there are none. @param {Curved} axis */
function without(axis) {
  if (axis.speedLimit === undefined) return `${axis.name} turns by itself and has no keys.`;
  return `${axis.name} has no keys: its move is ${axis.move}. Choose the move keys for it in Moves; then a double click puts one on its curve.`;
}

/** Takes the key away that has the focus; the one before it has the focus then. @param {KeyboardEvent} e @param {Wire.Handle} h */
export async function removeKey(e, h) {
  const remove = shot.view.removes.find((r) => r.what === "key" && r.path === h.path); // its axis could be removed too
  if (!remove) return;
  e.preventDefault();
  e.stopPropagation();
  const all = /** @type {HTMLElement[]} */ ([...document.querySelectorAll(".handle.key")]);
  const mine = all.indexOf(/** @type {HTMLElement} */ (e.currentTarget));
  const next = (all[mine - 1] ?? all[mine + 1])?.dataset.path;
  await change([{ do: "remove", path: remove.path }], { label: `${h.label}, taken away` });
  const left = next && document.querySelector(`.handle[data-path="${CSS.escape(next)}"]`);
  if (left instanceof HTMLElement) left.focus({ preventScroll: true });
}
