// byhand moves one axis for as long as a button or an arrow key is held. Whatever ends the
// hold lets go at once: the finger, the focus, the page out of sight. A page that is gone
// renews nothing, and its connection ends with it.
import { at, fill, make, words } from "./make.js";
import { number, on } from "./shot.js";
import { mine, rig, want } from "./driver.js";

const RENEW = 60; // ms; the program goes on for 200 without

const axis = at("byhand-axis"), speed = at("byhand-speed");
/** @type {[HTMLButtonElement, number, string][]} */
const holds = [[at("hold-less"), -1, "ArrowLeft"], [at("hold-more"), 1, "ArrowRight"]];

let presses = 0;
/** @typedef {{ by: EventTarget | null, press: number, axis: number, speed: number, timer: number, asking: boolean }} Hold */

/** @type {Hold | null} */
let held = null;

/** The axis of the run that is chosen. */
export const chosen = () => Math.max(axis.selectedIndex, 0);

/** @param {number} way @param {EventTarget | null} by */
function hold(way, by) {
  if (held || at("byhand").hidden) return;
  const now = { by, press: ++presses, axis: chosen(), speed: way * rig.axes[chosen()].speeds[speed.selectedIndex], timer: 0, asking: false };
  held = now;
  now.timer = setInterval(() => void renew(now), RENEW);
  void renew(now);
}

/** Asks for the same again. One question is on its way at a time: a program that hangs is asked no more. @param {Hold} now */
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
const way = (/** @type {KeyboardEvent} */ e) => holds.find(([, , key]) => key === e.key)?.[1];
at("holds").addEventListener("keydown", (e) => {
  const to = way(e);
  if (!to) return;
  e.preventDefault();
  if (!e.repeat) hold(to, e.target);
});
at("holds").addEventListener("keyup", (e) => way(e) && letGo());
for (const kind of ["blur", "pagehide"]) addEventListener(kind, () => letGo());
document.addEventListener("visibilitychange", () => document.hidden && letGo());

const option = (/** @type {string} */ text) => make("option", {}, text);

function speeds() {
  const { name, unit, speeds, rests } = rig.axes[chosen()];
  fill(speed, name + speeds.join(), () => speeds.map((v, n) => option(`${number(v, 1)} ${unit}/s, goes on up to ${number(rests[n], 2)} ${unit}`)));
}
axis.addEventListener("change", speeds);

/**
 * How far the axis has gone that is held or was.
 * @param {Wire.Held} held
 * @param {Wire.AxisName} of
 */
function heldWords(held, of) {
  // While it moves, what the controller reports is behind what it has gone.
  const where = !held.moving && rig.pos.length > held.axis ? `, at ${number(rig.pos[held.axis], 2)} ${of.unit}` : "";
  return `${of.name} ${held.moving ? "moves" : "rests"}, ${number(held.gone, 2)} ${of.unit} gone${where}`;
}

on("drive", () => {
  words(at("held-words"), rig?.held ? heldWords(rig.held, rig.axes[rig.held.axis]) : "");
  Object.assign(at("held-words").dataset, { moving: Boolean(rig?.held?.moving), after: rig?.held?.after ?? "" });
  const can = Boolean(rig?.open && mine() && rig.takes.includes("jog-hold"));
  at("byhand").hidden = !can;
  if (!can) return letGo();
  fill(axis, rig.axes.map((a) => a.name).join(), () => rig.axes.map((a) => option(a.name)));
  speeds();
});
