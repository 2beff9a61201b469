// A shot is built by a hand alone: moves, keys, rests, lamps, holes, stands, cues and the rig.
// No text is typed that is TOML, and no fault is ever in sight.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { after, afterEach, before, describe, test } from "node:test";
import { Hand, Served, WINDOWS, browser, noTroubles, open, picture, ready, until, violations } from "./harness.mjs";

let served, tab, hand;

const text = () => tab.$eval("#text", (e) => e.value);
const rows = () => tab.$$eval("fieldset[data-axis=rail] .keys tbody tr", (all) => all.length);
const has = (what, part) => until(tab, what, (part) => document.getElementById("text").value.includes(part), part);
const lacks = (what, part) => until(tab, what, (part) => !document.getElementById("text").value.includes(part), part);
const again = (was) => until(tab, "all as it was", (was) => document.getElementById("text").value === was, was);
const press = (selector, how) => hand.press(selector, how);
const bench = (name) => press("#tab-" + name);
const add = (path, within = "[role=tabpanel]:not([hidden])") => press(`${within} [data-add="${path}"]`);
const focused = (path) => until(tab, "the focus on " + path, (path) => document.activeElement?.closest("[data-path]")?.dataset.path.endsWith(path), path);
const kind = (axis, move) => hand.choose(`fieldset[data-axis=${axis}] .field.kind select`, move);
const undo = (times = 1) => tab.$eval("#undo", (b, times) => { for (let i = 0; i < times; i++) b.click(); }, times);

after(() => browser.close());

