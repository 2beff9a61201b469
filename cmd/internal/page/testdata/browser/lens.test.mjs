// What the lens sees while a hand drags, in long loops and on the whole screen; what is
// older than the numbers; work that is given up.
import assert from "node:assert/strict";
import { readFile, writeFile } from "node:fs/promises";
import { after, before, test } from "node:test";
import { Hand, Served, WINDOWS, browser, click, noTroubles, open, picture, ready, takeHold, until, violations } from "./harness.mjs";

const HANDLE = "axis.rail.to";
const LONG = 10_000; // captured frames
const MB = 1e6;

let served, tab;

before(async () => {
  served = await Served.start();
  tab = await ready(await open(served));
  await whole();
});

after(async () => {
  await tab?.close();
  await served.stop();
  await browser.close();
});

const whole = () => until(tab, "the whole preview", () => document.getElementById("lens").dataset.frames === "144");

/** The frame that is painted, how wide, the change it is of, and a sum of its pixels. */
const shows = (t = tab) => t.evaluate(() => {
  const c = document.getElementById("lens");
  const [frame, wide] = c.dataset.shows.split(" ").map(Number);
  const { data } = c.getContext("2d").getImageData(0, 0, c.width, c.height);
  let sum = 0;
  for (let i = 0; i < data.length; i += 16) sum = (sum * 31 + data[i]) >>> 0;
  return { frame, wide, sum, older: document.getElementById("seen").dataset.older };
});

const focus = (s, t = tab) => t.$eval(s, (e) => e.focus());

/** Stands on a frame of the timeline. */
async function stand(frame) {
  await focus("#dial");
  await tab.keyboard.press("Home");
  for (let i = 0; i < Math.floor(frame / 10); i++) await tab.keyboard.press("PageUp");
  await until(tab, "frame " + frame, (f) => document.getElementById("lens").dataset.shows.startsWith(f + " "), frame);
}

const fine = (t = tab) => until(t, "a fine picture", () => Number(document.getElementById("lens").dataset.shows.split(" ")[1]) >= 640);
const fresh = () => until(tab, "nothing older", () => !document.querySelector("[data-older]:not(.answer)"));

test("the frame under the playhead is drawn while a handle is dragged, then finely", async () => {
  await stand(60);
  await fine();
  const sums = new Set([(await shows()).sum]);
  const [x, y] = await takeHold(tab, HANDLE);
  for (let i = 1; i <= 4; i++) {
    const { sum } = await shows();
    await tab.mouse.move(x, y + 9 * i);
    await until(tab, "another picture", (n) => {
      const c = document.getElementById("lens");
      const { data } = c.getContext("2d").getImageData(0, 0, c.width, c.height);
      let s = 0;
      for (let i = 0; i < data.length; i += 16) s = (s * 31 + data[i]) >>> 0;
      return s !== n && c.dataset.shows.startsWith("60 ");
    }, sum);
    sums.add((await shows()).sum);
  }
  assert.equal(sums.size, 5, "each step is another picture");
  await fine(); // the finger rests, and is not lifted
  await fresh();
  await tab.mouse.up();
  await fresh();
});

test("so it is with a typed number, something from above, and an undo", async () => {
  await whole();
  await fine();
  const was = await shows();
  const differs = async (what, from) => {
    await fresh();
    await fine();
    const now = await shows();
    assert.notEqual(now.sum, from.sum, what);
    return now;
  };
  await focus('#above [data-path="above.product"]');
  await tab.keyboard.press("ArrowUp");
  const moved = await differs("the product was moved", was);
  await tab.focus('#moves [data-path="move:axis.rail.to"] input');
  await tab.$eval('#moves [data-path="move:axis.rail.to"] input', (e) => e.select());
  await tab.keyboard.type("70 mm");
  await tab.keyboard.press("Enter");
  const typed = await differs("a number was typed", moved);
  await click(tab, "#undo");
  await differs("undo", typed);
  await click(tab, "#undo");
  await fresh();
  await fine();
  assert.equal((await shows()).sum, was.sum, "back where it was");
});

test("what is older than the numbers says so, until it is not", async () => {
  await tab.setRequestInterception(true);
  let hold = [];
  const held = (r) => (/api\/(plan|preview)/.test(r.url()) && hold ? hold.push(r) : void r.continue());
  tab.on("request", held);
  await tab.focus(`[role=slider][data-path="${HANDLE}"]`);
  await tab.keyboard.press("ArrowDown");
  await until(tab, "older parts", () => ["seen", "plan", "curves", "verdicts"].every((id) => document.getElementById(id).dataset.older));
  const said = await tab.$$eval("[data-older]", (all) => all.map((e) => [e.dataset.older, e.getAttribute("aria-busy")].join("; ")));
  for (const words of said) assert.match(words, /^(drawing|being worked out); true$/);
  assert.ok(Number(await tab.$eval("#curves > *", async (e) => {
    await new Promise((r) => setTimeout(r, 250)); // dimmed once it lasts
    return getComputedStyle(e).opacity;
  })) < 0.6);
  await picture(tab, "older");
  await until(tab, "work that takes long to be said", () => /Working out the plan.*Give up/.test(document.getElementById("work").textContent));
  const late = hold;
  hold = null;
  for (const r of late) await r.continue();
  await fresh();
  await until(tab, "nothing at work", () => document.getElementById("work").hidden);
  tab.off("request", held);
  await tab.setRequestInterception(false);
});

