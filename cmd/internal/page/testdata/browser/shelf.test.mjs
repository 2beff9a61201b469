// From nothing to a loop that is saved, and what becomes of it when a tab, the program or
// the file goes.
import assert from "node:assert/strict";
import { mkdtemp, readFile, readdir, unlink, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, afterEach, beforeEach, test } from "node:test";
import { Hand, Served, WINDOWS, browser, click, noTroubles, open, picture, ready, until, value, violations } from "./harness.mjs";

let folder, program, tab;

const write = (name, text) => writeFile(join(folder, name), text);
const readText = (name) => readFile(join(folder, name), "utf8");
const drafts = async () => (await readdir(folder)).filter((n) => n.endsWith(".unsaved"));
const shelf = (t) => until(t, "the first screen", () => document.body.classList.contains("ready") && document.querySelector("#kinds li"));

/** Begins a shot by clicks. */
async function begin(kind, { loop } = {}) {
  await shelf(tab);
  await click(tab, `[data-kind=${kind}]`);
  await until(tab, "the questions", () => document.querySelector("#begin[open] #asked-loop"));
  if (loop) {
    await click(tab, "#asked-loop");
    await tab.$eval("#asked-loop", (e) => e.select());
    await tab.keyboard.type(loop);
  }
  await until(tab, "what it comes to", () => document.querySelector("#begin-headline .mark"));
  await Promise.all([tab.waitForNavigation(), click(tab, "#begin-go")]);
  await ready(tab);
}

/** Two tabs of one shot, in one browser. */
async function begunTwice() {
  tab = await open(program);
  await begin("there-and-back");
  const other = await tab.browserContext().newPage();
  Object.assign(other, { troubles: [], asked: [] });
  other.on("dialog", (d) => d.accept());
  await other.goto((await program.next()).replace("/#", "/?shot=there-and-back.toml#"));
  await ready(other);
  await tab.bringToFront();
  return other;
}

/** Types into the text bench. */
async function edit(from, to) {
  await click(tab, "#tab-text");
  await tab.$eval("#text", (t, from, to) => {
    t.value = t.value.replace(from, to);
    t.dispatchEvent(new Event("input"));
  }, from, to);
  await until(tab, "the change", () => document.getElementById("save-state").classList.contains("open"));
}

async function draftKept(word) {
  for (let i = 0; i < 200; i++) {
    const all = await Promise.all((await drafts()).map((name) => readText(name).catch(() => "")));
    if (all.some((text) => text.includes(word))) return;
    await new Promise((resolve) => setTimeout(resolve, 25));
  }
  throw new Error("nothing was kept of what is not saved");
}

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), "seamrail-shelf-"));
  program = await Served.in(folder);
});

afterEach(async () => {
  await tab?.close();
  await program.stop();
});

after(() => browser.close());

test("a loop from nothing, by clicks; reload and kill keep what is not saved", async () => {
  tab = await open(program);
  await shelf(tab);
  await until(tab, "a picture", () => document.querySelector("[data-kind] canvas[data-frames]"));
  assert.deepEqual(await violations(tab), []);
  await picture(tab, "shelf-empty");
  await begin("there-and-back", { loop: "5 s" });
  assert.equal(new URL(tab.url()).searchParams.get("shot"), "there-and-back.toml");
  assert.equal(await value(tab, "loop"), "5 s");
  assert.deepEqual((await readdir(folder)).sort(), ["bench-rail.toml", "there-and-back.toml"]);

  await edit('= "5 s"', '= "7 s"');
  await draftKept("7 s");
  await Promise.all([tab.waitForNavigation(), tab.evaluate(() => location.reload())]);
  await ready(tab);
  assert.equal(await value(tab, "loop"), "7 s", "a reload keeps it");

  await program.interrupt("SIGKILL");
  await tab.close();
  program = await Served.in(folder); // at another port: the browser knows nothing of it
  tab = await open(program);
  await shelf(tab);
  await until(tab, "the card to say so", () => /not saved/.test(document.querySelector("#cards .unsaved")?.textContent));
  await Promise.all([tab.waitForNavigation(), click(tab, "#cards a")]);
  await ready(tab);
  assert.equal(await value(tab, "loop"), "7 s", "it is offered again");
  assert.match(await tab.$eval("#notes", (e) => e.textContent), /What was not saved is back/);
  await click(tab, "#undo");
  await until(tab, "the file", () => /loop +=\s*"5 s"/.test(document.getElementById("text").value));
  await click(tab, "#redo");
  await until(tab, "it to be back", () => /loop +=\s*"7 s"/.test(document.getElementById("text").value));
  await click(tab, "#save");
  await until(tab, "it to be saved", () => document.getElementById("save-state").textContent === "as on disk");
  assert.match(await readText("there-and-back.toml"), /"7 s"/);
  assert.deepEqual(await drafts(), []);
  noTroubles(tab);
});

