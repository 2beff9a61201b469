// The playhead, the part of the round that is seen, and what glides.
import { frame, wants } from "./page.mjs";
import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import { course, extent, where } from "../../site/script/course.js";
import { Glide } from "../../site/script/glide.js";
import * as head from "../../site/script/playhead.js";
import { shot, tell } from "../../site/script/shot.js";
import { all, holdSpan, include, panBy, reveal, seesAll, showAll, showSpan, span, zoomAt } from "../../site/script/span.js";

/** A loop of so many captured frames, 5 s on screen in 120 frames of the timeline. */
function loop(frames) {
  shot.view = { frames, every: 1, timelineFrames: 120, loopScreenSeconds: 5, captureHz: 240 };
  tell("view");
}

beforeEach(() => {
  wants.less = true; // all is there at once
  loop(600);
  showAll();
  head.loopSeam(false);
  head.pause();
  head.goTo(0);
});

const about = (list, want) => list.forEach((x, i) => assert.ok(Math.abs(x - want[i]) < 1e-9, `${list} is not ${want}`));

test("the playhead goes round", () => {
  head.goTo(-1);
  assert.equal(head.playhead.frame, 599);
  head.goTo(1201);
  assert.equal(head.playhead.frame, 1);
});

test("a step is a frame of the timeline, wherever between two it stands", () => {
  head.goTo(12);
  head.stepBy(1);
  assert.equal(head.playhead.frame, 15);
  head.stepBy(-1);
  assert.equal(head.playhead.frame, 10);
  head.goTo(0);
  head.stepBy(-1);
  assert.equal(head.playhead.frame, 595);
});

test("in a loop that has become shorter it stands on the last frame", () => {
  head.goTo(500);
  loop(100);
  assert.equal(head.playhead.frame, 99);
});

for (const [pace, went] of [["shown", 24], ["half", 12], ["real", 48]]) test(`it plays at its pace: ${pace}`, () => {
  head.setPace(pace);
  head.goTo(300);
  head.play();
  const began = performance.now();
  frame(began);
  const from = head.playhead.frame;
  frame(began + 200);
  assert.ok(Math.abs(head.playhead.frame - from - went) < 0.5, String(head.playhead.frame - from));
  const gone = head.playhead.frame;
  head.pause();
  const back = gone - head.playhead.frame;
  assert.ok(back >= 0 && back < 5 && Number.isInteger(head.playhead.frame), `stands still, where the frame of the timeline that it was in begins: ${gone} ${head.playhead.frame}`);
  const at = head.playhead.frame;
  frame(began + 400);
  assert.equal(head.playhead.frame, at);
});

test("a page that was asleep does not jump", () => {
  head.setPace("shown");
  head.play();
  const began = performance.now();
  frame(began);
  frame(began + 61_000);
  assert.ok(head.playhead.frame < 60, "a quarter of a second at the most");
});

test("the seam is looped from half a second before it to half a second after", () => {
  head.setPace("shown");
  head.loopSeam(true);
  assert.equal(head.playhead.frame, 540);
  head.goTo(59);
  head.play();
  const began = performance.now();
  frame(began);
  frame(began + 100);
  assert.equal(head.playhead.frame, 540);
  loop(40);
  head.loopSeam(true);
  assert.equal(head.playhead.frame, 36, "of 40 frames in 5 s there are 4 in half a second");
});

test("all that is seen is the round and some of its neighbours", () => {
  about(span(), [-54, 654]);
  assert.ok(seesAll());
});

test("zooming leaves a frame where it is, and ends at four frames and at all", () => {
  zoomAt(300, 2);
  about(span(), [123, 477]);
  assert.ok(!seesAll());
  zoomAt(300, 1e6);
  about(span(), [298, 302]);
  zoomAt(299, 2);
  about(span(), [298, 302]);
  zoomAt(300, 1e-6);
  about(span(), all());
  assert.ok(seesAll());
});