for (const { width, height, touch } of WINDOWS) describe(`${width} wide, by ${touch ? "touch" : "mouse"}`, () => {
  before(async () => {
    served = await Served.start();
    // The same rig, beside which a display stand is known.
    execFileSync(process.env.SEAMRAIL_PROGRAM, ["new", "display-stand", served.folder, "--force"]);
    tab = await ready(await open(served, { width, height, touch }));
    hand = await Hand.on(tab);
  });

  afterEach(async () => {
    assert.ok(await tab.$eval("#stale", (e) => e.hidden), "no fault is in sight");
    assert.deepEqual(await tab.$$eval("#notes .bad", (all) => all.map((e) => e.textContent)), []);
    assert.ok(await tab.evaluate(() => document.documentElement.scrollWidth <= innerWidth), "nothing is wider than the window");
  });

  after(async () => {
    noTroubles(tab);
    await tab.close();
    await served.stop();
  });

  test("a keyed move is made of another, gets keys, loses them, and is what it was", async () => {
    await bench("moves");
    const was = await text();
    assert.match(await tab.$eval("fieldset[data-axis=rail] select", (s) => s.selectedOptions[0].textContent), /^There and back again \(there-and-back\)$/);
    await kind("rail", "keys");
    await until(tab, "keys", () => document.querySelectorAll("fieldset[data-axis=rail] .keys tbody tr").length > 1);
    const first = await rows();
    await add("axis.rail.keys");
    await until(tab, "another key", (n) => document.querySelectorAll("fieldset[data-axis=rail] .keys tbody tr").length === n, first + 1);
    await until(tab, "the focus in a key", () => document.activeElement?.closest(".keys tr"));
    await picture(tab, `shape-keys-${width}`);
    await press("fieldset[data-axis=rail] .keys tbody tr:last-child .remove");
    await until(tab, "a key less", (n) => document.querySelectorAll("fieldset[data-axis=rail] .keys tbody tr").length === n, first);
    await kind("rail", "there-and-back");
    await lacks("the keys set aside", '\nmove      = "keys"');
    await undo(4); // two moves, a key more and one less
    await again(was);
  });

  if (width === 1280) test("each move is chosen and comes back", async () => {
    const was = await text();
    for (const axis of ["rail", "table"]) {
      const moves = await tab.$$eval(`fieldset[data-axis=${axis}] .field.kind option`, (all) => all.map((o) => o.value));
      const home = await tab.$eval(`fieldset[data-axis=${axis}] select`, (s) => s.value);
      for (const m of moves.filter((m) => m !== home).slice(0, 3)) {
        await tab.select(`fieldset[data-axis=${axis}] .field.kind select`, m);
        await until(tab, m, (was) => document.getElementById("text").value !== was, was);
        await tab.select(`fieldset[data-axis=${axis}] .field.kind select`, home);
        await until(tab, home + " again", (was) => document.getElementById("text").value === was, was);
      }
    }
  });

  test("rests, lamps, holes and cues are added where they are shown, and taken out", async () => {
    const was = await text();
    const rest = await tab.$eval('fieldset[data-axis=rail] [data-add*="dwell"]', (b) => b.dataset.add);
    await add(rest);
    await has("a rest", rest.split(".").at(-1));
    await focused(rest);
    await bench("numbers");
    await add("scene.lamps", "#plan");
    await has("a lamp", "1200 lm");
    await until(tab, "the focus in the new lamp", () => document.activeElement?.closest("[data-path]")?.dataset.path.startsWith("scene.lamps["));
    await add("scene.holes", "#plan");
    await has("a hole", "[[scene.holes]]");
    await picture(tab, `shape-scene-${width}`);
    await bench("cues");
    await add("cue");
    await has("a cue", 'name = "drop"');
    await picture(tab, `shape-cue-${width}`);
    const gone = await tab.$$eval("#bench-cues [data-remove]", (all) => all.at(-1).dataset.remove);
    await press(`#bench-cues [data-remove="${gone}"]`);
    await lacks("no such cue", 'name = "drop"');
    await bench("numbers");
    await press('#numbers [data-remove="scene.holes[1]"]');
    await lacks("no hole", "[[scene.holes]]");
    const lamp = await tab.$$eval('#numbers [data-remove^="scene.lamps["]', (all) => all.map((b) => b.dataset.remove).filter((p) => p.endsWith("]")).at(-1));
    await press(`#numbers [data-remove="${lamp}"]`);
    await lacks("no new lamp", "bearing = \"150 deg\"");
    await hand.type(`#numbers [data-path="${rest}"] input`, "");
    await again(was);
  });

  test("an axis is taken out with what speaks of it, a stand turns in its place, and Undo brings all back", async () => {
    await bench("moves");
    const was = await text();
    await press('fieldset[data-axis=table] [data-remove="axis.table"]');
    await lacks("no table", "[axis.table]");
    assert.equal(await tab.$("fieldset[data-axis=table]"), null);
    await bench("spin");
    await add("spin.display");
    await until(tab, "a stand", () => /^\[spin\.display\]/m.test(document.getElementById("text").value));
    await picture(tab, `shape-stand-${width}`);
    await press('#bench-spin [data-remove="spin.display"]');
    await until(tab, "no stand", () => !/^\[spin\.display\]/m.test(document.getElementById("text").value));
    await bench("moves");
    await add("axis.table");
    await has("the table again", "[axis.table]");
    await focused("axis.table.move");
    await picture(tab, `shape-axis-${width}`);
    await press("#undo", { stays: true });
    await lacks("no table", "[axis.table]");
    await undo(3); // the stand added and taken out, and the axis
    await again(was);
  });

  if (width === 1280) test("a value that does not fit is refused beside its field, with what would do", async () => {
    await bench("numbers");
    const was = await text();
    const field = '#numbers [data-path="axis.table.symmetry"]';
    await hand.type(`${field} input`, "4");
    await until(tab, "why not", (field) => document.querySelector(`${field} .wrong`).textContent.length > 0, field);
    await picture(tab, `shape-refused-${width}`);
    assert.equal(await text(), was);
    await hand.type(`${field} input`, "6");
    await until(tab, "nothing wrong", (field) => document.querySelector(`${field} .wrong`).textContent === "", field);
    await tab.$$eval("#notes .note button", (all) => all.forEach((b) => b.click()));
  });

  if (width === 1280) test("a limit of the rig is written into its file, and Undo takes it back", async () => {
    await bench("rig");
    const field = '#rig [data-path="rig:axis.rail.speed"] input';
    const file = join(served.folder, "bench-rail.toml"), was = await readFile(file, "utf8");
    await hand.type(field, "390 mm/s");
    await until(tab, "it is written", () => document.getElementById("rig-text").textContent.includes('"390 mm/s"'));
    await picture(tab, `shape-rig-${width}`);
    assert.equal(await readFile(file, "utf8"), was.replace('speed        = "400 mm/s"', 'speed        = "390 mm/s"'));
    await hand.type(field, "fast");
    await until(tab, "why not", () => document.querySelector('#rig [data-path="rig:axis.rail.speed"] .wrong').textContent.length > 0);
    assert.match(await readFile(file, "utf8"), /390 mm\/s/);
    await press("#undo", { stays: true });
    await until(tab, "it is as it was", () => !document.getElementById("rig-text").textContent.includes('"390 mm/s"'));
    assert.equal(await readFile(file, "utf8"), was);
    assert.deepEqual(await violations(tab), []);
  });
});
