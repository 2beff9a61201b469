// Which frame of a recording is of which instant of the plan, and how it is told.
import assert from "node:assert/strict";
import { test } from "node:test";
import { frameIn, missing, nextWanted, placeIn, planAt, stretches, zeroWords } from "../../site/script/filmplace.js";

const lies = (more = {}) => ({ zero: 12.25, round: 0, frames: 300, per: 96, slower: 0, ...more });

test("frame 0 is where it was found, and a round later by a round", () => {
  assert.equal(placeIn(lies(), 0), 12.25);
  assert.equal(frameIn(lies(), 0), 12);
  assert.equal(frameIn(lies({ zero: 12.5 }), 0), 13);
  assert.equal(frameIn(lies({ round: 2 }), 5), 12 + 2 * 96 + 5);
  assert.equal(frameIn(lies({ zero: -3 }), 1), -2);
});

test("a take that goes slower is later by that share", () => {
  assert.equal(placeIn(lies({ zero: 0, slower: 0.01, round: 1 }), 4), 101);
});

test("a place in the recording is the instant of the plan that it is of", () => {
  for (const round of [0, 1, 2]) for (const frame of [0, 1, 50, 95]) for (const slower of [0, 1e-4, -0.02]) {
    const how = lies({ round, slower });
    const back = planAt(how, placeIn(how, frame), 3);
    assert.equal(back.round, round);
    assert.ok(Math.abs(back.frame - frame) < 1e-6, `${round} ${frame} ${slower}: ${back.frame}`);
  }
  assert.deepEqual(planAt(lies({ zero: 10 }), 4, 3), { round: 0, frame: 0 }, "before it, where it begins");
  assert.deepEqual(planAt(lies({ zero: 10 }), 9999, 3), { round: 2, frame: 95 }, "after it, where it ends");
});

test("where there is no picture it is said why, on both sides of each edge", () => {
  const how = lies({ frames: 20 });
  assert.equal(missing(how, -1, 20), "Before the recording: it begins 1 frame later.");
  assert.equal(missing(how, -7, 20), "Before the recording: it begins 7 frames later.");
  assert.equal(missing(how, 0, 20), "");
  assert.equal(missing(how, 19, 20), "");
  assert.equal(missing(how, 20, 20), "After the recording: it ends with frame 19.");
  assert.equal(missing(how, 12, 12), "Of this frame no picture was kept; there are 12.");
  assert.equal(missing(how, 11, 12), "");
});

test("frame 0 is told with what is unsure of it, and with what a hand did", () => {
  const found = (more) => ({ at: 12.25, sure: 0.04, others: [], slower: 0, ...more });
  assert.equal(zeroWords(12.25, found()), "Frame 0 of the plan is frame 12.25 ± 0.04 of the film.");
  assert.equal(zeroWords(12.25, found({ sure: 0.001 })), "Frame 0 of the plan is frame 12.25 ± under 0.01 of the film.");
  assert.equal(zeroWords(14.25, found()), "Frame 0 of the plan is frame 14.25 ± 0.04 of the film, moved by hand by +2.");
  assert.equal(zeroWords(11.25, found()), "Frame 0 of the plan is frame 11.25 ± 0.04 of the film, moved by hand by −1.");
  assert.equal(zeroWords(12.5, found()), "Frame 0 of the plan is frame 12.50 of the film, set by hand.", "what was typed is as unsure as the hand");
  assert.equal(zeroWords(3, found({ at: null, sure: null })), "Frame 0 of the plan is frame 3.00 of the film, set by hand.");
  assert.equal(zeroWords(null, found({ at: null, sure: null })), "Nothing tells where frame 0 of the plan is in it.");
});

test("what may be shown round and round: all of it first, then what is not seen", () => {
  const loop = (from, to, unseen, more = {}) => ({ from, to, unseen, as_good_from: from, as_good_to: from, dissolve_frames: 0, ...more });
  const told = { frames: 100, asWhole: null, loops: [loop(3, 50, true, { as_good_to: 6 }), loop(9, 60, false, { dissolve_frames: 8 }), loop(1, 70, false)] };
  assert.deepEqual(stretches(told).map((l) => l.words), ["the seam is not seen; as good from any of 4 frames", "dissolve over 8 frames", "the seam is seen"]);
  const whole = (unseen, twice) => stretches({ ...told, asWhole: { unseen, last_shows_first_again: twice } });
  assert.deepEqual(whole(true, false)[0], { from: 0, to: 99, unseen: true, words: "all of it; the seam is not seen" });
  assert.equal(whole(false, false)[0].from, 3, "what is seen comes after what is not");
  assert.match(whole(false, true)[1].words, /the last frame shows the first again/);
});

test("pictures are asked for from the playhead on, then behind it, none twice, within the recording", () => {
  const there = new Set([5, 7]);
  assert.deepEqual(nextWanted(5, 100, (k) => there.has(k), 4, 3, 99), [6, 8, 9, 4, 3, 2]);
  assert.deepEqual(nextWanted(5, 100, (k) => there.has(k), 4, 3, 2), [6, 8]);
  assert.deepEqual(nextWanted(0, 2, () => false, 4, 3, 99), [0, 1]);
  assert.deepEqual(nextWanted(0, 2, () => true, 4, 3, 99), []);
});
