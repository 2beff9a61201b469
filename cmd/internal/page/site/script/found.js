// found is what answers of commands have in common: numbers that are told exactly, as
// fractions, and lists under a heading.
import { make } from "./make.js";

/** What a number is that is told as "31031/4800" or "6". @param {string} text */
export function valueOf(text) {
  const [a, b = 1] = text.split("/").map(Number);
  return a / b;
}

/** @param {string} text s */
export const shown = (text) => `${valueOf(text).toFixed(3)} s shown`;

/** @param {string} name @param {HTMLElement[]} items */
export const part = (name, items) => make("section", {}, make("h3", {}, name), make("ul.found", {}, items));