test("an answer of another shot says so, and is itself again when the shot is", async () => {
  await click(tab, "#tab-spin");
  await click(tab, "#ask-spin");
  await until(tab, "an answer", () => document.querySelector("#answer-spin .answers"));
  assert.equal(await tab.$eval("#answer-spin", (e) => e.dataset.older), undefined);
  await tab.focus(`[role=slider][data-path="${HANDLE}"]`);
  await tab.keyboard.press("ArrowDown");
  await until(tab, "an older answer", () => /Ask again/.test(document.getElementById("answer-spin").dataset.older ?? ""));
  await fresh();
  await click(tab, "#undo");
  await until(tab, "the answer of this shot", () => document.getElementById("answer-spin").dataset.older === undefined);
});

test("what takes long can be given up, and what was asked of another shot is never shown", async () => {
  await tab.setRequestInterception(true);
  let held = [];
  const hold = (r) => (/api\/fit/.test(r.url()) ? held.push(r) : void r.continue());
  tab.on("request", hold);
  await click(tab, "#ask-fit");
  await click(tab, "#work .give-up");
  await until(tab, "it to be given up", () => document.getElementById("answer-fit").textContent === "Given up." && document.getElementById("work").hidden);
  await click(tab, "#ask-fit");
  await until(tab, "it to be at work", () => document.querySelector("#work .give-up"));
  await tab.focus(`[role=slider][data-path="${HANDLE}"]`);
  await tab.keyboard.press("ArrowDown");
  await until(tab, "it to end with the shot", () => /Ask again/.test(document.getElementById("answer-fit").textContent));
  for (const r of held) await r.continue().catch(() => {});
  tab.off("request", hold);
  await tab.setRequestInterception(false);
  await fresh();
  assert.match(await tab.$eval("#answer-fit", (e) => e.textContent), /Ask again/);
});

for (const { width, height, touch } of WINDOWS.slice(1)) {
  test(`${width} wide, by ${touch ? "touch" : "mouse"}: each step of a drag is drawn, older things are dimmed, and the lens fills the screen`, async () => {
    const own = await Served.start();
    const small = await ready(await open(own, { width, height, touch }));
    const hand = await Hand.on(small);
    await until(small, "the whole preview", () => document.getElementById("lens").dataset.frames === "144");
    await focus("#dial", small);
    await small.keyboard.press("Home");
    for (let i = 0; i < 6; i++) await small.keyboard.press("PageUp");
    await until(small, "frame 60 of it", () => document.getElementById("lens").dataset.shows.startsWith("60 "));
    const [x, y] = await hand.middle(`.handle[data-path="${HANDLE}"]`);
    await hand.down([x, y]);
    for (let i = 1; i <= 3; i++) {
      const { sum } = await shows(small);
      await hand.go([x, y + 6 * i]);
      await until(small, "another picture", (n) => {
        const c = document.getElementById("lens");
        const { data } = c.getContext("2d").getImageData(0, 0, c.width, c.height);
        let s = 0;
        for (let i = 0; i < data.length; i += 16) s = (s * 31 + data[i]) >>> 0;
        return s !== n && c.dataset.shows.startsWith("60 ");
      }, sum);
      assert.ok(await small.$eval("#lens", (c) => { const b = c.getBoundingClientRect(); return document.elementFromPoint(b.x + b.width / 2, b.y + b.height / 2) === c && b.bottom <= innerHeight; }), "the picture is in sight while it is dragged");
    }
    await small.setRequestInterception(true);
    const late = [];
    const hold = (r) => (/api\/(plan|preview)/.test(r.url()) ? late.push(r) : void r.continue());
    small.on("request", hold);
    await hand.go([x, y + 30]);
    await until(small, "older parts", () => ["seen", "plan", "curves", "verdicts"].every((id) => document.getElementById(id).dataset.older));
    await until(small, "them to be dimmed", () => Number(getComputedStyle(document.querySelector("#curves > *")).opacity) < 0.6);
    await picture(small, `older-${width}`);
    small.off("request", hold);
    for (const r of late) await r.continue();
    await small.setRequestInterception(false);
    await hand.up();
    await until(small, "nothing older", () => !document.querySelector("[data-older]:not(.answer)"));

    await hand.press("#whole-screen");
    await until(small, "the whole screen", () => document.getElementById("seen").classList.contains("whole") && document.getElementById("seen").clientWidth === innerWidth);
    await hand.press(".whole-bar [aria-label='+ 1 frame']");
    await until(small, "the next frame", () => /frame 61 of 144/.test(document.querySelector(".whole-bar .instant").textContent));
    const [cx, cy] = await hand.middle("#lens");
    await hand.drag([cx, cy], [-width / 4, 0]);
    await until(small, "a quarter of the round back", () => /frame 25 of 144/.test(document.querySelector(".whole-bar .instant").textContent));
    await picture(small, `whole-${width}`);
    await hand.tap([cx, cy]);
    await until(small, "it to play", () => document.querySelector(".whole-bar .plays").textContent === "Stand still");
    await hand.press(".whole-bar .plays");
    await until(small, "it to stand", () => document.querySelector(".whole-bar .plays").textContent === "Go round");
    await hand.press(".whole-bar .leaves");
    await until(small, "it to be left", () => !document.querySelector("#seen.whole"));
    noTroubles(small);
    await small.close();
    await own.stop();
  });
}

