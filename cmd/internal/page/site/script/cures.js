// cures are what would do: a button where the program says what to write, words where it
// takes a hand.
import { button, make } from "./make.js";
import { change } from "./planner.js";

/** @typedef {{text: string, edits: (Wire.Set | Wire.Edit)[], hand?: boolean}} Cure */

/** One of them. of is what it would do for, so that the button can be found again. @param {Cure} fit @param {string} of */
export function cureOf(fit, of) {
  if (!fit.edits?.length) return make(fit.hand ? "span.by-hand" : "span.untried", {}, fit.hand ? make("em", {}, "by hand") : null, fit.text);
  return button(fit.text, () => change(fit.edits, { label: fit.text }), { class: "fit", "data-fit": of + fit.text });
}

/** All of them as a list, null where there is none. @param {Cure[]} fits @param {string} of */
export function curesOf(fits, of, name = "What would do") {
  return fits.length === 0 ? null : make("ul.fits", { "aria-label": name }, fits.map((f) => make("li", {}, cureOf(f, of))));
}
