// keys are what the keyboard does everywhere. While the rig is driven, the space
// bar stops it, whatever has the focus; else it plays.
import { at } from "./make.js";
import { mine, moving, rig, stop } from "./driver.js";
import { goTo, playOrPause, stepBy } from "./playhead.js";
import { redo, undo } from "./planner.js";
import { save } from "./disk.js";

const TYPED = "input:not([type=radio]):not([type=checkbox]), textarea, select";
const PRESSED = "button, summary, a, [role=tab], input, select";

function held(e) {
  if (e.key !== " " || !rig?.open || !mine()) return false;
  return moving() || !e.target.closest?.(TYPED);
}

// Before anything else hears of it, and on the way up as well: a button that has
// the focus must not be pressed by the key that stops the rig.
for (const kind of ["keydown", "keyup"]) addEventListener(kind, (e) => {
  if (!held(e)) return;
  e.preventDefault();
  e.stopImmediatePropagation();
  if (kind === "keydown" && !e.repeat) stop();
}, { capture: true });

addEventListener("keydown", (e) => {
  if (e.ctrlKey || e.metaKey) return command(e);
  if (e.defaultPrevented || e.altKey || e.target.closest?.(TYPED)) return;
  if (e.key === " " && e.target.closest?.(PRESSED)) return;
  const does = {
    " ": playOrPause, ArrowLeft: () => stepBy(e.shiftKey ? -10 : -1), ArrowRight: () => stepBy(e.shiftKey ? 10 : 1), Home: () => goTo(0),
  }[e.key];
  if (!does || (e.target.type === "radio" && e.key !== "Home")) return;
  e.preventDefault();
  does();
});

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