test("a loop of ten thousand frames is seen at once, and takes no more room than that", async (t) => {
  const own = await Served.start(); // what the tests before have not saved is offered to whoever opens that file
  const text = await readFile(own.shot, "utf8");
  await writeFile(own.shot, text.replace(/^loop\s+= "6 s"/m, `loop = "${LONG} frames"`));
  const long = await open(own);
  const began = Date.now();
  await until(long, "the first picture", () => document.getElementById("lens").dataset.shows);
  t.diagnostic(`first picture of ${LONG} frames after ${Date.now() - began} ms, the page's own start included`);
  const drawn = await until(long, "how far it is drawn", () => /drawing, \d+ of \d+/.test(document.getElementById("seen").dataset.drawing ?? "") || Number(document.getElementById("lens").dataset.frames) > 0);
  assert.equal(drawn, undefined);
  await ready(long);
  await until(long, "the round drawn in parts", () => Number(document.getElementById("lens").dataset.frames) >= 79);
  await focus("#dial", long);
  await long.keyboard.press("End");
  await until(long, "the nearest there is, round the seam", (n) => {
    const away = n - 1 - Number(document.getElementById("lens").dataset.shows.split(" ")[0]);
    return Math.min(away, n - away) <= 64;
  }, LONG);
  await fine(long);
  await click(long, "#play");
  await until(long, "more pictures", (n) => Number(document.getElementById("lens").dataset.frames) >= n, 250);
  const { packed, unpacked } = await long.$eval("#lens", (e) => ({ ...e.dataset }));
  t.diagnostic(`${packed} bytes packed, ${unpacked} unpacked`);
  assert.ok(packed < 50 * MB && unpacked < 40 * MB);
  noTroubles(long);
  await long.close();
  await own.stop();
});

test("the lens fills the screen, by keys and by touch, and Escape leaves", async () => {
  await click(tab, "#whole-screen");
  await until(tab, "the whole screen", () => document.getElementById("seen").classList.contains("whole") && document.getElementById("seen").clientWidth === innerWidth);
  assert.deepEqual(await violations(tab), []);
  await tab.keyboard.press("Home");
  await tab.keyboard.press("ArrowRight");
  await until(tab, "the next frame", () => /frame 1 of 144/.test(document.querySelector(".whole-bar .instant").textContent));
  const at = await tab.$eval("#lens", (e) => ({ x: e.clientWidth / 2, y: e.clientHeight / 2, by: e.clientWidth / 4 }));
  await tab.mouse.move(at.x, at.y);
  await tab.mouse.down();
  await tab.mouse.move(at.x + at.by, at.y, { steps: 4 });
  await tab.mouse.up();
  assert.match(await tab.$eval(".whole-bar .instant", (e) => e.textContent), /frame 37 of 144/, "a quarter of the round on");
  await tab.mouse.click(at.x, at.y);
  await until(tab, "it to play", () => document.querySelector(".whole-bar .plays").textContent === "Stand still");
  await tab.keyboard.press("Space");
  await until(tab, "it to stand", () => document.querySelector(".whole-bar .plays").textContent === "Go round");
  assert.equal(await tab.$eval("#head", (e) => e.inert), true, "nothing behind it can be reached");
  await picture(tab, "whole");
  await tab.keyboard.press("Escape");
  await until(tab, "it to be left", () => !document.querySelector("#seen.whole") && !document.fullscreenElement);
  assert.equal(await tab.$eval("#head", (e) => e.inert), false);
});

test("where nothing may fill the screen it fills the window", async () => {
  await tab.evaluate(() => (document.getElementById("seen").requestFullscreen = undefined));
  await click(tab, "#whole-screen");
  await until(tab, "the window filled", () => document.getElementById("seen").clientHeight === innerHeight);
  await tab.keyboard.press("Escape");
  await until(tab, "it to be left", () => !document.querySelector("#seen.whole"));
  noTroubles(tab);
});

