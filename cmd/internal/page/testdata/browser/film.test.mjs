// A take that is dropped on the page: looked through, told, seen beside the plan, accepted.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtemp, readFile, readdir, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { Served, browser, click, noTroubles, open, picture, ready, until, violations } from "./harness.mjs";

const PROGRAM = process.env.SEAMRAIL_PROGRAM;
const MORE = 24; // frames that are filmed after the round
const LOOKED = 300_000; // ms, far more than looking through 120 small frames takes

let served, take;

before(async () => {
  const folder = await mkdtemp(join(tmpdir(), "seamrail-film-test-"));
  execFileSync(PROGRAM, ["new", "label", folder, "--no-table", "--capture", "24", "--loop", "4 s"]);
  execFileSync(PROGRAM, ["preview", join(folder, "label.toml"), "--width", "384", "-o", join(folder, "take.png")]);
  take = await readFile(join(folder, "take.png"));
  served = await Served.in(folder, join(folder, "label.toml"));
});

after(async () => {
  await served?.stop();
  await browser.close();
});

/** Files as a hand would drop them: of a take as it is, or its frames, and some of them again, as stills. */
const drop = (tab, name, { stills = 0, of = take } = {}) => tab.evaluate(async (name, text, more) => {
  const data = Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
  const carried = new DataTransfer();
  if (!more) carried.items.add(new File([data], name));
  else {
    const film = new ImageDecoder({ data, type: "image/png" });
    await film.tracks.ready;
    const count = film.tracks.selectedTrack.frameCount;
    for (let k = 0; k < count + more; k++) {
      const { image } = await film.decode({ frameIndex: k % count });
      const on = new OffscreenCanvas(image.displayWidth, image.displayHeight);
      on.getContext("2d").drawImage(image, 0, 0);
      image.close();
      carried.items.add(new File([await on.convertToBlob({ type: "image/png" })], `${name}-${String(k).padStart(4, "0")}.png`));
    }
  }
  const send = (type) => document.body.dispatchEvent(new DragEvent(type, { dataTransfer: carried, bubbles: true, cancelable: true }));
  send("dragenter");
  while (!document.querySelector(".drop")?.checkVisibility()) await new Promise(requestAnimationFrame);
  send("dragover");
  send("drop");
  return !document.querySelector(".drop").checkVisibility();
}, name, of.toString("base64"), stills);

async function told(tab) {
  for (const began = Date.now(); Date.now() - began < LOOKED; await new Promise((later) => setTimeout(later, 100))) {
    const [there, wrong] = await tab.evaluate(() => [Boolean(document.querySelector(".film-verdict")) && document.getElementById("film-under-way").hidden, document.querySelector("#film-said.wrong")?.textContent ?? ""]);
    assert.equal(wrong, "");
    if (there) return;
  }
  throw new Error("waited for: what the take tells");
}
const goTo = async (tab, frame) => {
  await tab.evaluate(() => document.activeElement.blur());
  await tab.keyboard.press("Home");
  for (let k = 0; k < frame; k += 10) await tab.keyboard.down("Shift").then(() => tab.keyboard.press("ArrowRight")).then(() => tab.keyboard.up("Shift"));
  assert.equal(await tab.$eval("#now", (e) => Number(e.dataset.frame)), frame);
};
const temporary = async () => (await readdir(tmpdir())).filter((n) => n.startsWith("seamrail-film-") && !n.startsWith("seamrail-film-test-"));

/** At every width the take has its place beside the plan, and all of it can be reached. */
async function everyWidth(tab) {
  for (const [width, height] of [[390, 844], [1024, 768], [1280, 800], [1920, 1080]]) {
    await tab.setViewport({ width, height });
    await tab.evaluate(() => scrollTo(0, 0));
    await goTo(tab, 60);
    await until(tab, "the film's frame", () => document.getElementById("film").dataset.shows === "60");
    await tab.evaluate(() => new Promise((later) => setTimeout(later, 300)));
    await picture(tab, `film-beside-${width}`);
    assert.ok(await tab.evaluate(() => document.documentElement.scrollWidth <= innerWidth), "wider than the screen");
    if (width >= 1000) assert.equal(await tab.evaluate(() => document.documentElement.scrollHeight), height, "the page itself has nothing to scroll");
    const tiny = await tab.$$eval("#bench-film button, #bench-film input:not([type=file]), .film-bar button, .film-bar input, .film-bar select, #bench-film summary", (list) => list.filter((e) => e.checkVisibility()).map((e) => [e, (e.closest("label") ?? e).getBoundingClientRect()]).filter(([, b]) => b.width < 24 || b.height < 24).map(([e, b]) => `${e.id || e.textContent} ${b.width}x${b.height}`));
    assert.deepEqual(tiny, []);
    const within = () => tab.evaluate(() => { const bar = document.querySelector(".film-bar").getBoundingClientRect(), box = document.getElementById("seen").getBoundingClientRect(); return bar.bottom <= box.bottom + 1 && bar.right <= box.right + 1 && bar.height < 50; });
    assert.ok(await within(), "the bar is one line within its part, " + width);
    assert.deepEqual(await violations(tab), [], String(width));
    await tab.$eval(".film-part:nth-of-type(3)", (e) => e.scrollIntoView({ block: "start" }));
    await picture(tab, `film-bench-${width}`);
    await tab.evaluate(() => scrollTo(0, 0));
    await click(tab, ".film-bar button:nth-of-type(2)");
    assert.ok(await within(), "with its slider as well, " + width);
    await picture(tab, `film-over-${width}`);
    await click(tab, ".film-bar button:nth-of-type(1)");
  }
  await tab.setViewport({ width: 1280, height: 800 });
}

