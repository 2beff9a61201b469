// The curves and the view from above under a mouse and the keyboard: what is pressed
// is what is meant, the window follows, and everything shows one instant.
import assert from "node:assert/strict";
import { after, before, beforeEach, test } from "node:test";
import { Served, browser, click, noTroubles, open, picture, ready, still as stillOf, until } from "./harness.mjs";

const KEYS = 30;

let served, tab, plain;

before(async () => {
  served = await Served.start();
  tab = await ready(await open(served));
  plain = await tab.$eval("#text", (t) => t.value);
});

after(async () => {
  await tab?.close();
  await served.stop();
  await browser.close();
});

beforeEach(() => tab.keyboard.press("0"));

/** Writes the shot's text as a hand would, and waits for its plan. */
async function write(text) {
  await tab.$eval("#text", (t, text) => {
    if (t.value === text) return;
    t.value = text;
    t.dispatchEvent(new Event("input", { bubbles: true }));
  }, text);
  const keyed = /keys *= /.test(text);
  await until(tab, "its plan", (keyed, n) => document.querySelectorAll(".handle.key").length === (keyed ? 2 * n : 0) && document.getElementById("stale").hidden, keyed, KEYS);
  await still();
}

/** The demo with both axes going from key to key. */
function keyed() {
  const keys = (unit, low, high) => Array.from({ length: KEYS }, (_, i) => `  { at = "${Math.round((i * 144) / KEYS)} frames", pos = "${(low + ((high - low) * (1 - Math.cos((2 * Math.PI * i) / KEYS))) / 2).toFixed(1)} ${unit}" },`).join("\n");
  const axis = (name, unit, low, high) => `[axis.${name}]\nmove = "keys"\nkeys = [\n${keys(unit, low, high)}\n]\n`;
  return plain.replace(/\[axis\.rail\][^[]*/, axis("rail", "mm", 40, 80) + "\n").replace(/\[axis\.table\][^[]*/, axis("table", "deg", 0, 20) + "\n").replace(/\[\[cue\]\][\s\S]*$/, "");
}

const still = () => stillOf(tab);

async function middle(selector) {
  const box = await (await tab.$(selector)).boundingBox();
  return [box.x + box.width / 2, box.y + box.height / 2];
}

const handle = (path) => middle(`.handle[data-path="${path}"]`);

/** Takes hold at a place, goes along, does something and lets go. */
async function dragged([x, y], dx, dy, during) {
  await tab.mouse.move(x, y);
  await tab.mouse.down();
  await tab.mouse.move(x + dx, y + dy, { steps: 6 });
  await during?.();
  await tab.mouse.up();
}

test("with thirty keys on each axis, a press at the middle of a handle takes that handle", async () => {
  await write(keyed());
  const places = await tab.$$eval(".handle", (all) => all.map((h) => {
    const box = h.getBoundingClientRect();
    return { path: h.dataset.path, x: box.x + box.width / 2, y: box.y + box.height / 2, wide: box.width, high: box.height };
  }));
  assert.equal(places.length, 2 * KEYS + 1);
  const wrong = [];
  for (const p of places) {
    assert.ok(p.wide >= 24 && p.high >= 24, `${p.path} is ${p.wide} by ${p.high} px`);
    await tab.mouse.move(p.x, p.y);
    await tab.mouse.down();
    const took = await tab.evaluate(() => document.querySelector(".handle.held")?.dataset.path);
    await tab.mouse.up();
    if (took !== p.path) wrong.push(`${p.path} gave ${took}`);
  }
  assert.deepEqual(wrong, []);
  assert.ok(await tab.$eval("#undo", (b) => !b.title.includes("key")), "a press alone changes nothing");
  await picture(tab, "curves-keys-1280");
});

const spacing = async (a, b) => (await handle(b))[0] - (await handle(a))[0];

test("the curves are zoomed at the pointer, all of them; a plain wheel is the page's", async () => {
  await write(keyed());
  const [rail, table] = ["axis.rail.keys[12].pos", "axis.table.keys[12].pos"].map((p) => p.replace(".pos", ""));
  const paths = await tab.$$eval(".handle.key", (all) => all.map((h) => h.dataset.path));
  const [r, rNext, t, tNext] = [rail, rail.replace("12", "13"), table, table.replace("12", "13")].map((p) => paths.find((q) => q.startsWith(p)));
  const was = [await spacing(r, rNext), await spacing(t, tNext)];
  const at = await handle(r);
  await tab.mouse.move(...at);
  await tab.mouse.wheel({ deltaY: -120 });
  assert.deepEqual([await spacing(r, rNext), await spacing(t, tNext)], was, "a plain wheel zooms nothing");
  await tab.keyboard.down("Control");
  for (let i = 0; i < 4; i++) await tab.mouse.wheel({ deltaY: -120 });
  await tab.keyboard.up("Control");
  await until(tab, "room between keys", () => !document.querySelector(".span-bar").classList.contains("whole"));
  await still();
  const now = [await spacing(r, rNext), await spacing(t, tNext)];
  assert.ok(now[0] > 2.5 * was[0] && now[1] > 2.5 * was[1], `${was} became ${now}`);
  assert.ok(Math.abs((await handle(r))[0] - at[0]) < 2, "what is under the pointer stays there");
  await picture(tab, "curves-zoomed-1280");

  const [x] = await handle(r);
  await dragged(await middle(".curve .u-axis"), 60, 0);
  assert.ok(Math.abs((await handle(r))[0] - x - 60) < 3, "the strip with the frames is what it is dragged along by");
  await dragged(await middle(".span-bar > .span-seen"), 25, 0);
  assert.ok((await handle(r))[0] < x, "and so is the window in the overview, the other way");

  await tab.focus(".span-bar");
  for (let i = 0; i < 2; i++) await tab.keyboard.press("PageUp");
  assert.match(await tab.$eval(".span-bar", (b) => b.getAttribute("aria-valuetext")), /^frames -13 to /, "the neighbours of the seam are seen there");
  await tab.keyboard.press("0");
  await still();
  assert.equal(await tab.$eval(".span-bar", (b) => b.getAttribute("aria-valuetext")), "the whole round");
  for (const further of ["-", "[aria-label='Curves further away']"]) {
    await click(tab, "[aria-label='Curves nearer']");
    await tab.keyboard.press("+");
    await still();
    assert.match(await tab.$eval(".span-bar", (b) => b.getAttribute("aria-valuetext")), /^frames/);
    for (let i = 0; i < 2; i++) await (further === "-" ? tab.keyboard.press("-") : click(tab, further));
    await still();
    assert.equal(await tab.$eval(".span-bar", (b) => b.getAttribute("aria-valuetext")), "the whole round");
  }
});

test("a handle that is out of sight comes in sight when the keyboard reaches it", async () => {
  await write(keyed());
  await tab.focus(".span-bar");
  for (let i = 0; i < 4; i++) await tab.keyboard.press("+");
  await still();
  const last = await tab.$$eval(".handle.key", (all) => all[29].dataset.path);
  assert.ok(await tab.$eval(`[data-path="${last}"]`, (h) => h.classList.contains("beyond")));
  await tab.focus(`[data-path="${last}"]`);
  await until(tab, "the handle in sight", (last) => !document.querySelector(`[data-path="${last}"]`).classList.contains("beyond"), last);
});

test("the value stands beside the pointer, in the plot, and the window follows calmly", async () => {
  await write(plain);
  const start = await handle("axis.rail.to");
  await tab.evaluate(() => {
    const seen = (window.seenByTest = new Set());
    const near = document.querySelector('[data-path="axis.rail.from"]');
    (function look() {
      seen.add(near.style.top);
      requestAnimationFrame(look);
    })();
  });
  let held;
  await dragged(start, 0, -150, async () => {
    await until(tab, "the place at the pointer, in its unit", () => /^(1[5-9]\d|2\d\d)\.\d mm, [\d.]+ s on screen, frame \d+$/.test(document.querySelector(".curve .tip:not([hidden])")?.textContent ?? ""));
    await still();
    held = await tab.evaluate(() => {
      const rect = (s) => document.querySelector(s).getBoundingClientRect().toJSON();
      return { tip: rect(".curve .tip:not([hidden])"), plot: rect(".curve .plot"), over: rect(".curve .u-over"), handle: rect('[data-path="axis.rail.to"]') };
    });
  });
  const { tip, plot, over } = held;
  assert.ok(tip.left >= plot.left - 1 && tip.right <= plot.right + 1 && tip.top >= plot.top - 1 && tip.bottom <= plot.bottom + 1, JSON.stringify(held));
  assert.ok(tip.left > start[0] || tip.right < start[0], "beside the pointer, not under it");
  const at = held.handle.top + held.handle.height / 2;
  assert.ok(at > over.top + 1 && at < over.bottom, `the window holds what is dragged: ${at} in ${over.top} to ${over.bottom}`);
  const places = await tab.evaluate(() => window.seenByTest.size);
  assert.ok(places > 3, `it went there in ${places} steps`);
  assert.equal(await tab.$(".curve .tip:not([hidden])"), null);
  await still();
  const [, top] = await handle("axis.rail.to");
  assert.ok(top - over.top > 0.08 * over.height, "and settles with air about it");
});

/** Every instant that is on screen, in captured frames. */
const instants = () => tab.evaluate(() => {
  const shift = (e) => Number(/translateX\(([-\d.]+)px\)/.exec(e.style.transform)[1]);
  const left = (path) => parseFloat(document.querySelector(`[data-path="${path}"]`).style.left);
  const frames = Number(document.querySelector(".handle.loop").getAttribute("aria-valuenow"));
  const zero = left("axis.rail.from"), per = (left("clock.loop") - zero) / frames;
  const heads = [...document.querySelectorAll(".playhead")].map((h) => (shift(h) - zero) / per);
  const ring = Number(/rotate\(([-\d.]+)\)/.exec(document.querySelector(".hand").getAttribute("transform"))[1]) * frames / 360;
  return { frames, heads, ring, dial: Number(document.getElementById("dial").getAttribute("aria-valuenow")), now: Number(document.getElementById("now").dataset.frame), above: Number(document.getElementById("above").dataset.frame) };
});

test("everything shows one instant, while the length of the loop is dragged too", async () => {
  await write(plain);
  await tab.focus(".span-bar");
  await tab.keyboard.press("0"); // what was brought nearer before hides handles that places are told by
  await still();
  const [x, y] = await handle("clock.loop");
  await tab.mouse.move(x - 60, y + 40);
  await tab.mouse.down();
  await tab.mouse.up();
  const same = async (when) => {
    await tab.evaluate(() => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))));
    const { heads, ring, dial, now, above, frames } = await instants();
    for (const [what, at] of [["the rail's curve", heads[0]], ["the table's", heads[1]], ["the ring", ring], ["the count", dial], ["above", above]]) {
      assert.ok(Math.abs(at - now) < 0.2, `${when}, of ${frames} frames: ${what} is at ${at}, the readout at ${now}`);
    }
    return frames;
  };
  const was = await same("before");
  await tab.mouse.move(x, y);
  await tab.mouse.down();
  for (const dx of [20, 45, 90, -70, -140]) {
    const frames = await tab.$eval(".handle.loop", (h) => h.getAttribute("aria-valuenow"));
    await tab.mouse.move(x + dx, y, { steps: 2 });
    await until(tab, "another length", (frames) => document.querySelector(".handle.loop").getAttribute("aria-valuenow") !== frames, frames);
    await same(`dragged by ${dx} px`);
  }
  await tab.mouse.up();
  await still();
  assert.notEqual(await same("let go"), was);
});

