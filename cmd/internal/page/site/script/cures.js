// cures are what would do: a button where the program says what to write, words where it
// takes a hand. What mends the rig's file is written into that.
import { button, make } from "./make.js";
import { change } from "./planner.js";
import { mendRig } from "./rigedit.js";

/** @typedef {{text: string, edits: (Wire.Set | Wire.Edit)[], hand?: boolean, file?: string}} Cure */

/** One of them. of is what it would do for, so that the button can be found again. @param {Cure} fit @param {string} of */
export function cureOf(fit, of) {
  if (!fit.edits?.length) return make(fit.hand ? "span.by-hand" : "span.untried", {}, fit.hand ? make("em", {}, "by hand") : null, fit.text);
  return button(fit.text, () => take(fit), { class: "fit", "data-fit": of + fit.text });
}

/** Does what one of them says. @param {Cure} fit */
export const take = (fit) => (fit.file ? mendRig(fit, fit.file) : change(fit.edits, { label: fit.text }));

/** All of them as a list, null where there is none. @param {Cure[]} fits @param {string} of */
export function curesOf(fits, of, name = "What would do") {
  return fits.length === 0 ? null : make("ul.fits", { "aria-label": name }, fits.map((f) => make("li", {}, cureOf(f, of))));
}
