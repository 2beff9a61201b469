// What the rig does, in words.
import assert from "node:assert/strict";
import { test } from "node:test";
import { countOf, extent, frameWords, nextWords, onCurve, roundWords, stateWords, takeWords, together } from "../../site/script/rigwords.js";

const running = { open: true, state: "running", where: "virtual", take: 3, round: 1, rounds: 4, frame: 17, back: false, of: 0, taken: 0, timecode: "00:00:01:05", calls: [], next: null, plan: "p", seen: { round: 1, back: false } };

test("a rig that is moved by hand is not ready to the eye, and what is unknown is told as it is", () => {
  assert.equal(stateWords({ state: "ready", held: { moving: true } }), "Moved by hand");
  assert.equal(stateWords({ state: "ready", held: { moving: false } }), "Ready, at rest");
  assert.equal(stateWords({ state: "something new" }), "something new");
});

test("it is on the curve of the plan that it runs, in the rounds, and nowhere else", () => {
  assert.equal(onCurve(running, "p"), running.seen);
  const not = [{ open: false }, { state: "homing" }, { seen: null }, { seen: { round: -1, back: false } }, { seen: { round: 0, back: true } }];
  for (const other of not) assert.equal(onCurve({ ...running, ...other }, "p"), null, JSON.stringify(other));
  assert.equal(onCurve(running, "q"), null, "another plan");
  assert.equal(onCurve(null, "p"), null);
});

test("takes are told of, walks are none, and a count-in has none yet", () => {
  assert.equal(takeWords(running), "virtual take 3");
  assert.equal(takeWords({ ...running, where: "/dev/port" }), "take 3");
  assert.equal(takeWords({ ...running, take: 0 }), "walk");
  assert.equal(takeWords({ ...running, state: "counting in" }), "");
  assert.equal(takeWords({ ...running, state: "ready" }), "");
});

test("rounds count from one, without end where there is none", () => {
  assert.equal(roundWords(running), "round 2 of 4");
  assert.equal(roundWords({ ...running, rounds: 0, back: true }), "round 2, on the way back");
  assert.equal(roundWords({ ...running, round: -1 }), "run-up");
  assert.equal(roundWords({ ...running, of: 20, taken: 5 }), "5 of 20 frames taken");
  assert.equal(roundWords({ ...running, state: "ready" }), "");
});

test("a frame is told in the rounds alone", () => {
  assert.equal(frameWords(running), "frame 17, 00:00:01:05");
  for (const other of [{ round: -1 }, { back: true }, { state: "ready" }]) assert.equal(frameWords({ ...running, ...other }), "");
});

test("the next hand is told while it runs, and the one that is waited for", () => {
  assert.equal(nextWords({ ...running, next: { text: "spray", in: 4.9 } }), "Next hand: spray, in 4 s");
  assert.equal(nextWords({ ...running, next: { text: "spray", in: 0.9 } }), "Next hand: spray, now");
  assert.equal(nextWords({ ...running, state: "held", next: { text: "spray", in: 4 } }), "");
  assert.equal(nextWords({ ...running, state: "waiting for the hand", calls: [{ text: "a" }, { text: "frame 2" }] }), "Take frame 2");
});

test("beats of one moment are one to the eye, and the least of them is shown", () => {
  const calls = [{ at: 0, left: 3 }, { at: 1000, left: 2, text: "a" }, { at: 1119, left: 1, text: "b", hand: true }];
  assert.deepEqual(together(calls), calls.slice(1));
  assert.deepEqual(together([calls[0], { ...calls[1], at: 120 }]).length, 1);
  assert.equal(countOf(calls.slice(1)), "1");
  assert.equal(countOf([{ left: 2 }, { left: 0, hand: true }]), "NOW");
  assert.equal(countOf([{ left: 0, hand: false }]), "GO");
});

test("a take is as long as its rounds, or as the frames that were exposed", () => {
  assert.equal(extent({ of: 0, frames: 0, rounds: 1 }), "1 round");
  assert.equal(extent({ of: 0, frames: 0, rounds: 0 }), "0 rounds");
  assert.equal(extent({ of: 24, frames: 0, rounds: 0 }), "0 of 24 frames");
  assert.equal(extent({ of: 0, frames: 7, rounds: 1 }), "7 frames");
});