test("a take of stills is dropped, told, seen under the playhead, laid over the plan, and accepted", async () => {
  const tab = await ready(await open(served));
  assert.equal(await tab.$("#film"), null, "nothing is there of it before");
  assert.equal(await drop(tab, "take", { stills: MORE }), true, "it is said where to drop, and taken away");
  await until(tab, "that it is under way", () => !document.getElementById("film-under-way").hidden);
  await tab.waitForFunction(() => /^frame \d+ of 120$/.test(document.getElementById("film-far").textContent), { timeout: LOOKED, polling: 20 });
  await picture(tab, "film-under-way");
  await told(tab);
  const said = await tab.$eval(".film-verdict", (e) => [e.className, e.textContent]);
  assert.match(said[0], /good/);
  assert.match(said[1], /THE PLAN/);
  assert.ok(await tab.$$eval(".film-curve canvas", (list) => list.length > 0), "what was measured is drawn");

  await goTo(tab, 40);
  await until(tab, "the film's frame", () => document.getElementById("film").dataset.shows === "40");
  const inked = await tab.$eval("#film", (c) => { const d = c.getContext("2d").getImageData(0, 0, c.width, c.height).data; return new Set(d).size; });
  assert.ok(inked > 20, "there is a picture: " + inked);
  const [lens, film] = await tab.evaluate(() => ["lens", "film"].map((id) => document.getElementById(id).getBoundingClientRect().toJSON()));
  assert.ok(lens.right <= film.left + 1 && Math.abs(lens.width - film.width) < 2, "beside each other");
  await picture(tab, "film-1280");

  await click(tab, ".film-bar button:nth-of-type(2)");
  const mix = () => tab.$eval("#film", (c) => c.style.opacity);
  assert.equal(await mix(), "0.5");
  await tab.focus("#film-mix");
  await tab.keyboard.press("ArrowRight");
  assert.equal(await mix(), "0.55", "by the keys");
  assert.equal(await tab.$eval("#now", (e) => Number(e.dataset.frame)), 40, "which are the slider's then");
  const [under, over] = await tab.evaluate(() => ["lens", "film"].map((id) => { const c = document.getElementById(id), b = c.getBoundingClientRect(); return [b.x, b.y, b.width, b.height, c.width, c.height]; }));
  assert.deepEqual(over, under, "one over the other");
  await picture(tab, "film-over");

  await click(tab, "#film-more");
  await until(tab, "the frame after", () => document.getElementById("film").dataset.shows === "41");
  assert.match(await tab.$eval("#bench-film", (e) => e.textContent), /moved by hand by \+1/);
  await click(tab, "#film-less");
  await click(tab, "#film-less");
  await goTo(tab, 0);
  await until(tab, "that this is before it", () => /Before the recording/.test(document.querySelector(".film-none").textContent) && document.querySelector(".film-none").checkVisibility());
  await click(tab, "#film-more");

  await click(tab, "#film-accept-zero");
  await until(tab, "what was accepted", () => document.querySelector(".film-accepted")?.checkVisibility());
  const [first] = await tab.$$eval(".film-loop", (list) => list.map((b) => b.textContent));
  assert.match(first, /frames \d+ to \d+, 96 frames: the seam is not seen/);
  await tab.focus(".film-loop");
  await tab.keyboard.press("Enter");
  await until(tab, "both frames of the seam", () => [...document.querySelectorAll(".film-seam img")].filter((i) => i.complete && i.naturalWidth > 0).length === 3);
  await click(tab, ".film-seam button:first-of-type");
  await until(tab, "the other in its place", () => document.querySelectorAll(".film-seam img")[1].hidden);
  await until(tab, "and back", () => !document.querySelectorAll(".film-seam img")[1].hidden);
  await picture(tab, "film-seam");
  await click(tab, ".film-seam .strong");
  await until(tab, "the loop in words", () => /the loop is frames/.test(document.querySelector(".film-accepted p").textContent));
  assert.match(await tab.$eval(".film-accepted", (e) => e.textContent), /120 stills.*: frame 0 is at -?0(\.\d+)?, the loop is frames \d+ to \d+\..*Nothing is written: /);
  assert.deepEqual((await readdir(served.folder)).filter((n) => /takes/.test(n)), [], "nothing is written");
  execFileSync(PROGRAM, ["takes", join(served.folder, "label.toml"), "--log"]);
  await click(tab, ".film-seam .strong");
  await until(tab, "that it can be kept", () => document.getElementById("film-keep").checkVisibility());
  await click(tab, "#film-keep");
  await until(tab, "that it is kept", () => /It is take 1 in label.takes.jsonl/.test(document.querySelector(".film-accepted").textContent));
  await picture(tab, "film-kept");

  await tab.emulateMediaFeatures([{ name: "prefers-reduced-motion", value: "reduce" }]);
  await tab.$eval(".film-loop", (b) => (b.click(), b.click()));
  await click(tab, ".film-seam button:first-of-type");
  const other = () => tab.$eval(".film-seam figure:last-child img", (i) => i.hidden);
  assert.equal(await other(), true);
  await new Promise((later) => setTimeout(later, 1200));
  assert.equal(await other(), true, "where less motion is asked for it stays until the next press");
  await click(tab, ".film-bar button:nth-of-type(1)");
  await everyWidth(tab);

  await tab.$eval("#text", (t) => Object.assign(t, { value: t.value.replace('"3-4-5"', '"cycloidal"') }).dispatchEvent(new Event("input")));
  await until(tab, "that it is of the shot before", () => document.getElementById("film-told").dataset.older === "The shot has changed since.");
  await tab.evaluate(() => [...document.querySelectorAll(".film-verdict button")].find((b) => /as it is now/.test(b.textContent)).click());
  await until(tab, "another verdict", () => /NOT THE PLAN/.test(document.querySelector(".film-verdict").textContent));
  await picture(tab, "film-not-the-plan");
  await tab.$eval(".film-curve", (e) => e.scrollIntoView({ block: "start" }));
  await picture(tab, "film-curve");
  await tab.evaluate(() => document.getElementById("undo").click());
  await click(tab, "#film-away");
  assert.equal(await tab.$eval("#film", (e) => e.checkVisibility()), false);
  assert.ok(await tab.evaluate(() => document.getElementById("lens").getBoundingClientRect().width > document.querySelector("#seen .frame").getBoundingClientRect().width - 2), "the lens has its place back");
  noTroubles(tab);
  await tab.close();
});

