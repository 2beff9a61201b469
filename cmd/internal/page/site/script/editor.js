// editor is the shot file as text, with what is wrong with it beside the line.
import { at, button, fill, make } from "./make.js";
import { curesOf } from "./cures.js";
import { on, shot } from "./shot.js";
import { told } from "./refusal.js";
import { retext } from "./planner.js";

const PAUSE = 160; // ms after the last key until it is planned
const STEP = 900; // ms of rest that end one step of undo

const area = at("text");
const gutter = at("gutter");
let waiting = 0;
/** @type {string | null} the text as this run of typing found it */
let before = null;
let typed = 0;

function typing() {
  const now = performance.now();
  if (before === null || now - typed > STEP) before = shot.text;
  typed = now;
  shot.text = area.value;
  numbers();
  clearTimeout(waiting);
  waiting = setTimeout(() => {
    const was = before ?? undefined;
    before = null;
    void retext(area.value, "text", was);
  }, PAUSE);
}

area.addEventListener("input", typing);
area.addEventListener("scroll", () => (gutter.scrollTop = area.scrollTop));
area.addEventListener("keydown", (e) => {
  if (e.key === "Escape") at("tab-text").focus(); // Tab types nothing here: it leads on
});

on("text", () => {
  if (area.value === shot.text) return;
  const { selectionStart: a, selectionEnd: b, scrollTop } = area;
  area.value = shot.text;
  if (document.activeElement === area) area.setSelectionRange(a, b);
  area.scrollTop = scrollTop;
  numbers();
});

/** Whether it is in the text, and not in a file beside it. @param {Wire.Fault} f */
const here = (f) => !f.file || f.file === shot.start.file;

function numbers() {
  const wrong = new Set(shot.faults.filter(here).map((f) => f.line));
  const count = area.value.split("\n").length;
  if (gutter.dataset.as === count + ":" + [...wrong]) return;
  gutter.dataset.as = count + ":" + [...wrong];
  gutter.replaceChildren(...Array.from({ length: count }, (_, i) => make(wrong.has(i + 1) ? "span.wrong" : "span", {}, wrong.has(i + 1) ? `\u25b2 ${i + 1}` : `${i + 1}`)));
}

on("faults", () => {
  numbers();
  const bad = shot.faults;
  at("tab-text").classList.toggle("wrong", bad.length > 0);
  area.setAttribute("aria-invalid", String(bad.length > 0));
  fill(at("faults"), JSON.stringify([shot.start.file, bad]), () => bad.map((f) => make("li", {}, make("span.mark", { "aria-hidden": "true" }, "\u25b2"),
    make("div", {}, f.line && here(f) ? button(`line ${f.line}`, () => goToLine(f), { class: "when" }) : null, " ",
      make("span", {}, told({ ...f, fit: "" }, here(f) ? "" : [f.file, f.line ? `line ${f.line}` : ""].filter(Boolean).join(", "))), f.fit && !f.mends?.length ? make("p.fit-words", {}, f.fit) : null,
      curesOf(f.mends ?? [], `${here(f) ? "" : f.file + " "}line ${f.line} `)))));
});

/** @param {Wire.Fault} f */
function goToLine(f) {
  const lines = area.value.split("\n");
  const start = lines.slice(0, f.line - 1).join("\n").length + (f.line > 1 ? 1 : 0);
  area.focus();
  area.setSelectionRange(start + Math.max(f.column - 1, 0), start + (lines[f.line - 1]?.length ?? 0));
  area.scrollTop = (f.line - 4) * parseFloat(getComputedStyle(area).lineHeight);
}