test("dragging the product moves the product, under the pointer and in the numbers", async () => {
  await write(plain);
  const grips = () => tab.$$eval(".grip", (all) => Object.fromEntries(all.map((g) => {
    const box = g.querySelector(".target").getBoundingClientRect();
    return [g.dataset.path, [box.x + box.width / 2, box.y + box.height / 2]];
  })));
  await still();
  const was = await grips();
  const check = async (when) => {
    for (const [path, at] of Object.entries(await grips())) {
      const by = path === "above.product" ? [24, -12] : [0, 0];
      for (const k of [0, 1]) assert.ok(Math.abs(at[k] - was[path][k] - by[k]) < 2.5, `${when}, ${path} went by ${at[k] - was[path][k]} px`);
    }
  };
  await dragged(was["above.product"], 24, -12, async () => {
    await until(tab, "what it is now, at the pointer", () => /^(4[6-9]|5\d)\d.* mm from the lens, [\d.]+ mm to the right$/.test(document.querySelector("#plan .tip:not([hidden])")?.textContent ?? ""));
    await until(tab, "the product under the pointer", ([x, y]) => {
      const box = document.querySelector(".grip.product .target").getBoundingClientRect();
      return Math.hypot(box.x + box.width / 2 - x - 24, box.y + box.height / 2 - y + 12) < 2.5;
    }, was["above.product"]);
    await check("held");
    await picture(tab, "above-held-1280");
  });
  await until(tab, "the numbers", () => /^aside *= *"-\d/m.test(document.getElementById("text").value));
  await still();
  assert.match(await tab.$eval("#text", (t) => t.value), /^distance = "(4[6-9]|5\d)\d/m);
});

test("a double click where a move has no keys says how to have them", async () => {
  await write(plain);
  const [x, y] = await handle("axis.rail.to");
  await tab.mouse.click(x - 60, y + 5, { count: 2 });
  await until(tab, "how to have keys", () => [...document.querySelectorAll(".note")].some((n) => n.textContent.includes("rail has no keys")));
  assert.equal(await tab.$eval("#text", (t) => t.value), plain);
});

/** The rail's move made keys, by choosing it; how many there are. */
async function railKeyed() {
  await write(plain);
  await click(tab, "#tab-moves");
  await tab.select("fieldset[data-axis=rail] select", "keys");
  await until(tab, "keys on the rail's curve", () => document.querySelectorAll(".handle.key").length > 1);
  await still();
  return count();
}

const count = () => tab.$$eval(".handle.key", (all) => all.length);
const counts = (n) => until(tab, n + " keys", (n) => document.querySelectorAll(".handle.key").length === n && !document.body.classList.contains("is-stale"), n);

/** A place on the rail's curve in the widest gap between its keys. */
const gap = () => tab.$$eval(".handle.key", (all) => {
  const at = all.map((h) => h.getBoundingClientRect()).map((r) => [r.x + r.width / 2, r.y + r.height / 2]).sort((a, b) => a[0] - b[0]);
  const [a, b] = at.slice(1).map((p, i) => [at[i], p]).sort(([a, b], [c, d]) => d[0] - c[0] - (b[0] - a[0]))[0];
  return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
});

test("a double click on a keyed curve puts a key there, and Delete takes the focused one away", async () => {
  const first = await railKeyed();
  const made = await tab.$eval("#text", (t) => t.value);
  const [x, y] = await gap();
  await tab.mouse.click(x, y, { count: 2 });
  await counts(first + 1);
  await still();
  const places = await tab.$$eval(".handle.key", (all) => all.map((h) => h.getBoundingClientRect()).map((r) => [r.x + r.width / 2, r.y + r.height / 2]));
  assert.ok(places.some((p) => Math.abs(p[0] - x) < 6), `a key at ${x}: ${places}`);
  await picture(tab, "curves-key-added-1280");
  const path = await tab.$$eval(".handle.key", (all, x) => all.find((h) => { const r = h.getBoundingClientRect(); return Math.abs(r.x + r.width / 2 - x) < 6; }).dataset.path, x);
  await tab.focus(`.handle[data-path="${path}"]`);
  await tab.keyboard.press("Delete");
  await counts(first);
  assert.ok(await tab.evaluate(() => document.activeElement.classList.contains("key")), "the focus stays among the keys");
  assert.equal(await tab.$eval("#text", (t) => t.value), made, "the file is what it was, comments and all");
});

test("nothing went wrong on the page meanwhile", () => noTroubles(tab));
