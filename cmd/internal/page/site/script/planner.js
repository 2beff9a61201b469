// planner asks for plans. One question is on its way at a time; of those that
// wait, only the newest is asked. Every change can be undone, without end.
import { ask } from "./server.js";
import { shot, tell } from "./shot.js";
import { say, sayError } from "./notice.js";

const past = [];
const future = [];

let asking = false;
let next = null;
let settled = []; // who waits for the newest question to be answered

/** The name under which the browser keeps how long a change took to be on screen. */
export const MEASURE = "change to plan on screen";

/** Makes edits to a text, by default the one at hand. A last one can be undone as one step with those before it. */
export function change(edits, { text = shot.text, before = shot.text, last = true, label = "change" } = {}) {
  return queue({ text, edits, before, last, label });
}

/** Takes a text as a whole. */
export function retext(text, label = "text", before = shot.text) {
  return queue({ text, edits: [], before, last: true, label, whole: true });
}

function queue(job) {
  job.began = performance.now();
  if (job.whole) shot.text = job.text;
  next = job;
  const done = new Promise((resolve) => settled.push(resolve));
  void work();
  return done;
}

async function work() {
  if (asking || !next) return;
  const job = next;
  next = null;
  asking = true;
  tell("asking");
  let answer = null;
  try {
    answer = await ask("plan", { text: job.text, edits: job.edits, quick: !job.last });
    take(answer, job);
  } catch (err) {
    sayError(err);
  }
  asking = false;
  if (next) return void work();
  tell("planned");
  const waiting = settled;
  settled = [];
  for (const resolve of waiting) resolve(answer);
}

function take(answer, job) {
  if (job.whole && shot.text !== job.text) return; // it has been typed on since
  const refused = answer.faults.length > 0 && !job.whole && answer.text === job.text;
  if (refused && job.last) {
    for (const f of answer.faults) say([f.axis, f.text, f.fit].filter(Boolean).join(": "), "bad");
  }
  if (refused) return;
  if (job.last && answer.text !== job.before) remember(job.before, job.label);
  show(answer, job);
  requestAnimationFrame(() => performance.measure(MEASURE, { start: job.began, end: performance.now() }));
}

function show(answer, job) {
  const same = answer.text === shot.text && !job.whole;
  shot.text = answer.text;
  shot.faults = answer.faults;
  shot.began = job.began;
  shot.dragged = !job.last;
  if (answer.view) shot.view = answer.view;
  if (!same) tell("text");
  if (answer.view) tell("view");
  tell("faults");
  tell("disk");
}

function remember(text, label) {
  past.push({ text, label });
  future.length = 0;
  tell("history");
}

async function step(from, to) {
  const was = from.pop();
  if (!was) return;
  to.push({ text: shot.text, label: was.label });
  await queue({ text: was.text, edits: [], before: was.text, last: true, label: was.label, whole: true });
  tell("history");
}

export const undo = () => step(past, future);
export const redo = () => step(future, past);
export const undoes = () => past.at(-1)?.label;
export const redoes = () => future.at(-1)?.label;
