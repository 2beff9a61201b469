// strip tells under the head, whatever bench is open and however far one has scrolled, how it
// stands with the rig while one is held.
import { at, make, words } from "./make.js";
import { on } from "./shot.js";
import { mine, rig } from "./driver.js";
import { frameWords, nextWords, roundWords, stateWords, takeWords } from "./rigwords.js";

const MINE = document.body.classList.contains("shelf") ? "This tab has it in hand; what else it takes is on the page of a shot." : "";

const parts = { state: stateWords, take: takeWords, round: roundWords, frame: frameWords, next: nextWords };
const shown = Object.entries(parts).map(([name, of]) => ({ el: make(name === "state" ? "b" : "span", { id: "strip-" + name }), of }));
const whose = make("span", { id: "strip-whose" });
at("strip-words").append(...shown.map(({ el }) => el), whose);

on("drive", () => {
  const open = Boolean(rig?.open);
  at("strip").hidden = !open;
  document.body.classList.toggle("mine", mine());
  if (!open) return room();
  for (const { el, of } of shown) words(el, of(rig));
  words(whose, mine() ? MINE : "Another tab drives; its Stop is here as well.");
  room();
});

/** The strip is below the head, and what else stays in sight is below both. */
function room() {
  const head = at("head").offsetHeight + parseFloat(getComputedStyle(at("head")).top), strip = at("strip").offsetHeight;
  for (const { style } of [document.documentElement, document.body]) {
    style.setProperty("--bar", head + "px");
    if (strip) style.setProperty("--head", head + strip + "px");
    else style.removeProperty("--head");
  }
}
new ResizeObserver(room).observe(at("head"));
new ResizeObserver(room).observe(at("strip"));
