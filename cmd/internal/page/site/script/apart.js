// apart shows two texts beside each other, with a mark at the lines that only one has.
import { at, make } from "./make.js";
import { ask } from "./server.js";
import { sayError } from "./notice.js";

/**
 * Lines as elements of their own.
 * @param {Wire.Line[]} lines
 */
const side = (lines) => lines.map((l) => make(l.own ? "span.only" : "span", {}, `${l.own ? "\u25c6" : " "} ${l.text}\n`));

/**
 * Shows what is here and what is on disk.
 * @param {string} here
 * @param {string} there
 */
export async function showApart(here, there) {
  at("conflict-here").textContent = here; // until the lines are known that differ
  at("conflict-there").textContent = there;
  try {
    const lines = await ask("apart", { here, there });
    at("conflict-here").replaceChildren(...side(lines.here));
    at("conflict-there").replaceChildren(...side(lines.there));
  } catch (err) {
    sayError(err);
  }
}
