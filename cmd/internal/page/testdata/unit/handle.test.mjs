// What moving a point of a curve asks for.
import assert from "node:assert/strict";
import { test } from "node:test";
import { edited, pressed, telling } from "../../site/script/handle.js";
import { arrow } from "../../site/script/nearest.js";

const key = (name, more) => ({ key: name, shiftKey: false, altKey: false, ctrlKey: false, metaKey: false, ...more });
const view = { frames: 720, timelineFrames: 144, loopScreenSeconds: 6 };
const handle = { path: "axis.rail.to", vary: "both", frame: 100, pos: 20, unit: "mm", step: 0 };

test("an arrow key leads one way, coarsely with Shift and finely with Alt", () => {
  const steps = { fine: 1, plain: 10, coarse: 50 };
  assert.deepEqual(arrow(key("ArrowUp"), steps), { right: 0, up: 1, by: 10 });
  assert.deepEqual(arrow(key("ArrowDown", { shiftKey: true }), steps), { right: 0, up: -1, by: 50 });
  assert.deepEqual(arrow(key("ArrowLeft", { altKey: true }), steps), { right: -1, up: 0, by: 1 });
  assert.deepEqual(arrow(key("ArrowRight"), steps), { right: 1, up: 0, by: 10 });
  for (const other of [key("a"), key("ArrowUp", { ctrlKey: true }), key("ArrowUp", { metaKey: true })]) assert.equal(arrow(other, steps), null);
});

test("an edit says of a point what can be put elsewhere of it, and no frame before the first", () => {
  assert.deepEqual(edited({ path: "a", vary: "both" }, -3, 7), { path: "a", frame: 0, pos: 7 });
  assert.deepEqual(edited({ path: "a", vary: "time" }, 3, 7), { path: "a", frame: 3 });
  assert.deepEqual(edited({ path: "a", vary: "pos" }, 3, 7), { path: "a", pos: 7 });
});

test("keys move a point by units up, and by frames of the timeline along", () => {
  assert.deepEqual(pressed(handle, key("ArrowUp"), view), { path: handle.path, frame: 100, pos: 21 });
  assert.deepEqual(pressed(handle, key("ArrowDown", { altKey: true }), view), { path: handle.path, frame: 100, pos: 19.9 });
  assert.deepEqual(pressed(handle, key("ArrowRight"), view), { path: handle.path, frame: 105, pos: 20 });
  assert.deepEqual(pressed(handle, key("ArrowLeft", { shiftKey: true }), view), { path: handle.path, frame: 50, pos: 20 });
  assert.equal(pressed(handle, key("ArrowRight", { altKey: true }), view).frame, 105, "there is no part of a frame");
  assert.equal(pressed(handle, key("Enter"), view), null);
});

test("what has but a time goes along by either arrow, what has but a place by none sideways", () => {
  assert.deepEqual(pressed({ ...handle, vary: "time" }, key("ArrowUp"), view), { path: handle.path, frame: 105 });
  assert.equal(pressed({ ...handle, vary: "pos" }, key("ArrowLeft"), view), null);
});

test("what goes on by faces goes on by one of them, coarsely or finely", () => {
  for (const more of [{}, { shiftKey: true }, { altKey: true }]) assert.equal(pressed({ ...handle, step: 60 }, key("ArrowDown", more), view).pos, -40);
});

test("where it is, is told by place and time, or by time alone", () => {
  assert.equal(telling({ ...handle, frame: 360, pos: -2.55 }, view), "\u22122.5 mm, 3.00 s on screen, frame 72");
  assert.equal(telling({ ...handle, vary: "time", frame: 720 }, view), "6.00 s on screen, frame 144");
});
