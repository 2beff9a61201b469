// What the page knows, and how numbers are told.
import assert from "node:assert/strict";
import { test } from "node:test";
import { frameOf, number, on, position, shot, tell, timelinePerFrame, turned, unsaved } from "../../site/script/shot.js";

test("a number has its places, a true minus, and none before nothing", () => {
  assert.equal(number(1.25), "1.3");
  assert.equal(number(-1.25, 2), "\u22121.25");
  assert.equal(number(-0.04), "0.0");
  assert.equal(number(-0.05, 1), "\u22120.1");
  assert.equal(number(0, 0), "0");
  assert.equal(number(1234.5678, 3), "1234.568");
});

const view = { every: 2 };
const axis = { pos: [10, 20, 40] };

test("an axis is in proportion between two places, and stays at its ends beyond them", () => {
  assert.deepEqual([0, 1, 2, 3, 4].map((f) => position(axis, f, view)), [10, 15, 20, 30, 40]);
  assert.equal(position(axis, -3, view), 10);
  assert.equal(position(axis, 99, view), 40);
  assert.equal(position({ pos: [7] }, 5, view), 7);
});

test("a round turns an axis on by what its ends differ", () => {
  assert.equal(turned(axis), 30);
  assert.equal(turned({ pos: [3] }), 0);
});

test("a place is in the frame before it, and in its own where it falls short by rounding", () => {
  assert.deepEqual([0, 2.999, 3 - 1e-9, 3, -0.5].map(frameOf), [0, 2, 3, 3, -1]);
});

test("captured frames are fewer or more than those of the timeline", () => {
  assert.equal(timelinePerFrame({ timelineFrames: 144, frames: 720 }), 0.2);
});

test("all that listen are told, in the order in which they came, and of no other name", () => {
  const heard = [];
  on("a", (what) => heard.push(["first", what]));
  on("a", (what) => heard.push(["second", what]));
  on("b", () => heard.push("never"));
  tell("a", 3);
  tell("nothing that anyone listens to");
  assert.deepEqual(heard, [["first", 3], ["second", 3]]);
});

test("what is new or typed is not saved", () => {
  Object.assign(shot, { text: "a", saved: "a", revision: "1", start: { new: false }, faults: [] });
  assert.equal(unsaved(), false);
  shot.text = "b";
  assert.equal(unsaved(), true);
  Object.assign(shot, { text: "a", start: { new: true }, revision: "" });
  assert.equal(unsaved(), true);
});
