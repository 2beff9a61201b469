// tabs are the benches on the right: one is seen at a time, the glance always.
import { at } from "./make.js";

const tabs = [...document.querySelectorAll("[role=tab]")];

export function openTab(tab) {
  for (const t of tabs) {
    const on = t === tab;
    t.setAttribute("aria-selected", on);
    t.tabIndex = on ? 0 : -1;
    at(t.getAttribute("aria-controls")).hidden = !on;
  }
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
