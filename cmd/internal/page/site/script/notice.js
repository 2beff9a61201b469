// notice says things for a while at the foot of the page, and to screen readers.
import { at, make, button } from "./make.js";

const LINGERS = 9000; // ms, enough to read two sentences

/** Says something; kind is "good", "fair" or "bad". What is bad stays until it is put away. */
export function say(text, kind = "good") {
  const mark = { good: "\u25cf", fair: "\u25c6", bad: "\u25b2" }[kind];
  const away = button("Put away", () => note.remove(), { class: "quiet" });
  const note = make("div.note." + kind, { role: kind === "bad" ? "alert" : "status" }, make("span.mark", { "aria-hidden": "true" }, mark), make("span", {}, text), away);
  for (const old of at("notes").children) if (old.children[1].textContent === text) old.remove();
  at("notes").append(note);
  if (kind !== "bad") setTimeout(() => note.remove(), LINGERS);
}

/** Says why something failed. */
export function sayError(err) {
  if (err.name === "AbortError") return;
  const faults = (err.faults ?? []).map((f) => [f.axis, f.text, f.fit].filter(Boolean).join(": "));
  say(faults.length ? faults.join(". ") : err.message, "bad");
}
