// Which pictures of a round are held, asked for and seen.
import assert from "node:assert/strict";
import { test } from "node:test";
import { Bitmaps } from "../../site/script/bitmaps.js";
import { Frames } from "../../site/script/frames.js";
import { held, newest, ofStep, painted, passed, seen, settled } from "../../site/script/rounds.js";
import { rests } from "./page.mjs";

const picture = (bytes, wide = 240) => ({ wide, data: new Uint8Array(bytes) });

test("what was not looked at for longest goes first, and never what has just come", () => {
  const f = new Frames(10, 30);
  for (const k of [0, 1, 2]) f.put(k, picture(10));
  f.get(0);
  f.put(3, picture(10));
  assert.deepEqual([...f.held.keys()], [2, 0, 3]);
  assert.equal(f.bytes, 30);
  f.put(4, picture(99));
  assert.deepEqual([...f.held.keys()], [4], "though it alone is too much");
  assert.equal(f.bytes, 99);
});

test("a finer picture takes the place of a coarser one, and not the other way round", () => {
  const f = new Frames(10);
  f.put(0, picture(5, 640));
  f.put(0, picture(3, 240));
  assert.equal(f.wide(0), 640);
  f.put(0, picture(8, 960));
  assert.equal(f.wide(0), 960);
  assert.equal(f.bytes, 8);
  assert.equal(f.wide(1), 0);
});

test("the nearest picture is found round the seam, the one before of two", () => {
  const f = new Frames(100);
  assert.equal(f.nearest(3), -1);
  f.put(98, picture(1));
  f.put(10, picture(1));
  assert.equal(f.nearest(3), 98);
  assert.equal(f.nearest(5), 10);
  assert.equal(f.nearest(4), 98, "six away from either");
  assert.equal(f.apart(98, 3), 5);
});

test("a round is drawn in at most 150 pictures first, then in what is between them", () => {
  const f = new Frames(600);
  assert.equal(f.stride, 4);
  assert.deepEqual(f.first(), { there: 0, of: 150 });
  assert.deepEqual(f.wanted(5, 3), [8, 12, 16], "from the playhead on");
  assert.deepEqual(f.wanted(597, 2), [0, 4], "round the seam");
  for (let k = 0; k < 600; k += 4) f.put(k, picture(1));
  assert.deepEqual(f.first(), { there: 150, of: 150 });
  assert.deepEqual(f.wanted(5, 3), [6, 10, 14]);
  for (let k = 0; k < 600; k += 1) f.put(k, picture(1));
  assert.deepEqual(f.wanted(5, 3), []);
});

test("where not all fits, only what is around the playhead is refined", () => {
  const f = new Frames(600, 200);
  for (let k = 0; k < 600; k += 4) f.put(k, picture(1));
  assert.equal(f.room(), 200);
  const all = f.wanted(300, 999);
  assert.ok(all.length > 0);
  assert.ok(all.every((k) => f.apart(k, 300) <= 60), "six tenths of what fits, on both sides");
});

test("frames ahead that are narrower than they should be are asked for, as far as it goes", () => {
  const f = new Frames(10);
  f.put(9, picture(1, 640));
  assert.deepEqual(f.narrow(8, 640, 4, 9), [8, 0, 1]);
  assert.deepEqual(f.narrow(8, 640, 4, 2), [8, 0]);
  assert.deepEqual(f.narrow(8, 640, 99, 99).length, 9, "no frame twice");
});

const bitmap = (width, height) => ({ width, height, closed: 0, close() { this.closed++; } });

/** Pictures that are unpacked when a test says so. */
function unpacking(frames) {
  const begun = [];
  let came = 0;
  const b = new Bitmaps(frames, () => came++, () => new Promise((done, fail) => begun.push({ done, fail })));
  return { b, begun, came: () => came };
}

test("few are unpacked at once, each once, and one that came broken is asked for again", async () => {
  const f = new Frames(9);
  for (let k = 0; k < 9; k++) f.put(k, picture(1));
  const { b, begun, came } = unpacking(f);
  for (let k = 0; k < 9; k++) assert.equal(b.get(k), null);
  b.get(0);
  assert.equal(begun.length, 4);
  const one = bitmap(10, 10);
  begun[0].done(one);
  begun[1].fail(new Error("broken"));
  await rests();
  assert.equal(b.get(0), one);
  assert.equal(b.bytes, 400);
  assert.equal(came(), 2);
  assert.equal(f.wide(1), 0);
});

test("what is unpacked has a bound and is closed beyond it, what was looked at last the latest", async () => {
  const f = new Frames(9);
  for (let k = 0; k < 4; k++) f.put(k, picture(1));
  const { b, begun } = unpacking(f);
  const big = () => bitmap(1000, 3000); // of 12 MB, of which two go into the room there is
  const three = [big(), big(), big()];
  for (const k of [0, 1]) b.get(k);
  begun[0].done(three[0]);
  begun[1].done(three[1]);
  await rests();
  b.get(0);
  b.get(2);
  begun[2].done(three[2]);
  await rests();
  assert.deepEqual(three.map((x) => x.closed), [0, 1, 0]);
  b.close();
  assert.deepEqual(three.map((x) => x.closed), [1, 1, 1]);
  assert.equal(b.bytes, 0);
});

test("a picture that comes unpacked after its round has gone is closed", async () => {
  const f = new Frames(9);
  f.put(0, picture(1));
  const { b, begun, came } = unpacking(f);
  b.get(0);
  b.close();
  const late = bitmap(1, 1);
  begun[0].done(late);
  await rests();
  assert.equal(late.closed, 1);
  assert.equal(came(), 0);
});

test("a change is seen as soon as it has a picture, and is settled by the text that it led to", () => {
  const a = settled("A", 1, 100);
  a.frames.put(0, picture(1));
  assert.equal(seen(), a);
  const on = ofStep(2, 100);
  assert.equal(ofStep(2, 100), on, "of one change there is one");
  assert.equal(newest(), on);
  assert.equal(seen(), a, "it has no picture yet");
  on.frames.put(5, picture(2));
  assert.equal(seen(), on);
  assert.equal(held().packed, 3);
  const b = settled("B", 2, 100);
  assert.equal(b, on);
  assert.equal(held().packed, 2, "what came before is seen no more");
  assert.equal(newest().text, "B");
});

test("a change that leads back finds the round that was there, with all its pictures", () => {
  const b = newest();
  const step = ofStep(3, 100);
  step.frames.put(1, picture(4));
  passed(step);
  assert.equal(held().packed, 6, "that of a text stays");
  assert.equal(settled("B", 3, 100), b);
  assert.equal(b.step, 3);
  assert.equal(held().packed, 2);
});

test("a round without a picture leaves that before it in sight until it is painted", () => {
  const b = newest();
  const c = settled("C", 4, 100);
  assert.equal(seen(), b);
  painted(b);
  assert.equal(seen(), b, "which is not the newest");
  c.frames.put(0, picture(1));
  painted(c);
  assert.equal(held().packed, 1);
});

test("steps of a drag that another one has passed are let go of", () => {
  ofStep(5, 100).frames.put(0, picture(10));
  const six = ofStep(6, 100);
  passed(six);
  assert.equal(held().packed, 1);
  assert.equal(newest(), six);
});