test("going along ends where there is no more", () => {
  showSpan(100, 200);
  panBy(50);
  about(span(), [150, 250]);
  panBy(9999);
  about(span(), [554, 654]);
});

test("what is not seen is brought into the middle, what is seen moves nothing", () => {
  showSpan(100, 200);
  reveal(120);
  about(span(), [100, 200]);
  reveal(400);
  about(span(), [350, 450]);
});

test("what is dragged stays well within, and a window that is held stays through a plan", () => {
  showSpan(100, 200);
  include(199);
  about(span(), [100, 204]);
  include(101);
  about(span(), [95.8, 204]);
  holdSpan(true);
  loop(150);
  about(span(), [95.8, 204]);
  holdSpan(false);
  about(span(), [163.5 - 108.2, 163.5]);
});

test("a loop that grows out of the window while its length is dragged has it grow", () => {
  holdSpan(true);
  loop(700);
  about(span(), [-54, 763]);
  holdSpan(false);
  about(span(), [-63, 763]);
});

test("a glide comes nearer with each frame and ends where it should", () => {
  wants.less = false;
  let drawn = 0;
  const g = new Glide(() => drawn++);
  g.to([0, 10]);
  assert.deepEqual(g.now, [0, 10], "the first is there at once");
  g.to([10, 20]);
  const began = performance.now();
  frame(began + 60);
  const third = g.now[0];
  assert.ok(third > 6 && third < 7, `two thirds are gone: ${third}`);
  g.to([0, 10]);
  frame(began + 180);
  assert.ok(g.now[0] < third, "another goal is taken on the way");
  for (let n = 3; n < 40; n++) frame(began + 90 * n);
  assert.deepEqual(g.now, [0, 10]);
  const last = drawn;
  frame(began + 9000);
  assert.equal(drawn, last, "and draws no more");
});

test("while a plan is worked out a glide is drawn less often", () => {
  wants.less = false;
  let drawn = 0;
  const g = new Glide(() => drawn++);
  g.to([0, 10]);
  shot.pending = true;
  g.to([10, 20]);
  const began = performance.now();
  drawn = 0;
  for (const ms of [10, 20, 30, 40]) frame(began + ms);
  assert.equal(drawn, 0);
  frame(began + 60);
  assert.equal(drawn, 1);
  assert.ok(g.now[0] > 6 && g.now[0] < 7, `it is as far as it would be otherwise: ${g.now[0]}`);
  shot.pending = false;
  for (let ms = 76; ms < 600; ms += 16) frame(began + ms);
  assert.deepEqual(g.now, [10, 20]);
});

test("a glide is there at once for whoever asks, or wants less motion", () => {
  wants.less = false;
  const g = new Glide(() => {});
  g.to([0, 10]);
  g.to([10, 20], true);
  assert.deepEqual(g.now, [10, 20]);
  wants.less = true;
  g.to([30, 40]);
  assert.deepEqual(g.now, [30, 40]);
});

test("beside the round an axis is where it goes on to, turned on by what a round turns it", () => {
  shot.view.every = 200;
  const axis = { pos: [0, 10, 20, 60], handles: [{ pos: 90 }] };
  assert.deepEqual([-200, 0, 100, 600, 800].map((f) => where(axis, f, 600)), [-40, 0, 5, 60, 70]);
  assert.deepEqual(course(axis, { frames: 600, every: 200 }), [
    [-200, 0, 200, 400, 600, 800], [null, 0, 10, 20, 60, null], [-40, 0, null, null, 60, 70],
  ]);
  assert.deepEqual(extent(axis), [-90 * 0.14, 90 * 1.14], "its handles are seen too");
  assert.deepEqual(extent({ pos: [5, 5], handles: [] }), [4.5, 5.5]);
});

test("the last step of a round may be shorter than the others", () => {
  const [x] = course({ pos: [0, 1, 2] }, { frames: 350, every: 200 });
  assert.ok(x.includes(350) && !x.includes(400));
});