test("two tabs of a shot keep what each has not saved", async () => {
  const other = await begunTwice();
  await edit('= "6 s"', '= "7 s"');
  await draftKept("7 s");
  const here = tab;
  tab = other;
  await tab.bringToFront();
  await edit('= "6 s"', '= "8 s"');
  await draftKept("8 s");
  assert.equal((await drafts()).length, 2);
  await Promise.all([tab.waitForNavigation(), tab.evaluate(() => location.reload())]);
  await ready(tab);
  assert.equal(await value(tab, "loop"), "8 s", "its own");
  assert.ok(await tab.$eval("#left", (e) => e.hidden), "the other is alive");
  await here.close({ runBeforeUnload: false });
  await Promise.all([tab.waitForNavigation(), tab.evaluate(() => location.reload())]);
  await ready(tab);
  assert.equal(await value(tab, "loop"), "8 s");
  await until(tab, "that of the tab that is gone", () => !document.getElementById("left").hidden);
  await click(tab, "#left button");
  await until(tab, "its text", () => /loop +=\s*"7 s"/.test(document.getElementById("text").value));
  noTroubles(tab);
});

test("a file that goes or changes is never a dead end", async () => {
  tab = await open(program);
  await begin("label");
  await unlink(join(folder, "label.toml"));
  await until(tab, "the page to say so", () => document.getElementById("notes").textContent.includes("is no longer there"));
  await click(tab, "#save");
  await until(tab, "it to be back", () => document.getElementById("save-state").textContent === "as on disk");
  await readText("label.toml");

  const rig = await readText("bench-rail.toml");
  await write("bench-rail.toml", rig.replace("Bench rail", "Other rail"));
  await until(tab, "the rig to be noticed", () => document.getElementById("notes").textContent.includes("bench-rail.toml, which this shot stands on"));
  await unlink(join(folder, "bench-rail.toml"));
  await until(tab, "its loss to be a fault", () => /"bench-rail.toml" is not there/.test(document.getElementById("faults").textContent));
  await write("bench-rail.toml", rig);
  await until(tab, "the plan", () => document.getElementById("stale").hidden);

  // New on this page, and another program writes the file: both are shown.
  await unlink(join(folder, "label.toml"));
  await until(tab, "no file", () => document.getElementById("save-state").textContent === "not on disk yet");
  await write("label.toml", 'shot = "theirs"\n');
  await until(tab, "both texts", () => !document.getElementById("conflict").hidden);
  await click(tab, "#conflict-mine");
  await until(tab, "it to be saved", () => document.getElementById("save-state").textContent === "as on disk");
  assert.match(await readText("label.toml"), /Fernhollow/);
  tab.troubles = tab.troubles.filter((t) => !/422 .*api\/(preview|controller)/.test(t)); // it was being drawn, or looked at closely, when its rig went
  noTroubles(tab);
});

