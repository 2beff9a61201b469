// tabs are the benches on the right: one is seen at a time, the glance always.
import { at } from "./make.js";
import { on } from "./shot.js";

/** @type {HTMLElement[]} */
const tabs = [...document.querySelectorAll("[role=tab]")].map((tab) => /** @type {HTMLElement} */ (tab));

/** @typedef {Extract<keyof Parts, `bench-${string}`>} Bench a part of the page that a tab shows */

/** @param {HTMLElement} tab */
const benchOf = (tab) => /** @type {Bench} */ (tab.getAttribute("aria-controls"));

/** @type {Map<Bench, () => void>} what a bench out of sight has missed */
const behind = new Map();

/** Calls f with each view, but while its bench is out of sight only when it comes into it. @param {Bench} bench @param {() => void} f */
export function onViewOf(bench, f) {
  on("view", () => {
    if (at(bench).hidden) behind.set(bench, f);
    else f();
  });
}

/** @param {HTMLElement} tab */
function openTab(tab) {
  for (const t of tabs) {
    const seen = t === tab;
    t.setAttribute("aria-selected", String(seen));
    t.tabIndex = seen ? 0 : -1;
    at(benchOf(t)).hidden = !seen;
  }
  const bench = benchOf(tab);
  behind.get(bench)?.();
  behind.delete(bench);
  document.body.dataset.bench = tab.id.replace("tab-", "");
  inSight(tab);
}

/** Scrolls the line of tabs, and nothing else. @param {HTMLElement} tab */
function inSight(tab) {
  const { parentElement: line, offsetLeft, offsetWidth } = tab;
  if (!line) return;
  line.scrollLeft = offsetLeft - line.offsetLeft - (line.clientWidth - offsetWidth) / 2;
}

for (const t of tabs) {
  t.addEventListener("click", () => openTab(t));
  t.addEventListener("keydown", (e) => {
    const i = tabs.indexOf(t);
    const to = new Map([["ArrowRight", i + 1], ["ArrowDown", i + 1], ["ArrowLeft", i - 1], ["ArrowUp", i - 1], ["Home", 0], ["End", tabs.length - 1]]).get(e.key);
    if (to === undefined) return;
    e.preventDefault();
    e.stopPropagation();
    const next = tabs[(to + tabs.length) % tabs.length];
    openTab(next);
    next.focus();
  });
}
openTab(tabs[0]);
