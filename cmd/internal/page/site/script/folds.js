// folds are what needs no look: what holds, and what is not known, a word each that opens
// below what does not hold. What is open is remembered.
import { button, make, words } from "./make.js";
import { MARKS } from "./marks.js";

const KEPT = "seamrail verdicts open";

/** What the browser remembers, where it lets a page remember anything. @returns {Level[]} */
function open() {
  try {
    return JSON.parse(localStorage.getItem(KEPT) ?? "[]");
  } catch {
    return [];
  }
}

/** @param {Level[]} levels */
function remember(levels) {
  try {
    localStorage.setItem(KEPT, JSON.stringify(levels));
  } catch {
    // It is then as it is until the page is loaded anew.
  }
}

/** Both words, the line with the lists that they open, and what sets how many are in each. */
export function folds() {
  const held = fold("good", "What holds");
  const unsure = fold("unknown", "What is not known");
  const line = make("li.folds", {}, held.list, unsure.list);
  const count = (/** @type {number} */ good, /** @type {number} */ unknown) => {
    held.tell(good, good === 1 ? "1 holds" : `${good} hold`);
    unsure.tell(unknown, `${unknown} not known`);
  };
  return { names: [held.word, unsure.word], line, held: held.list, unsure: unsure.list, count };
}

/** @param {Level} level @param {string} name */
function fold(level, name) {
  const list = make("ul", { id: "fold-" + level, "aria-label": name });
  const word = button("", () => show(list.hidden), { class: "quiet fold sum " + level, "aria-controls": list.id });
  const show = (/** @type {boolean} */ is) => {
    list.hidden = !is;
    word.setAttribute("aria-expanded", String(is));
    remember([...open().filter((l) => l !== level), ...(is ? [level] : [])]);
  };
  list.hidden = !open().includes(level);
  word.setAttribute("aria-expanded", String(!list.hidden));
  return { list, word, tell: (/** @type {number} */ n, /** @type {string} */ text) => ((word.hidden = n === 0), words(word, `${MARKS[level].sign} ${text}`)) };
}
