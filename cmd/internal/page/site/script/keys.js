// keys are what the keyboard does everywhere, but for the space bar while a rig is driven,
// which stops it.
import { at } from "./make.js";
import { TYPED } from "./stop.js"; // which hears of each key first
import { goTo, playOrPause, stepBy } from "./playhead.js";
import { redo, undo } from "./planner.js";
import { save } from "./disk.js";

const PRESSED = "button, summary, a, [role=tab], input, select";

const FAR = 10; // frames a key press with Shift

const DOES = /** @type {Map<string, (by: number) => void>} */ (new Map([[" ", playOrPause], ["ArrowLeft", (/** @type {number} */ by) => stepBy(-by)], ["ArrowRight", stepBy], ["Home", () => goTo(0)]]));

addEventListener("keydown", (e) => {
  if (e.ctrlKey || e.metaKey) return command(e);
  const on = /** @type {HTMLInputElement} */ (e.target); // or the window, which is in nothing
  if (e.defaultPrevented || e.altKey || on.closest?.(TYPED)) return;
  if (e.key === " " && on.closest?.(PRESSED)) return;
  const does = DOES.get(e.key);
  if (!does || (on.type === "radio" && e.key !== "Home")) return;
  e.preventDefault();
  does(e.shiftKey ? FAR : 1);
});

/** @param {KeyboardEvent} e */
function command(e) {
  const key = e.key.toLowerCase();
  const does = key === "s" ? save : key === "z" && !e.shiftKey ? undo : key === "y" || (key === "z" && e.shiftKey) ? redo : null;
  if (!does) return;
  e.preventDefault();
  void does();
}

at("undo").addEventListener("click", undo);
at("redo").addEventListener("click", redo);
at("save").addEventListener("click", save);