test("a second take takes the place of the first, and looking is given up", async () => {
  const tab = await ready(await open(served));
  await click(tab, "#tab-film");
  const chosen = await tab.$("#film-files");
  await chosen.uploadFile(join(served.folder, "take.png"));
  await until(tab, "that it is under way", () => !document.getElementById("film-under-way").hidden);
  await drop(tab, "other.png");
  await until(tab, "that it is said", () => /other.png takes the place of take.png/.test(document.getElementById("notes").textContent));
  await tab.waitForFunction(() => /^frame [1-9]/.test(document.getElementById("film-far").textContent), { timeout: LOOKED, polling: 20 });
  await click(tab, "#film-give-up");
  await until(tab, "that it was given up", () => document.getElementById("film-said").textContent === "other.png: Given up.");
  assert.equal(await tab.$eval("#film-told", (e) => e.hidden), true);
  await drop(tab, "broken.mov", { of: Buffer.from("no film at all") });
  await until(tab, "why it is none", () => document.getElementById("film-said").classList.contains("wrong") && /broken.mov/.test(document.getElementById("film-said").textContent));
  await picture(tab, "film-broken");
  await click(tab, "#film-away");
  assert.equal(await tab.$eval("#film-said", (e) => e.textContent), "");
  await until(tab, "the focus", () => document.activeElement.id === "film-choose");
  noTroubles(tab);
  await tab.close();
  for (let n = 0; n < 100 && (await temporary()).length; n++) await new Promise((later) => setTimeout(later, 50));
  assert.deepEqual(await temporary(), [], "nothing is left of it");
});
