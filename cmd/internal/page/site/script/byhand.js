// byhand moves one axis for as long as a button or an arrow key is held. Whatever ends the
// hold lets go at once: the finger, the focus, the page out of sight. A page that is gone
// renews nothing, and its connection ends with it.
import { at, fill, make, words } from "./make.js";
import { number, on } from "./shot.js";
import { mine, rig, want } from "./driver.js";

const RENEW = 60; // ms; the program goes on for 200 without

const axis = at("byhand-axis"), speed = at("byhand-speed");
const holds = [[at("hold-less"), -1, "ArrowLeft"], [at("hold-more"), 1, "ArrowRight"]];

let presses = 0;
let held = null;

/** The axis of the run that is chosen. */
export const chosen = () => Math.max(axis.selectedIndex, 0);

function hold(way, by) {
  if (held || at("byhand").hidden) return;
  const now = { by, press: ++presses, axis: chosen(), speed: way * rig.axes[chosen()].speeds[speed.selectedIndex] };
  held = now;
  now.timer = setInterval(() => renew(now), RENEW);
  void renew(now);
}

/** Asks for the same again. One question is on its way at a time: a program that hangs is asked no more. */
async function renew(now) {
  if (now.asking) return;
  now.asking = true;
  const { press, axis, speed } = now;
  const answer = await want("jog-hold", { press, axis, speed });
  now.asking = false;
  if (!answer?.ok) letGo(now);
}

function letGo(now = held) {
  if (!now || now !== held) return;
  clearInterval(now.timer);
  held = null;
  void want("jog-release", { press: now.press });
}

for (const [button, way, key] of holds) {
  button.addEventListener("pointerdown", (e) => {
    if (e.button !== 0) return;
    button.setPointerCapture(e.pointerId);
    hold(way, button);
  });
  // The focus comes from the other button where this one is pressed: that is none of its hold.
  for (const kind of ["pointerup", "pointercancel", "lostpointercapture", "blur"]) button.addEventListener(kind, () => held?.by === button && letGo());
  button.addEventListener("contextmenu", (e) => e.preventDefault()); // a long press on a screen is a hold
  button.setAttribute("aria-keyshortcuts", key);
}

// With either button in focus both arrow keys are theirs.
const way = (e) => holds.find(([, , key]) => key === e.key)?.[1];
at("holds").addEventListener("keydown", (e) => {
  if (!way(e)) return;
  e.preventDefault();
  if (!e.repeat) hold(way(e), e.target);
});
at("holds").addEventListener("keyup", (e) => way(e) && letGo());
for (const kind of ["blur", "pagehide"]) addEventListener(kind, () => letGo());
document.addEventListener("visibilitychange", () => document.hidden && letGo());

const option = (text) => make("option", {}, text);

function speeds() {
  const { name, unit, speeds, rests } = rig.axes[chosen()];
  fill(speed, name + speeds.join(), () => speeds.map((v, n) => option(`${number(v, 1)} ${unit}/s, goes on up to ${number(rests[n], 2)} ${unit}`)));
}
axis.addEventListener("change", speeds);

on("drive", () => {
  const of = rig?.held && rig.axes[rig.held.axis];
  // While it moves, what the controller reports is behind what it has gone.
  const where = of && !rig.held.moving && rig.pos.length > rig.held.axis ? `, at ${number(rig.pos[rig.held.axis], 2)} ${of.unit}` : "";
  words(at("held-words"), of ? `${of.name} ${rig.held.moving ? "moves" : "rests"}, ${number(rig.held.gone, 2)} ${of.unit} gone${where}` : "");
  Object.assign(at("held-words").dataset, { moving: Boolean(rig?.held?.moving), after: rig?.held?.after ?? "" });
  const can = Boolean(rig?.open && mine() && rig.takes.includes("jog-hold"));
  at("byhand").hidden = !can;
  if (!can) return letGo();
  fill(axis, rig.axes.map((a) => a.name).join(), () => rig.axes.map((a) => option(a.name)));
  speeds();
});
