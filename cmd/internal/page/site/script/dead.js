// dead says when the program does not answer any more. Where it had a rig in hand that is said
// large, with what the rig does then, and stays until the program answers or it was seen.
import { at, button, make, words } from "./make.js";
import { on } from "./shot.js";
import { rig } from "./driver.js";

const KEPT = "seamrail-rig"; // for the tabs that do not listen, since they are out of sight
const OFTEN = 1000; // ms
const SILENT = 4000, SILENT_HELD = 2500; // ms without a word

let told = "", toldAt = 0;
let seen = false;

/** Every tab keeps what is known of the rig, for all. */
function keep() {
  const known = rig && { open: rig.open, where: rig.where, runsOn: rig.runsOn };
  const now = performance.now();
  if (!known || (JSON.stringify([known.open, known.where]) === told && now - toldAt < OFTEN)) return;
  told = JSON.stringify([known.open, known.where]);
  toldAt = now;
  localStorage.setItem(KEPT, JSON.stringify(known));
}
on("drive", keep);

/** What was last known of the rig, by this tab or another that heard more. */
/** @typedef {Pick<Wire.DriveState, "open" | "where" | "runsOn">} Known */

/** @returns {Known | null} */
const last = () => (document.hidden || !rig ? JSON.parse(localStorage.getItem(KEPT) ?? "null") : rig);

/** How long a program may say nothing, in ms. */
export const patience = () => (last()?.open ? SILENT_HELD : SILENT);

const runs = make("p", {});
const second = make("p", {}, "Where seamrail could begin a second process for that, this tells the rig to hold; whether it was heard cannot be known here.");
at("dead").append(
  make("h2", {}, "seamrail does not answer, and it had a rig in hand"),
  make("p", {}, make("b", {}, "Cut the power of the rig now."), " Neither this page nor its Stop reaches it any more."), runs, second,
  button("I have seen it", () => {
    seen = true;
    at("dead").hidden = true;
  }, { id: "dead-seen", class: "strong" }),
);

/**
 * Says why there is no answer, in words; "" where there is one. lost: the program itself is silent or gone.
 * @param {string} text
 */
export function gone(text, lost = false) {
  const held = lost && last();
  words(at("gone"), text);
  at("gone").hidden = text === "";
  if (text === "") seen = false;
  const large = held && held.open && !seen;
  if (large) {
    words(runs, held.runsOn);
    second.hidden = held.where === "virtual";
  }
  at("dead").hidden = !large;
}
