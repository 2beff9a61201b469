// A loop of ten thousand frames: seen within a second, and held in little memory however
// long it plays, is scrubbed and is edited. SEAMRAIL_MINUTES has it go on for so long.
import assert from "node:assert/strict";
import { readFile, writeFile } from "node:fs/promises";
import { after, before, test } from "node:test";
import { Served, browser, noTroubles, open, takeHold, until } from "./harness.mjs";
import { busy } from "./measure.mjs";
import { watched } from "./memory.mjs";

const LONG = 10_000; // captured frames
const HANDLE = "axis.rail.to";
const FIRST = 1_000; // ms to the first picture
const SPARE = 2; // for slow processors
const MOST = 300e6; // bytes of the tab
const LASTS = 60_000 * Number(process.env.SEAMRAIL_MINUTES ?? 0.15); // ms
const TURN = 1_000; // ms that it plays on between what hands do
const EDITS = 8; // times that it is edited meanwhile: between them the round fills up

let served, tab, takes;

before(async () => {
  served = await Served.start();
  const text = await readFile(served.shot, "utf8");
  await writeFile(served.shot, text.replace(/^loop\s+= "6 s"/m, `loop = "${LONG} frames"`));
});

after(async () => {
  await tab?.close();
  await served.stop();
  await browser.close();
});

test("its first picture is there within a second", async (t) => {
  const first = () => (function look() {
    if (document.getElementById("lens")?.dataset.shows) window.seenByTest = performance.now();
    else requestAnimationFrame(look);
  })();
  ({ tab, takes } = await watched(() => open(served, { first })));
  await until(tab, "the first picture", () => window.seenByTest);
  const ms = await tab.evaluate(() => window.seenByTest);
  t.diagnostic(`first picture of ${LONG} frames ${ms.toFixed(0)} ms after the page was asked for`);
  assert.ok(ms < SPARE * FIRST * busy(), `${ms} ms, on a machine with ${busy().toFixed(1)} times the work it can do at once`);
});

test("until then it says that it is drawing, and after that how far it is", async () => {
  await tab.setRequestInterception(true);
  let held = [];
  const hold = (r) => (held && /api\/preview/.test(r.url()) ? held.push(r) : void r.continue());
  tab.on("request", hold);
  await tab.reload();
  await until(tab, "Drawing", () => {
    const none = document.getElementById("lens-none");
    return none.checkVisibility() && none.textContent === "Drawing\u2026" && !document.getElementById("lens").dataset.shows;
  });
  const late = held;
  held = null;
  for (const r of late) await r.continue();
  await until(tab, "how far it is drawn", () => /^drawing, \d+ of \d+$/.test(document.getElementById("seen").dataset.drawing ?? ""));
  await until(tab, "the round drawn in parts", () => !document.getElementById("seen").dataset.drawing);
  tab.off("request", hold);
  await tab.setRequestInterception(false);
});

async function scrub() {
  const box = await (await tab.$(".curve .u-over")).boundingBox();
  const y = box.y + box.height - 4;
  await tab.mouse.move(box.x + box.width * 0.15, y);
  await tab.mouse.down();
  await tab.mouse.move(box.x + box.width * 0.85, y, { steps: 20 });
  await tab.mouse.up();
}

async function edit(up) {
  const [x, y] = await takeHold(tab, HANDLE);
  for (let i = 1; i <= 6; i++) await tab.mouse.move(x, y + (up ? -i : i));
  await tab.mouse.up();
}

const MB = (bytes) => (bytes / 1e6).toFixed(0) + " MB";
const told = (m) => `${MB(m.own)} of its own, ${MB(m.proportional)} with its part of what is shared, ${MB(m.scripts)} of that held by scripts; ${m.pictures} pictures`;

test("and it takes less than 300 MB while it plays, is scrubbed and edited", async (t) => {
  const most = { own: 0, proportional: 0, scripts: 0, pictures: 0 };
  let now, turns = 0, edits = 0;
  for (const began = Date.now(); turns < 4 || Date.now() - began < LASTS; turns++) {
    await tab.evaluate(() => document.getElementById("play").textContent === "Stand still" || document.getElementById("play").click());
    await tab.evaluate((ms) => new Promise((on) => setTimeout(on, ms)), TURN);
    now = { ...await takes(), pictures: await tab.$eval("#lens", (e) => Number(e.dataset.frames)) };
    for (const k in most) most[k] = Math.max(most[k], now[k]);
    if (turns % 60 === 0) t.diagnostic(`after ${((Date.now() - began) / 1000).toFixed(0)} s: ${told(now)}`);
    if (Date.now() - began > (edits * LASTS) / EDITS) await edit(edits++ % 2);
    else await scrub();
  }
  t.diagnostic(`at the end, ${turns} times scrubbed and edited: ${told(now)}`);
  t.diagnostic(`at the most: ${told(most)}`);
  assert.ok(edits > 0 && most.pictures > 100, `${edits} edits, ${most.pictures} pictures`);
  assert.ok(most.proportional < MOST, told(most));
  noTroubles(tab);
});
