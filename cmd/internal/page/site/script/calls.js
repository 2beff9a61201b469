// calls shows each beat of a count large, over what the lens sees and in the strip: how many
// are left, whose hand, and what.
import { at, make, words } from "./make.js";
import { on } from "./shot.js";
import { rig } from "./driver.js";
import { countOf, together } from "./rigwords.js";
import { called } from "./sound.js";

const LINGERS = 1600; // ms: longer than from beat to beat of a second

const big = make("p", {}, make("b", {}), make("span", {}));
const over = make("div", { id: "call-over", "aria-hidden": "true", hidden: true }, big);
at("lens").after(over);

/** @type {Wire.Call[]} */
let recent = [];
let away = 0;

on("call", (fresh) => {
  for (const call of fresh) called(call);
  const last = fresh[fresh.length - 1];
  recent = together([...recent, ...fresh]);
  show(countOf(recent), [...new Set(recent.map((c) => c.text))].join(" + "));
  const hears = Date.now() - last.at;
  requestAnimationFrame(() => setTimeout(() => Object.assign(at("strip-call").dataset, { heard: hears.toFixed(1), drawn: (performance.timeOrigin + performance.now() - last.at).toFixed(1), n: last.n })));
  clearTimeout(away);
  away = setTimeout(none, LINGERS);
});

/** @param {string} count @param {string} text */
function show(count, text) {
  over.hidden = at("strip-call").hidden = false;
  for (const el of [big, at("strip-call")]) {
    el.classList.toggle("now", count === "NOW" || count === "GO");
    words(el.children[0], count);
    words(el.children[1], text);
  }
}

function none() {
  recent = [];
  over.hidden = at("strip-call").hidden = true;
}

const COUNTS = new Set(["counting in", "running", "waiting for the hand"]);
on("drive", () => rig?.open && COUNTS.has(rig.state) || none()); // nobody is counted on to by a rig that stops
