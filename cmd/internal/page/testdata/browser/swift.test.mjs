// From a change to the new plan on screen, and to the whole preview, measured in
// the browser on the demo.
import assert from "node:assert/strict";
import { cp, mkdtemp } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { after, before, test } from "node:test";
import { Served, browser, noTroubles, open, ready, still, takeHold, until } from "./harness.mjs";
import { begin, busy, spread, own, seen, told } from "./measure.mjs";

// What the page is built for, in ms. A quarter of many changes is held to it, and
// the rest is printed: other work comes in bursts, and holds up whatever is under
// way then for as long as it likes. A frame of the screen is 17 ms of it.
const PLAN = 50;
const PREVIEW = 200;
// The same of a shot of 1440 frames, thirty keys, two stands and three lamps.
const HEAVY = 100;
const HANDLE = "axis.rail.to";
const CHANGES = 40;
const PREVIEWS = 8;

let served, tab;

before(async () => {
  served = await Served.start();
  tab = await ready(await open(served));
  await until(tab, "the whole preview", () => document.getElementById("lens").dataset.frames === "144");
});

after(() => browser.close());

// What is asked for is asked of a desk's computer. Where two processors draw the
// page in software as well, a change was measured at 65 to 95 ms and a preview at
// 450 to 540, with nothing else to do; these hold half as much again, so that what
// becomes much slower is seen, and what was measured is printed.
const PLAN_SPARE = 2.8;
const PREVIEW_SPARE = 4;
const HEAVY_SPARE = 1.5;

function keeps(t, m, bound, spare) {
  const by = busy() * spare;
  t.diagnostic(`asked for: ${bound} ms; the machine has ${busy().toFixed(1)} times the work it can do at once; held to ${by.toFixed(1)} times`);
  assert.ok(m.quarter < bound * by, `a quarter took ${m.quarter} ms and less, where ${bound * by} was asked for`);
}

test("a change is on screen as a new plan", async (t) => {
  await begin(tab, HANDLE);
  const [x, y] = await takeHold(tab, HANDLE);
  for (let i = 1; i <= CHANGES; i++) {
    await tab.mouse.move(x, y + (i % 2 ? 2 * i : -i) * 0.5);
    await until(tab, `change ${i} on screen`, (i) => window.seenByTest.length >= i, i);
  }
  await tab.mouse.up();
  const m = spread(await seen(tab));
  t.diagnostic("input to screen while dragged: " + told(m));
  t.diagnostic("of that in the page's own script, the question on its way included: " + told(spread(await own(tab, "change to plan on screen"))));
  keeps(t, m, PLAN, PLAN_SPARE);
});

// The picture of the playhead's frame takes only where things stand, and is asked for
// beside the plan: it is held to what a plan is.
test("and as a picture of the frame under the playhead", async (t) => {
  const name = "change to picture on screen";
  const [x, y] = await takeHold(tab, HANDLE); // of what was let go of before, the picture has come
  await tab.evaluate((name) => performance.clearMeasures(name), name);
  for (let i = 1; i <= CHANGES; i++) {
    await tab.mouse.move(x, y + (i % 2 ? 2 * i : -i) * 0.5);
    await until(tab, `picture ${i} on screen`, (name, i) => performance.getEntriesByName(name).length >= i, name, i);
  }
  await tab.mouse.up();
  const m = spread(await own(tab, name));
  t.diagnostic("input to picture while dragged: " + told(m));
  keeps(t, m, PLAN, PLAN_SPARE);
});

test("and so is one by the keyboard, planned in full", async (t) => {
  await still(tab); // a change of before is none of these
  await begin(tab, HANDLE);
  await tab.focus(`[role=slider][data-path="${HANDLE}"]`);
  for (let i = 1; i <= CHANGES / 2; i++) {
    await tab.keyboard.press(i % 2 ? "ArrowDown" : "ArrowUp");
    await until(tab, `change ${i} on screen`, (i) => window.seenByTest.length >= i, i);
  }
  const m = spread(await seen(tab));
  t.diagnostic("input to screen by the arrow keys: " + told(m));
  keeps(t, m, PLAN, PLAN_SPARE);
});

test("the whole preview follows", async (t) => {
  const name = "change to whole preview";
  await still(tab);
  await until(tab, "the preview of before", () => !document.getElementById("seen").dataset.drawing); // it would count as one of these
  await tab.focus(`[role=slider][data-path="${HANDLE}"]`);
  await tab.evaluate((name) => performance.clearMeasures(name), name);
  for (let i = 1; i <= PREVIEWS; i++) {
    await tab.keyboard.press(i % 2 ? "ArrowDown" : "ArrowUp");
    await until(tab, `preview ${i}`, (name, i) => performance.getEntriesByName(name).length >= i, name, i);
  }
  const m = spread(await own(tab, name));
  t.diagnostic("whole preview of 144 frames: " + told(m));
  keeps(t, m, PREVIEW, PREVIEW_SPARE);
});

// It would go on drawing its round finely beside what is measured next.
test("nothing went wrong on the page meanwhile", async () => {
  noTroubles(tab);
  await tab.close();
  await served.stop();
});

test("so is a key of a shot of many parts", async (t) => {
  const folder = await mkdtemp(join(tmpdir(), "seamrail-heavy-"));
  await cp(fileURLToPath(new URL("../heavy", import.meta.url)), folder, { recursive: true });
  const own = await Served.in(folder, join(folder, "lantern.toml"));
  const heavy = await ready(await open(own));
  const key = "axis.rail.keys[3]";
  assert.equal(await heavy.$$eval(".handle.key", (all) => all.length), 30);
  assert.equal(await heavy.$$eval("#curves .curve", (all) => all.length), 4, "rail, table and two stands");
  const [x, y] = await takeHold(heavy, key);
  await begin(heavy, key);
  for (let i = 1; i <= CHANGES; i++) {
    await heavy.mouse.move(x, y + (i % 2 ? i : -i) * 0.5);
    await until(heavy, `change ${i} on screen`, (i) => window.seenByTest.length >= i, i);
  }
  await heavy.mouse.up();
  const m = spread(await seen(heavy));
  t.diagnostic("input to screen while dragged, of 1440 frames, 30 keys, 2 stands, 3 lamps: " + told(m));
  keeps(t, m, HEAVY, HEAVY_SPARE);
  noTroubles(heavy);
  await heavy.close();
  await own.stop();
});
