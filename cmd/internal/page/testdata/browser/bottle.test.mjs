// The show of the whole page: from an empty folder to a saved loop of an ordinary bottle on
// the turntable, by clicks and short typed values alone. The text bench is never opened.
import assert from "node:assert/strict";
import { execFile } from "node:child_process";
import { mkdtemp, readFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { promisify } from "node:util";
import { PICTURES, Served, browser, click, noTroubles, open, ready, until } from "./harness.mjs";

const FILE = "turntable.toml";
const FEW = 30; // clicks and typed values together
const LONG = 120; // s, a person's patience and far above what a script takes
const MOST = 6; // cures that are pressed one after the other
const WIDE = 420, TALL = 263, ROW = 3; // px of each picture of the strip, and how many lie beside each other

let folder, served, tab;
const hand = { clicks: 0, typed: 0 };
const strip = [];

before(async () => {
  folder = await mkdtemp(join(tmpdir(), "seamrail-bottle-"));
  served = await Served.in(folder);
  tab = await open(served);
});

after(async () => {
  await tab?.close();
  await served.stop();
  await browser.close();
});

async function press(selector) {
  hand.clicks++;
  await click(tab, selector);
}

/** Takes one of a list: a click that opens it, and one on the choice. */
async function choose(selector, name) {
  hand.clicks += 2;
  await until(tab, selector, (s) => document.querySelector(s)?.checkVisibility(), selector);
  await tab.select(selector, name);
}

async function type(selector, words) {
  hand.typed++;
  await until(tab, selector, (s) => document.querySelector(s)?.checkVisibility(), selector);
  await (await tab.$(selector)).click({ count: 3 });
  await tab.keyboard.type(words);
  await tab.keyboard.press("Tab");
}

const holds = (part) => until(tab, part + " in the shot", (part) => document.getElementById("text").value.includes(part), part);
const number = (path) => `#numbers [data-path="${path}"] :is(input[type=text], select)`;

async function seen() {
  if (PICTURES) strip.push(await tab.screenshot({ encoding: "base64" }));
}

/** Keeps the pictures beside each other in one file; testdata/bottle.jpg is such a one. */
async function keep() {
  if (!PICTURES) return;
  const page = await browser.newPage();
  await page.setViewport({ width: WIDE * ROW, height: TALL * Math.ceil(strip.length / ROW) });
  await page.setContent(`<body style="margin:0;display:flex;flex-wrap:wrap">${strip.map((data) => `<img width=${WIDE} height=${TALL} src="data:image/png;base64,${data}">`).join("")}</body>`);
  await page.screenshot({ path: join(PICTURES, "bottle.jpg"), type: "jpeg", quality: 72 });
  await page.close();
}

/** Presses what the headline offers, until the rig may run this and everything has been looked at. */
async function cured() {
  for (let pressed = 0; ; pressed++) {
    await until(tab, "the headline to be of all", () => !/worked out/.test(document.querySelector("#ready .said").textContent) && document.getElementById("work").hidden);
    const said = await tab.$eval("#ready .said", (e) => e.textContent);
    if (/^READY\./.test(said)) return pressed;
    assert.ok(pressed < MOST, said);
    if (pressed === 0) await seen();
    await press("#ready button.fit");
    await until(tab, "another headline", (said) => document.querySelector("#ready .said").textContent !== said, said);
  }
}

test("a bottle from nothing, by clicks and short values", async () => {
  const began = Date.now();
  await until(tab, "the first screen", () => document.body.classList.contains("ready") && document.querySelector("[data-kind=turntable] canvas[data-frames]"));
  await seen();
  await press("[data-kind=turntable]");
  await until(tab, "the questions", () => document.querySelector("#begin[open] #asked-loop"));
  await type("#asked-loop", "8 s");
  await type("#asked-faces", "1"); // one label: only a whole turn brings it back
  await type("#asked-distance", "800 mm");
  await until(tab, "what it comes to", () => /^.? ?8\.0 s/.test(document.getElementById("begin-headline").textContent.trim()));
  await seen();
  await Promise.all([tab.waitForNavigation(), press("#begin-go")]);
  await ready(tab);
  await seen();

  await press("#tab-numbers");
  await type(number("shot"), "Fernhollow cordial, once round");
  await choose(number("scene.product.shape"), "cylinder");
  await holds('shape  = "cylinder"');
  await type(number("scene.product.radius"), "36 mm");
  await type(number("scene.product.height"), "230 mm");
  await holds('"230 mm"');
  await seen();
  const lamps = () => tab.$eval("#text", (t) => t.value.split("[[scene.lamps]]").length - 1);
  const were = await lamps();
  await press('#plan [data-add="scene.lamps"]');
  await until(tab, "another lamp", (n) => document.getElementById("text").value.split("[[scene.lamps]]").length - 1 === n, were + 1);
  await seen();

  await press("#tab-moves");
  await choose("fieldset[data-axis=rail] select", "there-and-back");
  await holds('move = "there-and-back"');
  const ease = await tab.$$eval('[data-path="axis.rail.law"] input', (all) => all[1].value);
  await press(`[data-path="axis.rail.law"] label.law:has(input[value="${ease}"])`);
  await holds(`\nlaw = "${ease}"`);
  await seen();
  const cures = await cured();
  assert.ok(cures > 0, "a whole turn in eight seconds is more than the table does: what would do is pressed");
  await seen();
  const rows = await tab.$$eval("#verdicts .verdict", (all) => all.map((e) => `${e.dataset.name} ${e.className}`));
  assert.deepEqual(rows.filter((r) => /\b(bad|fair)\b/.test(r)), [], "the bottle is whole in the picture, too");
  await press("#save");
  await until(tab, "it to be saved", () => document.getElementById("save-state").textContent === "as on disk");
  const took = (Date.now() - began) / 1000;
  await seen();
  await keep();

  assert.ok(await tab.$eval("#stale", (e) => e.hidden), "no fault is in sight");
  assert.deepEqual(await tab.$$eval("#notes .bad", (all) => all.map((e) => e.textContent)), []);
  const text = await readFile(join(folder, FILE), "utf8");
  assert.match(text, /turns +=\s+"1"[^]*symmetry += 1\b/);
  assert.match(text, /^shot = "Fernhollow cordial, once round"$[^]*^radius = "36 mm"$/m);
  assert.equal(await tab.$eval("#text", (t) => t.value), text);
  const { stdout } = await promisify(execFile)(process.env.SEAMRAIL_PROGRAM, ["plan", FILE], { cwd: folder }); // throws where it does not exit with 0
  assert.match(stdout, /^READY /m);
  console.log(`a bottle from nothing: ${hand.clicks} clicks, ${hand.typed} typed values, ${cures} cures pressed, ${took.toFixed(1)} s`);
  assert.ok(hand.clicks + hand.typed < FEW, `${hand.clicks} clicks and ${hand.typed} values`);
  assert.ok(took < LONG, `${took} s`);
  noTroubles(tab);
});
