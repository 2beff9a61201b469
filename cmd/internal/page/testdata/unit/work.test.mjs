// What takes long says so, things in turn, and parts that are older than the numbers.
import { part, rests } from "./page.mjs";
import assert from "node:assert/strict";
import { beforeEach, mock, test } from "node:test";
import { drawnFrom, drawnFromNothing } from "../../site/script/older.js";
import { shot, tell } from "../../site/script/shot.js";
import { byTable, titled } from "../../site/script/tables.js";
import { inTurn, next } from "../../site/script/turns.js";
import { working } from "../../site/script/work.js";
import { part as section, shown, valueOf } from "../../site/script/found.js";

const list = part("work");

/** Work that lasts until it is ended or given up. */
function lasting() {
  const w = { given: false };
  w.f = (signal) => new Promise((done, fail) => {
    w.end = done;
    signal.addEventListener("abort", () => ((w.given = true), fail(signal.reason)));
  });
  return w;
}

test("what is quick is never spoken of, what is not is told and goes away again", async () => {
  mock.timers.enable({ apis: ["setInterval"] });
  const now = mock.method(performance, "now", () => at);
  let at = 1000;
  const pass = (ms) => ((at += ms), mock.timers.tick(ms));
  const w = lasting();
  const done = working("the plan", w.f);
  pass(200);
  assert.equal(list.childElementCount, 0);
  pass(300);
  assert.match(list.textContent, /^Working out the plan 0\.5 s Give up$/);
  pass(1000);
  assert.match(list.textContent, /1\.5 s/);
  w.end(7);
  assert.equal(await done, 7);
  assert.equal(list.childElementCount, 0);
  assert.ok(list.hidden);
  now.mock.restore();
  mock.timers.reset();
});

test("work is given up by its button, and by whoever asked for it", async () => {
  const w = lasting(), outer = new AbortController();
  const done = working("the plan", w.f, outer.signal);
  outer.abort();
  await assert.rejects(done, { name: "AbortError" });
  assert.ok(w.given);
});

test("what is in turn comes by rank, one at a time, and only while it is wanted", async () => {
  const began = [], ends = [];
  let wanted = false;
  const one = (name, rank, is = () => true) => inTurn(rank, is, () => {
    began.push(name);
    return new Promise((done) => ends.push(done));
  });
  one("first", 9);
  one("late", 3);
  one("unwanted", 0, () => wanted);
  one("soon", 1);
  assert.deepEqual(began, ["first"]);
  ends.shift()();
  await rests();
  assert.deepEqual(began, ["first", "soon"]);
  wanted = true;
  ends.shift()();
  await rests();
  assert.deepEqual(began, ["first", "soon", "unwanted"]);
  document.hidden = true;
  ends.shift()();
  await rests();
  assert.equal(began.length, 3, "out of sight nothing begins");
  document.hidden = false;
  void next();
  assert.equal(began.at(-1), "late");
  ends.shift()();
});

test("work that fails ends its turn", async () => {
  let came = false;
  inTurn(0, () => true, () => Promise.reject(new Error("no")));
  inTurn(0, () => true, async () => void (came = true));
  await rests();
  assert.ok(came);
});

const box = part("box");
const told = () => [box.dataset.older, box.getAttribute("aria-busy")];

beforeEach(() => Object.assign(shot, { text: "A", step: 1, asked: 1, pending: false, faults: [] }));

test("a part is older from the change on until it is drawn anew", () => {
  drawnFrom(box);
  assert.deepEqual(told(), [undefined, null]);
  Object.assign(shot, { asked: 2, pending: true });
  tell("text");
  assert.deepEqual(told(), ["being worked out", "true"]);
  Object.assign(shot, { text: "B", step: 2, pending: false });
  drawnFrom(box);
  assert.deepEqual(told(), [undefined, null]);
});

test("it is shown so once that lasts, and no longer", () => {
  mock.timers.enable({ apis: ["setTimeout"] });
  drawnFrom(box);
  const change = () => {
    Object.assign(shot, { asked: shot.asked + 1, pending: true });
    tell("asked", {});
  };
  const plan = () => {
    Object.assign(shot, { text: shot.text + ".", step: shot.asked, pending: false });
    drawnFrom(box);
  };
  change();
  mock.timers.tick(149);
  assert.equal(box.dataset.late, undefined);
  plan();
  change();
  mock.timers.tick(149);
  assert.equal(box.dataset.late, undefined, "each change by itself");
  change();
  mock.timers.tick(1);
  assert.equal(box.dataset.late, "", "one that came to it makes it no younger");
  plan();
  assert.equal(box.dataset.late, undefined);
  mock.timers.tick(1000);
  assert.equal(box.dataset.late, undefined);
  mock.timers.reset();
});

test("what came with the newest change is never older, though its text has been typed on", () => {
  drawnFrom(box, { step: 1, text: "0" });
  assert.deepEqual(told(), [undefined, null]);
});

test("a change that leads back makes nothing older, a fault says why it stays", () => {
  drawnFrom(box);
  Object.assign(shot, { asked: 2 });
  tell("planned");
  assert.deepEqual(told(), [undefined, null], "of the same text");
  Object.assign(shot, { text: "B", faults: [{}] });
  tell("faults");
  assert.deepEqual(told(), ["of the text before its fault", null]);
});

test("a part that waits for something else says for what, and one of nothing is not older", () => {
  drawnFrom(box, { step: 0, text: "0", words: "Ask again." });
  assert.equal(told()[0], "Ask again.");
  drawnFromNothing(box);
  tell("text");
  assert.deepEqual(told(), [undefined, null]);
});

test("values stand by their tables, what those take besides below, and no table for that alone", () => {
  const v = (path, group, value = "1") => ({ path, group, value });
  const values = [v("clock.loop", "clock"), v("camera.x", "camera"), v("clock.rate", "clock")];
  const takes = [v("clock.other", "clock", ""), v("scene.x", "scene", ""), v("rig.y", "rig", "")];
  assert.deepEqual([...byTable(values, takes)].map(([t, list]) => [t, list.map((x) => x.path)]), [["clock", ["clock.loop", "clock.rate", "clock.other"]], ["camera", ["camera.x"]]]);
  assert.deepEqual([...byTable(values, takes, (t) => t === "scene").keys()], ["clock", "camera", "scene"]);
  assert.equal(titled("axis.rail", "shot"), "axis \u203a rail");
  assert.equal(titled("", "shot"), "shot");
});

test("numbers that are told exactly are read as they are meant", () => {
  assert.equal(valueOf("31031/4800"), 31031 / 4800);
  assert.equal(valueOf("6"), 6);
  assert.equal(shown("-1/8"), "-0.125 s shown");
  assert.equal(section("Pieces", []).textContent, "Pieces");
});
