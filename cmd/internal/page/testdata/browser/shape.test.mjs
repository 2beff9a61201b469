// A shot is built by clicks alone: moves, keys, rests, lamps, holes, cues and the rig. No
// text is typed that is TOML, and no fault is ever in sight.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { afterEach, test } from "node:test";
import { oneServed, click, noTroubles, open, picture, ready, until, violations } from "./harness.mjs";

let served, tab;

oneServed(async (s) => {
  served = s;
  tab = await ready(await open(served));
});

afterEach(async () => {
  assert.ok(await tab.$eval("#stale", (e) => e.hidden), "no fault is in sight");
  assert.deepEqual(await tab.$$eval("#notes .bad", (all) => all.map((e) => e.textContent)), []);
});

const text = () => tab.$eval("#text", (e) => e.value);
const rows = () => tab.$$eval("fieldset[data-axis=rail] .keys tbody tr", (all) => all.length);
const has = (what, part) => until(tab, what, (part) => document.getElementById("text").value.includes(part), part);
const lacks = (what, part) => until(tab, what, (part) => !document.getElementById("text").value.includes(part), part);
const press = (selector) => tab.$eval(selector, (e) => e.click());
const add = (path, within = "[role=tabpanel]:not([hidden])") => press(`${within} [data-add="${path}"]`);
const focused = (path) => until(tab, "the focus on " + path, (path) => document.activeElement?.closest("[data-path]")?.dataset.path.endsWith(path), path);
const kind = (axis, move) => tab.select(`fieldset[data-axis=${axis}] select`, move);

test("a keyed move is made of another, gets keys, loses them, and is what it was", async () => {
  await click(tab, "#tab-moves");
  const was = await text();
  assert.match(await tab.$eval("fieldset[data-axis=rail] select", (s) => s.selectedOptions[0].textContent), /^There and back again \(there-and-back\)$/);
  await kind("rail", "keys");
  await until(tab, "keys", () => document.querySelectorAll("fieldset[data-axis=rail] .keys tbody tr").length > 1);
  const first = await rows();
  await add("axis.rail.keys");
  await until(tab, "another key", (n) => document.querySelectorAll("fieldset[data-axis=rail] .keys tbody tr").length === n, first + 1);
  await until(tab, "the focus in a key", () => document.activeElement?.closest(".keys tr"));
  await picture(tab, "shape-keys");
  await press("fieldset[data-axis=rail] .keys tbody tr:last-child .remove");
  await until(tab, "a key less", (n) => document.querySelectorAll("fieldset[data-axis=rail] .keys tbody tr").length === n, first);
  await kind("rail", "there-and-back");
  await lacks("the keys set aside", '\nmove      = "keys"');
  const steps = 4; // two moves, a key more and one less
  await tab.$eval("#undo", (b, steps) => { for (let i = 0; i < steps; i++) b.click(); }, steps);
  await until(tab, "nothing of it", (was) => document.getElementById("text").value === was, was);
});

