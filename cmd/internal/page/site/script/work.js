// work says what is being worked out, for how long already, and lets it be given up.
// What is quick is never spoken of.
import { at, button, make, words } from "./make.js";

const SOON = 300; // ms that are quick
const TICK = 100; // ms

/** @typedef {{ name: string, began: number, own: AbortController, row?: HTMLElement, said?: HTMLElement }} Work */

/** @type {Set<Work>} */
const under = new Set();
let ticking = 0;

const list = at("work");

/**
 * Does f with a signal that ends when it is given up, and says that it is at work.
 * @template T
 * @param {string} name what is being worked out, as in "the plan"
 * @param {(signal: AbortSignal) => Promise<T>} f
 * @param {AbortSignal} [outer] ends it too
 * @returns {Promise<T>}
 */
export async function working(name, f, outer) {
  /** @type {Work} */
  const work = { name, began: performance.now(), own: new AbortController() };
  outer?.addEventListener("abort", () => work.own.abort(), { once: true });
  under.add(work);
  ticking ||= setInterval(tell, TICK);
  try {
    return await f(work.own.signal);
  } finally {
    under.delete(work);
    work.row?.remove();
    list.hidden = list.childElementCount === 0;
    if (under.size === 0) (clearInterval(ticking), (ticking = 0));
  }
}

function tell() {
  for (const work of under) {
    const sec = (performance.now() - work.began) / 1000;
    if (sec * 1000 < SOON) continue;
    words(work.said ?? begin(work), `${sec.toFixed(1)} s`);
  }
}

/** Begins to speak of some work; returns where its seconds go. @param {Work} work */
function begin(work) {
  const said = (work.said = make("span.seconds", { "aria-hidden": "true" }));
  work.row = make("p", {}, make("span.what", {}, `Working out ${work.name}`), " ", said, " ", button("Give up", () => work.own.abort(), { class: "give-up", "aria-label": `Give up ${work.name}` }));
  list.append(work.row);
  list.hidden = false;
  return said;
}
