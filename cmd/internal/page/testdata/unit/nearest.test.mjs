// What a press among many is meant for.
import assert from "node:assert/strict";
import { test } from "node:test";
import { REACH, nearest, reachOf } from "../../site/script/nearest.js";

const row = Array.from({ length: 30 }, (_, i) => ({ x: 5 * i, y: 3 * (i % 2) }));

test("at its own middle every one of many is the nearest, however near its neighbours are", () => {
  for (const one of row) assert.equal(nearest(row, one.x, one.y, REACH.touch), one);
});

test("between two it is the nearer one, and beyond a fingertip none", () => {
  const pair = [{ x: 0, y: 0 }, { x: 20, y: 0 }];
  assert.equal(nearest(pair, 9, 5, REACH.touch), pair[0]);
  assert.equal(nearest(pair, 11, -5, REACH.touch), pair[1]);
  assert.equal(nearest(pair, -REACH.touch + 0.5, 0, REACH.touch), pair[0]);
  assert.equal(nearest(pair, -REACH.touch - 0.5, 0, REACH.touch), null);
  assert.equal(nearest([], 0, 0, REACH.touch), null);
});

test("a finger reaches further than a mouse, and what is not known is as exact as that", () => {
  assert.ok(reachOf({ pointerType: "touch" }) > reachOf({ pointerType: "mouse" }));
  assert.equal(reachOf({ pointerType: "" }), REACH.mouse);
});
