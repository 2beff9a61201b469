// whole shows the lens on the whole screen: keys, touch and a row of buttons move
// through the round there. Where a device has no such thing, it fills the window. While a
// rig is driven, the strip and Stop are there as well.
import { at, button, make, words } from "./make.js";
import { frameOf, shot, timelinePerFrame } from "./shot.js";
import { follow, goTo, loopSeam, pause, playOrPause, playhead, stepBy, wholeFrame } from "./playhead.js";
import { again } from "./pictures.js";
import { keepOver } from "./fullscreen.js";

const TAP = 8; // px that a finger may move and still tap
const STAYS = "notes"; // what is said is said here too

const part = at("seen");
const canvas = at("lens");
const enters = button("Whole screen", enter, { id: "whole-screen", class: "stays" });
const plays = button("Go round", playOrPause, { class: "plays" });
const seam = button("Loop seam", () => loopSeam(!playhead.seam), { "aria-pressed": "false" });
const readout = make("output.instant", { "aria-label": "Instant", "aria-live": "off" });
const bar = make("div.whole-bar.stays", { role: "group", "aria-label": "Round the loop, on the whole screen", hidden: true },
  plays, button("\u2212 1", () => stepBy(-1), { "aria-label": "\u2212 1 frame" }), button("+ 1", () => stepBy(1), { "aria-label": "+ 1 frame" }), seam,
  readout, button("Leave", leave, { class: "leaves", "aria-keyshortcuts": "Escape" }));
part.append(enters, bar);
part.tabIndex = -1;

let open = false;
/** @type {HTMLElement[]} what cannot be reached meanwhile */
let behind = [];

async function enter() {
  if (open) return;
  show(true);
  try {
    await part.requestFullscreen?.({ navigationUI: "hide" });
  } catch {
    // Then it fills the window.
  }
  if (!open && document.fullscreenElement) await document.exitFullscreen();
}

function leave() {
  if (!open) return;
  show(false);
  if (document.fullscreenElement) void document.exitFullscreen();
  enters.focus();
}

/** @param {boolean} whole */
function show(whole) {
  open = whole;
  part.classList.toggle("whole", whole);
  bar.hidden = !whole;
  enters.hidden = whole;
  (whole ? bar : at("names")).append(at("work")); // and can be given up here
  keepOver(whole ? part : null);
  for (const el of behind) el.inert = false;
  behind = whole ? [...beside(part)].filter((el) => !el.inert && el.id !== STAYS) : [];
  for (const el of behind) el.inert = true;
  if (whole) part.focus();
  tell(playhead);
  again();
}

/** All that is not in an element, and does not hold it. @param {HTMLElement} el @returns {Generator<HTMLElement>} */
function* beside(el) {
  for (let e = el, up; e !== document.body && (up = e.parentElement); e = up) for (const other of up.children) if (other !== e && other instanceof HTMLElement) yield other;
}

/** @param {typeof playhead} p */
function tell(p) {
  if (!open || !shot.view) return;
  words(plays, p.playing ? "Stand still" : "Go round");
  seam.setAttribute("aria-pressed", String(p.seam));
  const frame = frameOf(p.frame * timelinePerFrame(shot.view));
  words(readout, `frame ${frame} of ${shot.view.timelineFrames}, ${((p.frame / shot.view.frames) * shot.view.loopScreenSeconds).toFixed(2)} s`);
}

document.addEventListener("fullscreenchange", () => !document.fullscreenElement && leave());
addEventListener("keydown", (e) => {
  if (!open || e.key !== "Escape") return;
  e.preventDefault();
  leave();
});
follow(tell);

// A tap plays or stands still; a finger drawn across goes through the round, once from side to side.
/** @type {{ x: number, frame: number, moved: boolean } | null} */
let finger = null;
canvas.addEventListener("pointerdown", (e) => {
  if (!open || !shot.view) return;
  canvas.setPointerCapture(e.pointerId);
  finger = { x: e.clientX, frame: playhead.frame, moved: false };
});
canvas.addEventListener("pointermove", (e) => {
  if (!finger || !canvas.hasPointerCapture(e.pointerId)) return;
  const by = e.clientX - finger.x;
  if (!finger.moved && Math.abs(by) < TAP) return;
  if (!finger.moved) pause();
  finger.moved = true;
  goTo(wholeFrame(finger.frame + (by / canvas.clientWidth) * shot.view.frames));
});
canvas.addEventListener("pointerup", () => {
  if (finger && !finger.moved) playOrPause();
  finger = null;
});
canvas.addEventListener("pointercancel", () => (finger = null));
