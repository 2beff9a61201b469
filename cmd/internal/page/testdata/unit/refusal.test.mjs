// Why there is no answer, in words.
import assert from "node:assert/strict";
import { test } from "node:test";
import { Refusal, givenUp, refusal, told } from "../../site/script/refusal.js";

test("a refusal says its faults, or else its error, or that it makes no sense", () => {
  const faults = [{ axis: "rail", text: "too fast", fit: "6 s" }, { axis: "", text: "no lamp", fit: "" }];
  assert.equal(new Refusal(422, { error: "no", faults }).words, "rail: too fast: 6 s. no lamp");
  assert.equal(new Refusal(422, { error: "no", faults }).first, "too fast");
  assert.equal(new Refusal(409, { error: "no", faults: [] }).words, "no");
  assert.equal(new Refusal(409, { error: "no" }).first, "no");
  assert.equal(new Refusal(500, {}).words, "The answer makes no sense.");
});

test("a fault says where it is first, and leaves out what it lacks", () => {
  assert.equal(told({ axis: "rail", text: "too fast", fit: "" }, "line 3"), "line 3: rail: too fast");
  assert.equal(told({ text: "too fast" }), "too fast");
});

test("what no program refused has words and no status", () => {
  const no = new Refusal(423, { error: "no" });
  assert.equal(refusal(no), no);
  assert.equal(refusal(new TypeError("odd")).message, "odd");
  assert.ok(!(refusal(new TypeError("odd")).status > 0));
  assert.equal(refusal("odd").words, "odd");
});

test("given up is what was aborted, and nothing else", () => {
  assert.ok(givenUp(AbortSignal.abort().reason));
  assert.ok(!givenUp(new DOMException("", "NetworkError")));
  assert.ok(!givenUp(Object.assign(new Error(), { name: "AbortError" })));
});
