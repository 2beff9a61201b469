// stop is the button that stops the rig, and the space bar, in every tab: whichever drives,
// and whatever page it has open.
import { at, words } from "./make.js";
import { on } from "./shot.js";
import { mine, moving, rig, stop } from "./driver.js";

/** What a key is typed into. */
export const TYPED = "input:not([type=radio]):not([type=checkbox]), textarea, select";

at("stop").addEventListener("click", stop);

on("drive", () => {
  at("stop").hidden = !rig?.open;
  words(at("stop-words"), rig?.takes.includes("abort") ? "Stop at once" : "Stop");
  words(at("stop-whose"), mine() ? "space bar" : "of the other tab; space bar");
});

/** @param {KeyboardEvent} e */
function held(e) {
  if (e.key !== " " || !rig?.open) return false;
  return moving() || !(e.target instanceof Element && e.target.closest(TYPED));
}

// Before anything else hears of it, and on the way up as well: a button that has
// the focus must not be pressed by the key that stops the rig.
for (const kind of /** @type {const} */ (["keydown", "keyup"])) addEventListener(kind, (e) => {
  if (!held(e)) return;
  e.preventDefault();
  e.stopImmediatePropagation();
  if (kind === "keydown" && !e.repeat) stop();
}, { capture: true });
