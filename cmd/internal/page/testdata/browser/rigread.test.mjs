// The rig is read from a board: what it says is shown, and saved as a new file alone.
import assert from "node:assert/strict";
import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { after, afterEach, beforeEach, test } from "node:test";
import { Served, browser, click, noTroubles, open, picture, ready, until } from "./harness.mjs";

let served, tab;

beforeEach(async () => {
  served = await Served.start();
  tab = await ready(await open(served));
  await click(tab, "#tab-drive");
});

afterEach(async () => {
  await tab.close();
  await served.stop();
});

after(() => browser.close());

test("a board made of software is read, and its file is saved once", async () => {
  await tab.select("#port", "virtual");
  assert.equal(await tab.$eval("#measure-command", (e) => e.textContent), "seamrail measure bench-rail.toml --virtual");
  await click(tab, "#rig-ask");
  await until(tab, "the file to be offered", () => !document.getElementById("rig-offer").hidden);
  assert.match(await tab.$eval("#rig-report", (e) => e.textContent), /A buffered controller answers at 115200 baud/);
  await picture(tab, "rig-read-1280");
  await click(tab, "#rig-save");
  await until(tab, "it to be saved", () => document.getElementById("notes").textContent.includes("Saved my-rig.toml"));
  const text = await readFile(join(served.folder, "my-rig.toml"), "utf8");
  assert.match(text, /# to be measured: /);
  await click(tab, "#rig-save");
  await until(tab, "it to be refused", () => document.getElementById("notes").textContent.includes("is already there"));
  assert.equal(await readFile(join(served.folder, "my-rig.toml"), "utf8"), text);
});

test("what was read is saved and used for this shot in one press, and Undo takes it off again", async () => {
  await tab.select("#port", "virtual");
  await click(tab, "#rig-ask");
  await until(tab, "the file to be offered", () => !document.getElementById("rig-offer").hidden);
  const was = await tab.$eval("#text", (t) => t.value);
  assert.match(was, /^file += "bench-rail\.toml"/m);
  await click(tab, "#rig-use");
  await until(tab, "the shot to be on it", () => document.getElementById("notes").textContent.includes("Saved my-rig.toml"));
  assert.match(await tab.$eval("#notes", (e) => e.textContent), /Saved my-rig\.toml; this shot is on it now/);
  assert.equal(await tab.$eval("#text", (t) => t.value), was.replace('"bench-rail.toml"', '"my-rig.toml"'));
  assert.match(await readFile(join(served.folder, "my-rig.toml"), "utf8"), /^rig += /m);
  assert.ok(await tab.$eval("#stale", (e) => e.hidden), "and it is planned on it");
  await click(tab, "#tab-rig");
  await until(tab, "its values", () => document.getElementById("rig-file").textContent === "my-rig.toml" && document.getElementById("rig-pick").value === "my-rig.toml");
  await click(tab, "#undo");
  await until(tab, "the rig of before", () => document.getElementById("rig-file").textContent === "bench-rail.toml");
  assert.equal(await tab.$eval("#text", (t) => t.value), was);
  noTroubles(tab);
});

test("a shot that its rig keeps from being opened is mended in front, press by press, in the rig's file, and Undo takes that back", async () => {
  const name = join(served.folder, "bench-rail.toml");
  const whole = await readFile(name, "utf8");
  const ill = whole.replace(/^speed  /m, "sped   ").replace(/^microsteps   = 16/m, "microsteps   = 0");
  await writeFile(name, ill);
  const other = await open(served);
  const faults = (n) => until(other, n + " faults", (n) => document.querySelectorAll("#faults > li").length === n, n);
  await faults(2);
  assert.ok(await other.$eval("body", (b) => b.classList.contains("no-plan")));
  assert.match(await other.$eval("#stale-words", (e) => e.textContent), /^The shot has 2 faults: bench-rail\.toml, line \d+: rail: sped .* Nothing can be drawn/);
  assert.equal(await other.$$eval("#gutter .wrong, #faults .when", (all) => all.length), 0, "no line of the shot is wrong");
  assert.deepEqual(await other.$$eval("#faults .fit", (all) => all.map((b) => b.textContent)), ['"speed" in place of sped', 'microsteps = "1", to be measured']);
  await picture(other, "rig-broken-1280");
  await click(other, "#stale-cure");
  await faults(1);
  assert.equal(await readFile(name, "utf8"), ill.replace(/^sped /m, "speed "));
  await click(other, "#faults .fit");
  await until(other, "the plan", () => document.getElementById("stale").hidden && document.querySelector("#verdict-list .verdict"));
  assert.match(await readFile(name, "utf8"), /^microsteps   = 1 .*# to be measured: it holds the place of what it is; as the driver is set$/m);
  assert.ok(await other.$eval("body", (b) => !b.classList.contains("no-plan")));
  noTroubles(other);
  await click(other, "#undo");
  await faults(1);
  await click(other, "#undo");
  await faults(2);
  assert.equal(await readFile(name, "utf8"), ill, "what stood there is back, byte for byte");
  // A question about the plan that is drawn may have been on its way while its rig was none again.
  other.troubles = other.troubles.filter((x) => !/status of 422 .*\/api\/(preview|controller)$/.test(x));
  noTroubles(other);
  await other.close();
});

test("where no board is, what to look at fits a narrow screen", async () => {
  await tab.setViewport({ width: 390, height: 844 });
  await tab.$eval("#port", (s) => {
    s.append(new Option("none", "/dev/none"));
    s.value = "/dev/none";
    s.dispatchEvent(new Event("change"));
  });
  assert.equal(await tab.$eval("#measure-command", (e) => e.textContent), "seamrail measure bench-rail.toml --port /dev/none");
  await click(tab, "#rig-ask");
  await until(tab, "what is wrong", () => /\/dev\/none/.test(document.getElementById("rig-report").textContent) && !document.getElementById("rig-ask").disabled);
  assert.ok(await tab.$eval("#rig-offer", (e) => e.hidden), "and no file is offered");
  assert.equal(await tab.evaluate(() => document.documentElement.scrollWidth), 390);
  await picture(tab, "rig-none-390");
});
