// pictures asks for what the lens sees: the frame under the playhead with every change,
// before its plan has come; then the round, coarsely first; then finely where the
// playhead is.
import { pictures } from "./server.js";
import { givenUp, refusal } from "./refusal.js";
import { frameOf, on, shot } from "./shot.js";
import { follow, playhead } from "./playhead.js";
import { rig } from "./driver.js";
import { newest, ofStep, passed, settled } from "./rounds.js";

const WIDE = 240; // px, at once
const FINE = [640, 960, 1280, 1920]; // px, the first that fills where it is seen
const STILL = 150; // ms that what is dragged has to rest before the round is drawn: of a hand that moves on, nothing would be seen of it, and plans would wait
const RESTED = 1500; // ms without a change until the round is drawn finely
const TURN = 100; // pictures in one question, which may have no more: it is chosen anew after them, by where the playhead then is
const FINE_TURN = 12;
const FINE_REACH = 400; // frames from the playhead on that are drawn finely
const ALONG = 12; // pictures of the round beside the one under the playhead, while it moves
const MOVED = 120; // ms that the playhead has to rest before its frame is drawn finely

let changed = 0; // when, in ms of the page's clock
/** @typedef {import("./rounds.js").Round} Round */

/** @type {Job | null} the newest change whose picture is not under way */
let asked = null;
let near = false; // whether one is
/** @type {AbortController | null} the question about the round */
let under = null;
let waiting = 0;
/** @type {(round: Round) => unknown} */
let came = (round) => round;
let screen = () => FINE[0];

/** Calls f with a round whenever something new is there of it. @param {(round: Round) => unknown} f */
export const whenThere = (f) => (came = f);

/** How many pixels wide the picture is seen is what f answers. @param {() => number} f */
export const seenAt = (f) => (screen = f);

/** Looks whether something is wanted now. */
export const again = () => under || soon(0);

const here = () => frameOf(playhead.frame);
const fineWidth = () => FINE.find((w) => w >= screen()) ?? FINE[FINE.length - 1];

on("asked", (job) => {
  asked = job;
  stop();
  void follows();
});

/** Asks for the frame under the playhead, with the change itself: one question at a time, of those that wait the newest. */
async function follows() {
  if (near || !asked) return;
  const job = asked;
  asked = null;
  near = true;
  let frames = [here()];
  /** @type {Round | null} */
  let round = null;
  const begin = (/** @type {number} */ of) => {
    if (job.id < (newest()?.step ?? 0)) return; // too late
    round = ofStep(job.id, of);
    passed(round);
  };
  if (playhead.playing && shot.view) frames = along(frames[0], shot.view.frames);
  try {
    await pictures("preview", { text: job.text, edits: job.edits, width: WIDE, frames, beside: true }, (data, i) => {
      if (!round) return;
      round.frames.put(Math.min(frames[i], round.frames.count - 1), { wide: WIDE, data });
      came(round);
    }, undefined, undefined, begin);
  } catch {
    // What is wrong with the change is told by its plan.
  }
  near = false;
  void follows();
}

/** The playhead's frame and others all round, from it on. @param {number} frame @param {number} count */
function along(frame, count) {
  const step = Math.max(1, Math.floor(count / ALONG));
  return Array.from({ length: Math.min(ALONG, count) }, (_, i) => (frame + i * step) % count);
}

on("planned", () => {
  if (!shot.view || shot.faults.length || shot.text !== shot.planned) return;
  const round = settled(shot.text, shot.step, shot.view.frames);
  if (!round.began) round.began = shot.began;
  changed = performance.now();
  came(round);
  soon(shot.dragged ? STILL : 0);
});
on("drive", () => rig?.open && newest()?.coarse && stop());

let stood = 0;
follow((p) => {
  const frame = here();
  if (frame === stood) return;
  stood = frame;
  if (!under && newest()?.text) soon(p.playing ? 0 : MOVED);
});

function stop() {
  clearTimeout(waiting);
  under?.abort();
  under = null;
}

/** @param {number} ms */
function soon(ms) {
  clearTimeout(waiting);
  waiting = setTimeout(() => void fill(), ms);
}

/** Draws what is wanted of the round, for as long as something is. */
async function fill() {
  if (under) return;
  const own = (under = new AbortController());
  const round = newest();
  try {
    for (let q; round && !own.signal.aborted && (q = next(round));) await draw(round, q, own.signal);
  } catch (err) {
    if (round && !givenUp(err)) fails(round, refusal(err).message);
  }
  if (under === own) under = null;
}

/** @param {Round} round @param {{ frames: number[], wide: number }} question @param {AbortSignal} signal */
async function draw(round, { frames, wide }, signal) {
  await pictures("preview", { text: round.text ?? "", edits: [], width: wide, frames }, (data, i) => {
    round.frames.put(frames[i], { wide, data });
    came(round);
  }, signal);
}

/** @param {Round} round @param {string} why */
function fails(round, why) {
  round.failed = why;
  came(round);
}

/**
 * The next question about a round, or null: the coarse round, the playhead's frame finely, what is between, the round finely.
 * @param {Round} round
 * @returns {{ frames: number[], wide: number } | null}
 */
function next(round) {
  if (!round.text || round.failed) return null;
  const { frames } = round;
  const at = here();
  const coarse = () => {
    const list = frames.wanted(at, TURN);
    return list.length ? { frames: list, wide: WIDE } : null;
  };
  const { there, of } = frames.first();
  if (!round.coarse && there < of) return coarse();
  round.coarse = true;
  if (rig?.open || document.hidden) return null; // this machine has better things to do than to draw finely
  const wide = fineWidth();
  if (!playhead.playing && frames.wide(at) < wide) return { frames: [at], wide };
  const between = coarse();
  if (between) return between;
  const rests = RESTED - (performance.now() - changed);
  if (rests > 0) return (soon(rests), null);
  const reach = Math.min(FINE_REACH, Math.floor(frames.room() / 2));
  const list = frames.narrow(at, wide, reach, FINE_TURN);
  return list.length ? { frames: list, wide } : null;
}
