// The page's hold on the rig: what is asked while it is held, and what is heard of it.
import { asked, frame, part, program, refuses, rests } from "./page.mjs";
import assert from "node:assert/strict";
import { beforeEach, mock, test } from "node:test";

mock.timers.enable({ apis: ["setInterval", "setTimeout"] });
const driver = await import("../../site/script/driver.js");
const { on } = await import("../../site/script/shot.js");

const state = (more) => ({ open: true, state: "running", takes: ["stop"], calls: [], held: null, ...more });
const of = (path) => asked.filter((q) => q.path === path).map((q) => q.question);
const settle = async () => {
  for (let n = 0; n < 20; n++) await rests();
};
const heard = [];
on("call", (calls) => heard.push(calls.map((c) => c.n)));
let draws = 0;
on("drive", () => draws++);

let claims = 0;
program["drive/open"] = () => ({ claim: "claim " + ++claims });
program["drive/do"] = { ok: true };
program["drive/stop"] = { ok: true };
const stays = []; // what ends each connection
program["drive/stay"] = () => new Promise((end) => stays.push(() => end(new Response(""))));

beforeEach(async () => {
  program["drive/beat"] = { ok: true };
  await driver.open("virtual", {});
  await settle();
  asked.length = 0;
});

/** Lets go of the rig, as the program says. */
async function lost() {
  program["drive/beat"] = refuses(423, "not yours");
  mock.timers.tick(250);
  await settle();
}

test("who drives beats with the claim, and no more once another has it", async () => {
  assert.ok(driver.mine());
  mock.timers.tick(500);
  assert.deepEqual(of("drive/beat"), [{ claim: "claim " + claims }, { claim: "claim " + claims }]);
  assert.equal(sessionStorage.getItem("seamrail-claim"), "claim " + claims);
  await lost();
  assert.ok(!driver.mine());
  assert.equal(sessionStorage.getItem("seamrail-claim"), null);
  asked.length = 0;
  mock.timers.tick(1000);
  assert.deepEqual(of("drive/beat"), []);
});

test("a program that stumbles is asked again: a hold is given up by its word alone", async () => {
  program["drive/beat"] = refuses(500, "odd");
  mock.timers.tick(250);
  await settle();
  assert.ok(driver.mine());
  await lost();
});

test("one connection is kept, that of the newest hold", async () => {
  await lost();
  program["drive/beat"] = { ok: true };
  await driver.open("virtual", {});
  await settle();
  asked.length = 0;
  for (let n = 0; n < 3; n++) {
    for (const end of stays.splice(0)) end();
    await settle();
    mock.timers.tick(250);
    await settle();
  }
  assert.deepEqual(of("drive/stay"), Array(3).fill({ claim: "claim " + claims }));
  await lost();
});

test("stop is that of the page that drives, and of any other", async () => {
  driver.heardDrive(state());
  driver.stop();
  driver.heardDrive(state({ takes: ["abort"] }));
  driver.stop();
  assert.deepEqual(of("drive/do").map((q) => q.request), ["stop", "abort"]);
  await lost();
  driver.stop();
  assert.deepEqual(of("drive/stop"), [{ again: true }]);
  driver.heardDrive(state({ open: false }));
  driver.stop();
  assert.equal(of("drive/stop").length, 1, "nothing is driven");
});

test("a stop that the claim no longer opens stops all the same", async () => {
  program["drive/do"] = refuses(423, "not yours");
  assert.deepEqual(await driver.want("stop"), { ok: true });
  assert.equal(await driver.want("home"), null);
  assert.deepEqual(of("drive/stop"), [{ again: false }]);
  assert.match(part("notes").textContent, /not yours/);
  program["drive/do"] = { ok: true };
  await lost();
});

test("each call is heard once, and none that is late", async () => {
  const call = (n, late = 0) => ({ n, at: Date.now() - late });
  driver.heardDrive(state({ calls: [call(1)] }));
  driver.heardDrive(state({ calls: [call(1), call(2), call(3)] }));
  driver.heardDrive(state({ calls: [call(3), call(4, 500)] }));
  driver.heardDrive(state({ calls: [call(4)] }));
  assert.deepEqual(heard, [[1], [2, 3]]);
  await lost();
});

test("news is known at once and drawn with the next frame", async () => {
  frame();
  draws = 0;
  for (const round of [1, 2, 3]) driver.heardDrive(state({ round }));
  assert.equal(driver.rig.round, 3);
  assert.equal(draws, 0);
  frame();
  assert.equal(draws, 1);
  await lost();
});

test("a rig moves in every state but those of rest, and where it is moved by hand", async () => {
  const moves = (more) => (driver.heardDrive(state(more)), driver.moving());
  for (const s of ["homing", "running", "slowing down", "something new"]) assert.ok(moves({ state: s }), s);
  for (const s of ["ready", "held", "cautions", "over"]) assert.ok(!moves({ state: s }), s);
  assert.ok(moves({ state: "ready", held: { moving: true } }));
  assert.ok(!moves({ state: "running", open: false }));
});

test("a run that has ended lets go", async () => {
  driver.heardDrive(state());
  driver.heardDrive(state({ open: false }));
  assert.ok(!driver.mine());
});
