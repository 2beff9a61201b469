// planner asks for plans. One question is on its way at a time; of the steps of a drag that
// wait, only the newest is asked. Every change can be undone, without end.
import { ask } from "./server.js";
import { shot, tell } from "./shot.js";
import { givenUp, told } from "./refusal.js";
import { say, sayError } from "./notice.js";
import { working } from "./work.js";

/** @typedef {{ file: string, whole: string }} Beside a file beside the shot, and all of its text before */
/** @typedef {{ text: string, label: string, beside: Beside | null }} Step */

/** @type {Step[]} */
const past = [];
/** @type {Step[]} */
const future = [];

const PROMPT = 60; // ms that a whole plan may take

let asking = false;
let long = true; // whether whole plans take longer, or may: the first is unknown
/** @type {Job | null} */
let next = null;
/** @type {AbortController | null} the closer look at a plan that is on screen; a newer change ends it */
let closer = null;
/** @type {((answer: Wire.Answer | null) => void)[]} who waits for the newest question to be answered */
let settled = [];

/** The name under which the browser keeps how long a change took to be on screen. */
export const MEASURE = "change to plan on screen";

/**
 * Makes edits to a text, by default the one at hand. A last one can be undone as one step with those before it.
 * @param {Wire.Edit[]} edits
 * @param {{ text?: string, before?: string, last?: boolean, label?: string }} [how]
 */
export function change(edits, { text, before = shot.text, last = true, label = "change" } = {}) {
  return queue({ text: text ?? shot.text, edits, before, last, label, atHand: text === undefined, whole: false });
}

/** Takes a text as a whole. @param {string} text */
export function retext(text, label = "text", before = shot.text) {
  return queue({ text, edits: [], before, last: true, label, atHand: false, whole: true });
}

/** @param {Omit<Job, "began" | "id" | "earlier">} asked @returns {Promise<Wire.Answer | null>} */
function queue(asked) {
  /** @type {Job} */
  const job = { ...asked, began: performance.now(), id: ++shot.asked, earlier: [] };
  shot.pending = true;
  if (job.whole) shot.text = job.text;
  if (next?.atHand && job.atHand) job.earlier = [...next.earlier, next]; // what was typed meanwhile is not lost
  next = job;
  closer?.abort();
  const done = /** @type {Promise<Wire.Answer | null>} */ (new Promise((resolve) => settled.push(resolve)));
  void work(); // before its picture is asked for, which is drawn from the same plan
  tell("asked", job);
  return done;
}

async function work() {
  if (asking || !next) return;
  const job = next.earlier.shift() ?? next;
  if (job === next) next = null;
  if (job.atHand) job.text = job.before = shot.text; // with the changes before it
  asking = true;
  tell("asking");
  let answer = null;
  try {
    answer = await planned(job);
  } catch (err) {
    if (!givenUp(err)) sayError(err);
    else if (!next) say(`Given up: ${shot.step === job.id ? "the verdicts are those of a glance" : "what is drawn is the plan before"}.`, "fair");
  }
  asking = false;
  if (next) return void work();
  if (shot.glanced) { // and no closer look has come
    shot.glanced = false;
    tell("view");
  }
  done(answer);
}

/** Nothing waits to be planned, though a plan may still be looked at more closely. @param {Wire.Answer | null} answer */
function done(answer) {
  shot.pending = false;
  tell("planned");
  const waiting = settled;
  settled = [];
  for (const resolve of waiting) resolve(answer);
}

/** Plans a change: one that is not the last, or where plans take long, at a glance first. @param {Job} job */
async function planned(job) {
  let quick = !job.last || long;
  const asked = () => working("the plan", (signal) => ask("plan", { text: job.text, edits: job.edits, quick }, signal));
  let answer = await asked();
  if (!answer.view && quick && job.last) { // what would do instead is told in full alone
    quick = false;
    answer = await asked();
  }
  const more = quick && job.last && answer.view !== null && !next;
  take(answer, job, more);
  if (!more) return noted(answer, quick);
  if (next) return answer; // which has the last word
  done(answer);
  closer = new AbortController();
  const whole = await working("the verdicts in full", (signal) => ask("plan", { text: answer.text, edits: [], quick: false }, signal), closer.signal);
  if (shot.text === answer.text) show(whole, { ...job, whole: false }, false); // a rig that has gone meanwhile is a fault
  return noted(whole, false);
}

/** Remembers whether a whole plan takes longer than a hand should wait. @param {Wire.Answer} answer @param {boolean} quick */
function noted(answer, quick) {
  if (!quick && answer.view) long = answer.ms > PROMPT;
  return answer;
}

/** @param {Wire.Answer} answer @param {Job} job @param {boolean} more */
function take(answer, job, more) {
  if (shot.text !== job.text) { // it has been typed on since
    if (job.whole) return;
    if (job.atHand) return void change(job.edits, { last: job.last, label: job.label }); // of that, then
  }
  const refused = answer.refused || (answer.faults.length > 0 && !job.whole && answer.text === job.text);
  if (refused && job.last) {
    for (const f of answer.faults) say(told(f), "bad");
  }
  if (refused) return;
  if (job.last && answer.text !== job.before) remember(job.before, job.label);
  show(answer, job, more);
  requestAnimationFrame(() => performance.measure(MEASURE, { start: job.began, end: performance.now() }));
}

/** @param {Wire.Answer} answer @param {Job} job @param {boolean} more */
function show(answer, job, more) {
  const same = answer.text === shot.text && !job.whole;
  shot.text = answer.text;
  shot.faults = answer.faults;
  shot.planned = answer.text;
  shot.began = job.began;
  shot.dragged = !job.last || more;
  shot.glanced = more;
  if (answer.view) Object.assign(shot, { view: { ...answer.view, takes: answer.view.takes ?? shot.view?.takes ?? [] }, step: job.id });
  if (!same) tell("text");
  if (answer.view) tell("view");
  tell("faults");
  tell("disk");
}

/**
 * Keeps a step for Undo; beside is what else it changed: a rig file, and all of its text before.
 * @param {string} text
 * @param {string} label
 * @param {Beside | null} beside
 */
export function remember(text, label, beside = null) {
  past.push({ text, label, beside });
  future.length = 0;
  tell("history");
}

/** @type {(beside: Beside) => Promise<Beside>} */
let putsBack = async (beside) => beside;

/**
 * Names what puts back what a step has changed beside the shot.
 * @param {typeof putsBack} f
 */
export const besideShot = (f) => void (putsBack = f);

/** @param {Step[]} from @param {Step[]} to */
async function step(from, to) {
  const was = from.pop();
  if (!was) return;
  let beside = null;
  try {
    if (was.beside) beside = await putsBack(was.beside);
  } catch (err) {
    sayError(err);
    tell("history");
    return;
  }
  to.push({ text: shot.text, label: was.label, beside });
  await queue({ text: was.text, edits: [], before: was.text, last: true, label: was.label, atHand: false, whole: true });
  tell("history");
}

export const undo = () => step(past, future);
export const redo = () => step(future, past);
export const undoes = () => past.at(-1)?.label;
export const redoes = () => future.at(-1)?.label;
