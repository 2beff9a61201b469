// cards are the shots of the folder, each with its loop and its headline.
import { button, make, words } from "./make.js";
import { addressOf, ask } from "./server.js";
import { Small } from "./small.js";
import { inTurn } from "./turns.js";
import { MARKS } from "./marks.js";
import { refusal } from "./refusal.js";

const WIDE = 192; // px of a small picture
/** @type {Record<Level, string>} */
const READY = { good: "ready", fair: "look", unknown: "ready, as far as is known", bad: "not ready" };

/** @typedef {{ li: HTMLElement, title: HTMLElement, length: HTMLElement, mark: HTMLElement, none: HTMLElement, small: Small }} Card */

/** A card as it is before its shot was looked at. @param {Wire.OnShelf} shot */
export function card(shot) {
  const canvas = make("canvas", { width: WIDE, height: WIDE * 9 / 16, "aria-hidden": "true" });
  const title = make("b", {}, shot.file.replace(/\.toml$/, ""));
  const length = make("span", {});
  const mark = make("p.mark-words.unknown", {}, "…");
  const none = make("span.none-words", {});
  const li = make("li", {}, make("a.card", { href: addressOf(shot.file), "data-file": shot.file },
    make("div.small-loop", {}, canvas, make("i.thread", {}), none),
    title, make("p.file", {}, make("span", {}, shot.file), " ", length), mark,
    shot.unsaved ? make("p.unsaved", {}, "◆ ", shot.gone ? "not saved yet, kept for you" : "has changes that were not saved") : null));
  const small = new Small(canvas);
  inTurn(0, () => li.isConnected, () => look(shot.file, { li, title, length, mark, none, small }));
  return li;
}

/** @param {string} file @param {Card} parts */
async function look(file, parts) {
  let told;
  try {
    told = await ask("card", {}, undefined, file);
  } catch (err) {
    return unread(parts, refusal(err).message);
  }
  words(parts.title, told.title);
  if (told.faults.length) {
    const [f] = told.faults;
    return unread(parts, `${f.line ? `line ${f.line}: ` : ""}${f.text}`, told.faults.length);
  }
  words(parts.length, `${told.seconds.toFixed(1)} s`);
  headline(parts.mark, told.headline, told.headline.level === "unknown");
  if (told.pictured) parts.small.show({ path: "preview", question: { text: told.text }, of: file, frames: told.frames, seconds: told.seconds, width: WIDE });
  else words(parts.none, "no scene to draw");
  if (told.headline.level !== "bad") inTurn(3, () => parts.li.isConnected, async () => headline(parts.mark, (await ask("controller", { text: told.text }, undefined, file)).headline, false));
}

/** @param {HTMLElement} el @param {Wire.Headline} told @param {boolean} pending */
function headline(el, told, pending) {
  const [mark, word] = pending ? ["…", "being looked at"] : [MARKS[told.level].sign, READY[told.level]];
  el.className = "mark-words " + (pending ? "unknown" : told.level);
  el.title = told.words;
  el.replaceChildren(make("span.mark", { "aria-hidden": "true" }, mark), " " + word);
}

/** @param {Card} parts @param {string} why */
function unread(parts, why, faults = 1) {
  parts.mark.className = "mark-words bad";
  parts.mark.replaceChildren(make("span.mark", { "aria-hidden": "true" }, MARKS.bad.sign), " cannot be read");
  parts.none.parentElement?.classList.add("broken");
  words(parts.none, why + (faults > 1 ? `, and ${faults - 1} more` : ""));
}

/** A kind of shot to begin with. @param {Wire.KindAnswer} kind @param {(kind: Wire.KindAnswer) => unknown} chosen */
export function kindCard(kind, chosen) {
  const canvas = make("canvas", { width: WIDE, height: WIDE * 9 / 16, "aria-hidden": "true" });
  const b = button("", () => chosen(kind), { class: "card kind", "data-kind": kind.name, disabled: kind.why !== "" });
  b.append(make("div.small-loop", {}, kind.why ? make("span.none-words", {}, "not on this rig") : canvas, make("i.thread", {})), make("b", {}, kind.name.replaceAll("-", " ")), make("p.file", {}, kind.line), kind.why ? make("p.why", {}, kind.why) : "");
  return { li: make("li", {}, b), small: kind.why ? null : new Small(canvas) };
}
