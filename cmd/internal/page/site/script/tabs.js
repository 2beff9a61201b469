// tabs are the benches on the right: one is seen at a time, the glance always.
import { at } from "./make.js";
import { on } from "./shot.js";

const tabs = [...document.querySelectorAll("[role=tab]")];

const behind = new Map(); // what a bench out of sight has missed

/** Calls f with each view, but while its bench is out of sight only when it comes into it. */
export function onViewOf(bench, f) {
  on("view", () => {
    if (at(bench).hidden) behind.set(bench, f);
    else f();
  });
}

function openTab(tab) {
  for (const t of tabs) {
    const seen = t === tab;
    t.setAttribute("aria-selected", seen);
    t.tabIndex = seen ? 0 : -1;
    at(t.getAttribute("aria-controls")).hidden = !seen;
  }
  const bench = tab.getAttribute("aria-controls");
  behind.get(bench)?.();
  behind.delete(bench);
  document.body.dataset.bench = tab.id.replace("tab-", "");
}

for (const t of tabs) {
  t.addEventListener("click", () => openTab(t));
  t.addEventListener("keydown", (e) => {
    const i = tabs.indexOf(t);
    const to = { ArrowRight: i + 1, ArrowDown: i + 1, ArrowLeft: i - 1, ArrowUp: i - 1, Home: 0, End: tabs.length - 1 }[e.key];
    if (to === undefined) return;
    e.preventDefault();
    e.stopPropagation();
    const next = tabs[(to + tabs.length) % tabs.length];
    openTab(next);
    next.focus();
  });
}
openTab(tabs[0]);
