// In which order plans are asked for, what becomes of them, and what can be undone.
import { part, program, refuses, rests } from "./page.mjs";
import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import { besideShot, change, redo, redoes, remember, retext, undo, undoes } from "../../site/script/planner.js";
import { on, shot } from "../../site/script/shot.js";

const questions = []; // under way, the oldest first
program.plan = (question, signal) => new Promise((answer, fail) => {
  questions.push({ question, answer, signal });
  signal.addEventListener("abort", () => fail(signal.reason));
});

/** What the program makes of a question: the edits written behind the text. */
const planned = ({ text, edits }, more) => ({ text: text + edits.map((e) => e.value).join(""), ms: 1, faults: [], view: { takes: [], text }, refused: false, fits: [], at: "", told: [], ...more });

/** Answers the oldest question. */
async function answers(more) {
  const { question, answer } = questions.shift();
  answer(planned(question, more));
  for (let n = 0; n < 4; n++) await rests();
  return question;
}

const edit = (value) => [{ path: "p", value }];
const said = () => part("notes").textContent;
const telling = [];
for (const name of ["asked", "planned", "view"]) on(name, () => telling.push(name));

beforeEach(async () => {
  void retext("A");
  while (questions.length) await answers();
  telling.length = 0;
  part("notes").replaceChildren();
});

test("a change is planned, told, and can be undone and done again", async () => {
  const done = change(edit("1"), { label: "one" });
  assert.deepEqual([shot.pending, shot.text], [true, "A"]);
  assert.deepEqual((await answers()).quick, false);
  assert.equal((await done).text, "A1");
  assert.deepEqual([shot.pending, shot.text, undoes()], [false, "A1", "one"]);
  assert.deepEqual(telling, ["asked", "view", "planned"]);
  const back = undo();
  await rests();
  await answers();
  await back;
  assert.deepEqual([shot.text, redoes()], ["A", "one"]);
  void redo();
  await rests();
  await answers();
  assert.deepEqual([shot.text, undoes(), redoes()], ["A1", "one", undefined]);
});

test("of the steps of a drag that wait only the newest is asked, and all are one step of undo", async () => {
  const drag = { text: "A", before: "A" };
  for (const v of ["1", "2", "3"]) void change(edit(v), { ...drag, last: false });
  assert.equal(questions.length, 1, "one question at a time");
  await answers();
  assert.equal(shot.text, "A1");
  assert.equal(questions[0].question.edits[0].value, "3");
  assert.ok(questions[0].question.quick);
  void change(edit("4"), { ...drag, label: "dragged" });
  await answers();
  await answers();
  assert.deepEqual([shot.text, undoes()], ["A4", "dragged"]);
  assert.equal(questions.length, 0);
});

test("what is typed into two fields while a plan is under way is lost in neither", async () => {
  for (const v of ["1", "2", "3"]) void change(edit(v));
  for (let n = 0; n < 3; n++) await answers();
  assert.equal(shot.text, "A123");
});

test("what is refused is said, and changes nothing", async () => {
  const before = undoes();
  const done = change(edit("1"));
  await answers({ text: "A", refused: true, faults: [{ axis: "rail", text: "too far", fit: "90 mm" }] });
  assert.equal((await done).refused, true);
  assert.deepEqual([shot.text, undoes(), shot.pending], ["A", before, false]);
  assert.match(said(), /rail: too far: 90 mm/);
});

test("a text with faults is taken as it is, and what is drawn stays", async () => {
  const { view } = shot;
  void retext("broken");
  assert.equal(shot.text, "broken");
  await answers({ view: null, faults: [{ text: "no" }] });
  assert.deepEqual([shot.text, shot.faults.length, shot.view === view], ["broken", 1, true]);
});

test("an answer to a text that has been typed on since is not taken", async () => {
  void retext("B");
  void retext("C");
  await answers();
  assert.equal(shot.text, "C");
  await answers();
  assert.deepEqual([shot.text, undoes()], ["C", "text"]);
});

test("an edit that comes back while something is typed is asked again, of what was typed", async () => {
  void change(edit("1"));
  shot.text = "typed"; // as the editor has it before it rests
  await answers();
  assert.deepEqual([shot.text, shot.planned], ["typed", "A"], "which text the plan is of stays known");
  await answers();
  assert.deepEqual([shot.text, shot.planned], ["typed1", "typed1"]);
});

test("what a closer look finds wrong is told, and the view stays", async () => {
  void change(edit("1"));
  await answers({ ms: 61 });
  void change(edit("2"));
  await answers();
  const { view } = shot;
  await answers({ view: null, faults: [{ text: "the rig has gone" }] });
  assert.deepEqual([shot.text, shot.faults.length, shot.view === view], ["A12", 1, true]);
});

test("where no closer look comes after a glance, the glance is drawn in full", async () => {
  void change(edit("1"));
  await answers({ ms: 61 });
  void change(edit("2"));
  await answers();
  assert.ok(shot.glanced);
  telling.length = 0;
  questions.shift().answer(refuses(500, "it broke"));
  for (let n = 0; n < 4; n++) await rests();
  assert.deepEqual([shot.glanced, shot.text, telling.includes("view")], [false, "A12", true]);
});

test("where whole plans take long, a glance comes first and is on screen meanwhile", async () => {
  void change(edit("1"));
  await answers({ ms: 61 });
  void change(edit("2"));
  assert.ok((await answers()).quick);
  assert.deepEqual([shot.text, shot.pending, shot.dragged, shot.glanced], ["A12", false, true, true], "nothing waits");
  const whole = await answers({ ms: 61 });
  assert.deepEqual([whole.quick, whole.text, shot.dragged], [false, "A12", false]);
  assert.ok(!shot.glanced);
});

test("a newer change ends the closer look at the one before", async () => {
  void change(edit("1"));
  await answers({ ms: 61 });
  void change(edit("2"));
  await answers();
  const closer = questions.shift();
  void change(edit("3"));
  assert.ok(closer.signal.aborted);
  await rests();
  await answers({ ms: 1 });
  while (questions.length) await answers({ ms: 1 });
  assert.equal(shot.text, "A123");
  assert.equal(said(), "", "nobody gave it up");
});

test("a program that refuses to plan is told, and the next change is asked", async () => {
  void change(edit("1"));
  questions.shift().answer(refuses(500, "it broke"));
  for (let n = 0; n < 4; n++) await rests();
  assert.match(said(), /it broke/);
  assert.equal(shot.pending, false);
  void change(edit("2"));
  await answers();
  assert.equal(shot.text, "A2");
});

test("undo puts back what a step has changed beside the shot, or else stays where it was", async () => {
  const put = [];
  besideShot(async (beside) => {
    if (beside.whole === "lost") throw new Error("another program");
    put.push(beside.whole);
    return { file: beside.file, whole: "now" };
  });
  remember("A", "rig", { file: "r.toml", whole: "was" });
  const back = undo();
  await rests();
  await answers();
  await back;
  assert.deepEqual([put, redoes()], [["was"], "rig"]);
  remember("A", "rig again", { file: "r.toml", whole: "lost" });
  await undo();
  assert.equal(questions.length, 0);
  assert.match(said(), /another program/);
});
