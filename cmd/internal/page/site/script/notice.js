// notice says things for a while at the foot of the page, and to screen readers.
import { at, make, button } from "./make.js";
import { MARKS } from "./marks.js";
import { givenUp, refusal } from "./refusal.js";

const LINGERS = 9000; // ms, enough to read two sentences

/**
 * Says something. What is bad stays until it is put away.
 * @param {string} text
 * @param {Level} kind
 */
export function say(text, kind = "good") {
  const away = button("Put away", () => note.remove(), { class: "quiet" });
  const note = make("div.note." + kind, { role: kind === "bad" ? "alert" : "status" }, make("span.mark", { "aria-hidden": "true" }, MARKS[kind].sign), make("span", {}, text), away);
  for (const old of at("notes").children) if (old.children[1].textContent === text) old.remove();
  at("notes").append(note);
  if (kind !== "bad") setTimeout(() => note.remove(), LINGERS);
}

/** Says why something failed. @param {unknown} err */
export function sayError(err) {
  if (!givenUp(err)) say(refusal(err).words, "bad");
}