test("another name, with the log; a broken file has its faults in front", async () => {
  await write("broken.toml", 'shot = "Half a shot"\n[clock]\nloop = 3 s\n');
  tab = await open(program);
  await begin("hand");
  await write("hand.takes.jsonl", "");
  await click(tab, "#file-more summary");
  await click(tab, "#rename");
  await tab.keyboard.type("con");
  await until(tab, "a word against it", () => document.getElementById("naming-wrong").textContent.includes("device"));
  await tab.$eval("#naming-file", (e) => e.select());
  await tab.keyboard.type("bead");
  await until(tab, "it to be fine", () => document.getElementById("naming-wrong").textContent === "");
  await click(tab, "#naming-go");
  await until(tab, "the new name", () => location.search === "?shot=bead.toml");
  assert.deepEqual((await readdir(folder)).sort(), ["bead.takes.jsonl", "bead.toml", "bench-rail.toml", "broken.toml"]);
  await edit('= "6 s"', '= "4 s"');
  await draftKept("4 s");
  await click(tab, "#file-more summary");
  await click(tab, "#save-as");
  await tab.keyboard.type("bead two");
  await click(tab, "#naming-go");
  await until(tab, "the other file", () => document.getElementById("save-state").textContent === "as on disk" && location.search === "?shot=bead%20two.toml");
  assert.match(await readText("bead two.toml"), /loop += "4 s"/);
  assert.match(await readText("bead.toml"), /loop += "6 s"/);
  assert.deepEqual(await drafts(), []);

  await Promise.all([tab.waitForNavigation(), click(tab, "#to-shots")]);
  await until(tab, "three cards that were looked at", () => document.querySelectorAll("#cards li").length === 3 && document.querySelector("#cards .mark-words.bad"));
  await picture(tab, "shelf");
  assert.deepEqual(await violations(tab), []);
  await Promise.all([tab.waitForNavigation(), click(tab, '[data-file="broken.toml"]')]);
  await until(tab, "the faults", () => document.querySelector("#faults li"));
  assert.equal(await tab.$eval("#tab-text", (e) => e.getAttribute("aria-selected")), "true");
  for (const id of ["#seen", "#curves", "#verdicts"]) assert.ok(!(await tab.$eval(id, (e) => e.checkVisibility())), id);
  assert.match(await tab.$eval("#faults", (e) => e.textContent), /line 3/);
  noTroubles(tab);
});

for (const { width, height, touch } of WINDOWS.slice(1)) {
  test(`${width} wide, by ${touch ? "touch" : "mouse"}: begun from nothing, deleted and saved again, its rig changed, a broken one opened; it stands still for those who ask`, async () => {
    await write("broken.toml", 'shot = "Half a shot"\n[clock]\nloop = 3 s\n');
    tab = await open(program, { width, height, touch, features: [{ name: "prefers-reduced-motion", value: "reduce" }] });
    const hand = await Hand.on(tab);
    const goes = (selector) => Promise.all([tab.waitForNavigation(), hand.press(selector)]);
    const fits = async (what) => assert.ok(await tab.evaluate(() => document.documentElement.scrollWidth <= innerWidth), what);
    await shelf(tab);
    await until(tab, "a still", () => [...document.querySelectorAll("[data-kind] canvas")].some((c) => c.dataset.frames === "1"));
    assert.ok(await tab.evaluate(() => [...document.querySelectorAll("canvas")].every((c) => !(Number(c.dataset.frames) > 1))));
    await fits("the first screen");
    await picture(tab, `shelf-${width}`);
    await hand.press("[data-kind=pass]");
    await until(tab, "the questions", () => document.querySelector("#begin[open] #asked-loop"));
    await hand.type("#asked-loop", "5 s");
    await until(tab, "what it comes to", () => /^.*5\.0 s\./.test(document.getElementById("begin-headline").textContent));
    await fits("the questions");
    if (touch) assert.deepEqual(await violations(tab), []);
    await picture(tab, `begin-${width}`);
    await goes("#begin-go");
    await ready(tab);
    assert.equal(await value(tab, "loop"), "5 s");

    await unlink(join(folder, "pass.toml"));
    await until(tab, "the page to say so", () => document.getElementById("notes").textContent.includes("is no longer there"));
    await picture(tab, `shelf-${width}-deleted`);
    await hand.press("#save", { stays: true });
    await until(tab, "it to be back", () => document.getElementById("save-state").textContent === "as on disk");
    assert.match(await readText("pass.toml"), /"5 s"/);
    await write("bench-rail.toml", (await readText("bench-rail.toml")).replace("Bench rail", "Other rail"));
    await until(tab, "the rig to be noticed", () => document.getElementById("notes").textContent.includes("bench-rail.toml, which this shot stands on"));

    await goes("#to-shots");
    await until(tab, "both cards", () => document.querySelectorAll("#cards li").length === 2);
    await goes('[data-file="broken.toml"]');
    await until(tab, "the faults", () => /line 3/.test(document.querySelector("#faults li")?.textContent));
    assert.ok(await tab.$eval("#faults li", (e) => { const b = e.getBoundingClientRect(); return b.top >= 0 && b.bottom <= innerHeight && e.contains(document.elementFromPoint(b.left + b.width / 2, b.top + b.height / 2)); }), "in front");
    await fits("the broken one");
    await picture(tab, `broken-${width}`);
    noTroubles(tab);
  });
}