test("each move is chosen and comes back", async () => {
  const was = await text();
  for (const axis of ["rail", "table"]) {
    const moves = await tab.$$eval(`fieldset[data-axis=${axis}] select:first-of-type option`, (all) => all.map((o) => o.value));
    const home = await tab.$eval(`fieldset[data-axis=${axis}] select`, (s) => s.value);
    for (const m of moves.filter((m) => m !== home).slice(0, 3)) {
      await kind(axis, m);
      await until(tab, m, (was) => document.getElementById("text").value !== was, was);
      await kind(axis, home);
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
  await click(tab, "#tab-numbers");
  await add("scene.lamps", "#plan");
  await has("a lamp", "1200 lm");
  await until(tab, "the focus in the new lamp", () => document.activeElement?.closest("[data-path]")?.dataset.path.startsWith("scene.lamps["));
  await add("scene.holes", "#plan");
  await has("a hole", "[[scene.holes]]");
  await click(tab, "#tab-cues");
  await add("cue");
  await has("a cue", 'name = "drop"');
  await picture(tab, "shape-cue");
  const gone = await tab.$$eval("#bench-cues [data-remove]", (all) => all.at(-1).dataset.remove);
  await press(`#bench-cues [data-remove="${gone}"]`);
  await lacks("no such cue", 'name = "drop"');
  await click(tab, "#tab-numbers");
  await press('#numbers [data-remove="scene.holes[1]"]');
  await lacks("no hole", "[[scene.holes]]");
  const lamp = await tab.$$eval('#numbers [data-remove^="scene.lamps["]', (all) => all.map((b) => b.dataset.remove).filter((p) => p.endsWith("]")).at(-1));
  await press(`#numbers [data-remove="${lamp}"]`);
  await lacks("no new lamp", "bearing = \"150 deg\"");
  const field = `#numbers [data-path="${rest}"] input`;
  await tab.$eval(field, (i) => { i.value = ""; i.dispatchEvent(new Event("change")); });
  await until(tab, "all as it was", (was) => document.getElementById("text").value === was, was);
});

test("an axis is taken out with what speaks of it, and Undo brings it back", async () => {
  await click(tab, "#tab-moves");
  const was = await text();
  await press('fieldset[data-axis=table] [data-remove="axis.table"]');
  await lacks("no table", "[axis.table]");
  assert.equal(await tab.$("fieldset[data-axis=table]"), null);
  await add("axis.table");
  await has("the table again", "[axis.table]");
  await focused("axis.table.move");
  await click(tab, "#undo");
  await lacks("no table", "[axis.table]");
  await click(tab, "#undo");
  await until(tab, "all as it was", (was) => document.getElementById("text").value === was, was);
});

test("a value that does not fit is refused beside its field, with what would do", async () => {
  await click(tab, "#tab-numbers");
  const was = await text();
  const field = '#numbers [data-path="axis.table.symmetry"]';
  await tab.$eval(`${field} input`, (i) => { i.value = "4"; i.dispatchEvent(new Event("change")); });
  await until(tab, "why not", (field) => document.querySelector(`${field} .wrong`).textContent.length > 0, field);
  assert.equal(await text(), was);
  await tab.$eval(`${field} input`, (i) => { i.value = "6"; i.dispatchEvent(new Event("change")); });
  await until(tab, "nothing wrong", (field) => document.querySelector(`${field} .wrong`).textContent === "", field);
  await tab.$$eval("#notes .note button", (all) => all.forEach((b) => b.click()));
});

test("a limit of the rig is written into its file, and Undo takes it back", async () => {
  await click(tab, "#tab-rig");
  const field = '#rig [data-path="rig:axis.rail.speed"] input';
  await until(tab, "the rig", (field) => document.querySelector(field), field);
  const file = join(served.folder, "bench-rail.toml"), was = await readFile(file, "utf8");
  await picture(tab, "shape-rig");
  await tab.$eval(field, (i) => { i.value = "390 mm/s"; i.dispatchEvent(new Event("change")); });
  await until(tab, "it is written", () => document.getElementById("rig-text").textContent.includes('"390 mm/s"'));
  assert.equal(await readFile(file, "utf8"), was.replace('speed        = "400 mm/s"', 'speed        = "390 mm/s"'));
  await tab.$eval(field, (i) => { i.value = "fast"; i.dispatchEvent(new Event("change")); });
  await until(tab, "why not", () => document.querySelector('#rig [data-path="rig:axis.rail.speed"] .wrong').textContent.length > 0);
  assert.match(await readFile(file, "utf8"), /390 mm\/s/);
  await click(tab, "#undo");
  await until(tab, "it is as it was", () => !document.getElementById("rig-text").textContent.includes('"390 mm/s"'));
  assert.equal(await readFile(file, "utf8"), was);
  assert.deepEqual(await violations(tab), []);
  noTroubles(tab);
});
