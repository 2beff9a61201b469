// headline is the first line of the page: whether the rig may run this, the worst of
// what does not hold, and what would mend that, as a button.
import { at, button, fill, make, words } from "./make.js";
import { on, shot } from "./shot.js";
import { goTo, pause } from "./playhead.js";
import { told } from "./refusal.js";
import { MARKS } from "./marks.js";
import { cureOf, take } from "./cures.js";

const line = at("ready");
line.removeAttribute("role"); // which is that of the words in it: a button is not read out with them
const sign = make("span.mark", { "aria-hidden": "true" });
const said = make("span.said", { role: "status" });
const worst = make("button.worst", { type: "button", onclick: showWorst });
const said2 = make("span.words", {}, said);
line.replaceChildren(sign, said2);
/** @type {HTMLElement | null} */
let cure = null;

on("view", draw);
on("controller", draw);
on("faults", faulty);

function draw() {
  const { level, stamp, words: text, worst: bad } = shot.view.headline;
  line.className = level;
  words(sign, MARKS[level].sign);
  fill(said, `${stamp}. ${text}`, () => [make("span.lines", {}, make("b", {}, stamp + "."), " " + text)]);
  if (bad) {
    fill(worst, `${bad.plain}: ${bad.text}`, () => [make("span.lines", {}, bad.plain, make("span.detail", {}, ": " + bad.text))]);
    worst.title = typeof bad.frame === "number" ? "Go to where it is worst" : "Show it in the list";
    if (!worst.isConnected) said2.after(worst);
  } else if (worst.isConnected) worst.remove();
  mend(bad?.fit ?? null);
}

/** Puts the cure at hand at the end of the line. One that has the focus keeps it, or gives it to the line. @param {Wire.Fit | null} fit */
function mend(fit) {
  const as = JSON.stringify(fit);
  if ((cure?.dataset.as ?? "null") === as) return;
  const held = cure?.contains(document.activeElement);
  cure?.remove();
  cure = fit && cureOf(fit, "ready");
  if (cure) {
    cure.dataset.as = as;
    cure.title = `For ${worst.textContent}`;
    if (fit && cure.matches("button")) { // what is longer than there is room for is in the list
      cure.title = `${fit.text}\n${cure.title}`;
      cure.replaceChildren(make("span.lines", {}, fit.text));
    }
    line.append(cure);
  }
  if (held) (cure?.matches("button") ? cure : line).focus();
}

function showWorst() {
  const bad = shot.view.headline.worst;
  if (typeof bad?.frame === "number") {
    pause();
    goTo(bad.frame);
  }
  document.querySelector(`#verdict-list [data-name="${CSS.escape(bad?.name ?? "")}"]`)?.scrollIntoView({ block: "nearest" });
}

/** A text with faults has the line to itself; what is drawn is then older than it. */
function faulty() {
  const list = shot.faults;
  at("stale").hidden = list.length === 0;
  document.body.classList.toggle("is-stale", list.length > 0);
  const mend = list[0]?.mends?.[0];
  fill(at("stale-mend"), JSON.stringify(mend ?? null), () => (mend ? [button(mend.text, () => void take(mend), { id: "stale-cure", class: "fit" })] : []));
  if (list.length === 0) return words(at("stale-words"), "");
  const first = list[0];
  const beside = first.file && first.file !== shot.start.file ? first.file : "";
  const what = told({ ...first, fit: "" }, [beside, first.line ? `line ${first.line}` : ""].filter(Boolean).join(", "));
  words(at("stale-words"), `The ${beside ? "shot" : "text"} has ${list.length === 1 ? "a fault" : list.length + " faults"}: ${what}. ${shot.view ? "What is drawn is the last plan that could be made." : "Nothing can be drawn before it is mended, here or in any editor."}`);
}

at("stale-show").addEventListener("click", () => at("tab-text").click());
