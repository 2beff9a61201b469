// The rig is read from a board: what it says is shown, and saved as a new file alone.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
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
