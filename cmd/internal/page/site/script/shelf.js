// shelf is the first screen: the shots of the folder, and what a new one can begin with.
import { at, make, words } from "./make.js";
import { refusal } from "./refusal.js";
import { GONE, ask } from "./server.js";
import { sayError } from "./notice.js";
import { card, kindCard } from "./cards.js";
import { openBeside } from "./another.js";
import { begin } from "./begin.js";
import { inTurn } from "./turns.js";
import { heardDrive } from "./driver.js";
import { listen } from "./listen.js";
import { gone } from "./dead.js";
import "./stop.js";
import "./strip.js";

/** @typedef {import("./small.js").Small} Small */

const AGAIN = 2000; // ms until the program is asked again that did not answer
const WIDE = 192; // px

let known = ""; // the list that is shown

async function look() {
  let told;
  try {
    told = await ask("shelf", {});
  } catch (err) {
    const { status, message } = refusal(err);
    gone(status ? message : GONE, !status);
    if (!status) setTimeout(look, AGAIN);
    return;
  }
  gone("");
  words(at("folder"), told.folder);
  words(at("version"), told.version);
  const as = JSON.stringify([told.shots, told.left]);
  if (as !== known) list(told);
  known = as;
  rigs(told);
  document.body.classList.add("ready");
}

/** @param {Wire.Shelf} told */
function list({ shots, left, driving }) {
  document.body.classList.toggle("empty", shots.length === 0);
  const some = shots.length === 0 ? "There is no shot in this folder yet." : driving ? "A page drives a rig just now." : "";
  words(at("here-words"), left ? `${some} ${left} more are not shown.`.trim() : some);
  at("cards").replaceChildren(...shots.map(card));
}

/** What a new shot can be filmed on: the rigs of the folder first, as those were measured. @param {Wire.Shelf} told */
function rigs({ rigs, builtIn }) {
  const as = JSON.stringify(rigs);
  if (at("new-rig").dataset.as === as) return;
  at("new-rig").dataset.as = as;
  const was = at("new-rig").value;
  const there = rigs.map((r) => make("option", { value: "file:" + r.file, disabled: r.why !== "" }, r.why ? `${r.file}, which cannot be read` : `${r.name}, ${r.file}`));
  const ours = builtIn.map((b) => make("option", { value: "kind:" + b.controller }, `${b.name}, ${b.controller}`));
  at("new-rig").replaceChildren(...(there.length ? [make("optgroup", { label: "Rigs of this folder" }, ...there)] : []), make("optgroup", { label: "Built in, to be measured later" }, ...ours));
  if ([...at("new-rig").options].some((o) => o.value === was)) at("new-rig").value = was;
  else void kinds();
}

const rig = () => {
  const [sort, ...rest] = at("new-rig").value.split(":");
  const name = rest.join(":");
  return { rig: sort === "file" ? name : "", controller: sort === "kind" ? name : "", noTable: !at("new-table").checked };
};

async function kinds() {
  const on = rig();
  try {
    const all = await ask("kinds", on);
    at("kinds").replaceChildren(...all.map((kind) => {
      const { li, small } = kindCard(kind, (k) => begin(k, on));
      if (small) inTurn(1, () => !li.isConnected || small.inSight(), () => picture(li, small, { kind: kind.name, ...on }));
      return li;
    }));
  } catch (err) {
    sayError(err);
  }
}

/** @param {HTMLElement} li @param {Small} small @param {Wire.Questions["kind"]} question */
async function picture(li, small, question) {
  if (!li.isConnected) return;
  const { frames, seconds } = await ask("kind", question);
  small.show({ path: "kind/picture", question, frames, seconds, width: WIDE });
}

/** A tab beside this one has the key by a word of its own. @param {MouseEvent} e */
function beside(e) {
  const link = e.target instanceof Element && e.target.closest("a.card");
  if (!(link instanceof HTMLAnchorElement) || !(e.ctrlKey || e.metaKey || e.button === 1)) return;
  e.preventDefault();
  void openBeside(link.href);
}

for (const kind of /** @type {const} */ (["click", "auxclick"])) at("cards").addEventListener(kind, beside);
at("new-rig").addEventListener("change", kinds);
at("new-table").addEventListener("change", kinds);
document.addEventListener("visibilitychange", () => document.hidden || look());
addEventListener("pageshow", (e) => e.persisted && look());
void look();
void listen("drive/watch", () => ({}), ({ drive }) => drive && heardDrive(drive));
