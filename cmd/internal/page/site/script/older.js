// older knows which change each part of the page was drawn from, and marks the parts
// that are older than the numbers until they are not. The mark says why; the style dims
// what has it for as long as can be seen.
import { at } from "./make.js";
import { on, shot } from "./shot.js";

/** @typedef {{ step: number, text: string | null, words: string }} From */

/** How long something is older before that is shown, ms: whoever looks has then seen nothing else. */
const SEEN = 150;

/** @type {Map<HTMLElement, From>} */
const parts = new Map();

const WORKING = "being worked out";
const FAULTY = "of the text before its fault";

/**
 * What is in a part was drawn from a text, by the change that led to it; words say what
 * it waits for where that is not just being worked out.
 * @param {HTMLElement} el @param {{ step?: number, text?: string | null, words?: string }} from
 */
export function drawnFrom(el, { step = shot.step, text = shot.text, words = "" } = {}) {
  parts.set(el, { step, text, words });
  mark(el);
}

/** A part shows nothing of any text. @param {HTMLElement} el */
export function drawnFromNothing(el) {
  parts.delete(el);
  set(el, null, false);
}

/** Whether what was drawn from there is older than the numbers. @param {From} from */
function isOlder(from) {
  if (from.step >= shot.asked) return false;
  return shot.pending || from.text !== shot.text;
}

/** @param {HTMLElement} el */
function mark(el) {
  const from = parts.get(el);
  if (!from) return;
  const old = isOlder(from);
  const working = shot.pending || shot.faults.length === 0;
  set(el, old ? from.words || (working ? WORKING : FAULTY) : null, old && working);
}

/** What is older and not yet shown so. @type {Map<HTMLElement, ReturnType<typeof setTimeout>>} */
const fresh = new Map();

/** @param {HTMLElement} el @param {string | null} words @param {boolean} busy */
function set(el, words, busy) {
  if (words === null) {
    clearTimeout(fresh.get(el));
    fresh.delete(el);
    el.removeAttribute("data-older");
    el.removeAttribute("data-late");
  } else {
    // A transition that waits has the page drawn with every frame of the screen meanwhile.
    if (!fresh.has(el)) fresh.set(el, setTimeout(() => (el.dataset.late = ""), SEEN));
    if (el.dataset.older !== words) el.dataset.older = words;
  }
  if (busy) el.setAttribute("aria-busy", "true");
  else el.removeAttribute("aria-busy");
}

function all() {
  for (const el of parts.keys()) {
    if (el.isConnected) mark(el);
    else parts.delete(el);
  }
}

// What is drawn in one go with each view.
on("view", () => {
  for (const part of [at("plan"), at("curves"), at("round"), at("ready")]) drawnFrom(part);
});
for (const news of /** @type {const} */ (["asked", "planned", "text", "faults"])) on(news, all);
