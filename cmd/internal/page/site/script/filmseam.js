// filmseam lists the loops that are in a take, the best first, and shows the seam of one: its last
// frame beside its first, or one in place of the other.
import { button, make, words } from "./make.js";
import { pictures } from "./server.js";
import { sayError } from "./notice.js";
import { accept, film } from "./film.js";
import { stretches } from "./filmplace.js";

const BEAT = 500; // ms that one is seen before the other: not more than three times a second anything may flash (WCAG 2.2, criterion 2.3.1)

/** @type {string[]} what is shown by an address of its own */
let addresses = [];
let beating = 0;

/** The list of loops, with a place for the seam of the one that is pressed. @param {Wire.Filmed} told */
export function seams(told) {
  const list = stretches(told);
  const shown = make("div.film-seam", { role: "group", "aria-label": "The seam", hidden: true });
  let chosen = -1;
  const rows = list.map((l, n) => button("", () => choose(n), { "aria-pressed": "false", class: "film-loop " + (l.unseen ? "good" : "fair") }));
  const choose = (/** @type {number} */ n) => {
    chosen = chosen === n ? -1 : n;
    for (const [i, r] of rows.entries()) r.setAttribute("aria-pressed", String(i === chosen));
    shown.hidden = chosen < 0;
    if (chosen >= 0) void show(shown, list[n], told);
  };
  for (const [n, r] of rows.entries()) {
    const { from, to, words: said, unseen } = list[n];
    r.append(make("span.mark", { "aria-hidden": "true" }, unseen ? "\u25cf" : "\u25b3"), make("span", {}, make("b", {}, `frames ${from} to ${to}`), `, ${to - from + 1} frames: ${said}`));
  }
  const none = make("p.hint", {}, "None: a loop takes a frame more than a round, in which it comes back to where it began.");
  return make("section.film-part", {}, make("h3", {}, "Loops in it, the best first"), list.length ? make("ul", {}, ...rows.map((r) => make("li", {}, r))) : none, shown);
}

/** Shows where a loop closes. @param {HTMLElement} into @param {Stretch} loop @param {Wire.Filmed} told */
async function show(into, { from, to }, told) {
  const next = to + 1 < told.frames ? to + 1 : to; // whose place the first takes
  /** @type {HTMLImageElement[]} */
  const [last, first, instead] = [`Frame ${to}, the last of the loop`, `Frame ${from}, which follows it`, `Frame ${next}`].map((alt) => make("img", { alt }));
  const what = make("figcaption", {}, `${from}, its first again`);
  const turn = (/** @type {boolean} */ other) => {
    instead.hidden = !other;
    first.hidden = other;
    words(what, other ? (next === to ? `${to}, the last` : `${next}, as it went on`) : `${from}, its first again`);
  };
  turn(false);
  const flickers = button("Flicker", () => flicker(flickers, turn), { "aria-pressed": "false", title: "The first frame and the one whose place it takes, in turn" });
  into.replaceChildren(
    make("div.sides", {}, make("figure", {}, last, make("figcaption", {}, `${to}, the last`)), make("figure", {}, first, instead, what)),
    make("div.pair", {}, flickers, button("Accept this loop", () => void accept({ from, to }).catch(sayError), { class: "strong" })),
  );
  still();
  const to3 = [last, first, instead];
  try {
    await pictures("film/pictures", { film: film.id, frames: [to, from, next] }, (data, i) => {
      const address = URL.createObjectURL(new Blob([/** @type {BlobPart} */ (data)], { type: "image/jpeg" }));
      addresses.push(address);
      to3[i].src = address;
    });
  } catch (err) {
    sayError(err);
  }
}

/** One picture in place of the other and back; where less motion is asked for, with each press. @param {HTMLElement} by @param {(other: boolean) => void} turn */
function flicker(by, turn) {
  const on = by.getAttribute("aria-pressed") !== "true";
  by.setAttribute("aria-pressed", String(on));
  clearInterval(beating);
  beating = 0;
  turn(on);
  if (!on || matchMedia("(prefers-reduced-motion: reduce)").matches) return;
  let other = true;
  beating = setInterval(() => turn((other = !other)), BEAT);
}

/** Lets go of what is shown. */
export function still() {
  clearInterval(beating);
  beating = 0;
  for (const a of addresses) URL.revokeObjectURL(a);
  addresses = [];
}
