// The page under fingers: a swipe scrolls, and what can be moved takes the finger.
import assert from "node:assert/strict";
import { test } from "node:test";
import { aTabEach, open, picture, ready, until } from "./harness.mjs";

let served, tab, hand;

aTabEach((s) => (served = s), () => tab);

async function touched(width, height) {
  tab = await ready(await open(served, { width, height, touch: true }));
  hand = await tab.createCDPSession();
}

const touch = (type, ...points) => hand.send("Input.dispatchTouchEvent", { type, touchPoints: points.map(([x, y], id) => ({ x, y, id })) });

/** Each finger goes from its place by so much, in steps. */
async function swipe(from, by, during) {
  const steps = 8;
  await touch("touchStart", ...from);
  for (let i = 1; i <= steps; i++) await touch("touchMove", ...from.map(([x, y], k) => [x + (by[k][0] * i) / steps, y + (by[k][1] * i) / steps]));
  await during?.();
  await touch("touchEnd");
}

async function tap(at) {
  await touch("touchStart", at);
  await touch("touchEnd");
}

/** The middle of something, brought well into sight first. */
async function middle(selector) {
  await tab.$eval(selector, (e) => e.scrollIntoView({ block: "center" }));
  const box = await tab.$eval(selector, (e) => (e.querySelector(".target") ?? e).getBoundingClientRect().toJSON());
  return [box.x + box.width / 2, box.y + box.height / 2];
}

/** A place in a drawing where nothing is that takes the finger. */
async function bare(selector) {
  await middle(selector);
  const at = await tab.$eval(selector, (svg) => {
    const box = svg.getBoundingClientRect();
    for (let y = box.top + 40; y < box.bottom - 40; y += 12) {
      for (let x = box.left + 20; x < box.right - 20; x += 12) {
        const near = [...svg.querySelectorAll(".grip .target")].some((g) => {
          const b = g.getBoundingClientRect();
          return Math.hypot(b.x + b.width / 2 - x, b.y + b.height / 2 - y) < 40;
        });
        if (!near && svg.contains(document.elementFromPoint(x, y))) return [x, y];
      }
    }
    return null;
  });
  assert.ok(at, selector + " has a place that takes no finger");
  return at;
}

const frame = () => tab.$eval("#now", (e) => Number(e.dataset.frame));
/** How far down the page is, with all in it that scrolls by itself. */
const scrolled = () => tab.evaluate(() => ["glance", "curves"].reduce((sum, id) => sum + document.getElementById(id).scrollTop, scrollY));
const moved = (was, what) => until(tab, "the page to scroll under " + what, (was) => Math.abs(["glance", "curves"].reduce((sum, id) => sum + document.getElementById(id).scrollTop, scrollY) - was) > 10, was);
const text = () => tab.$eval("#text", (t) => t.value);
/** Waits until a part has stood where it is for some frames: a swipe that has let go glides on, longer where the computer is busy, and what is pressed then is not what was aimed at. */
const settled = (selector) => tab.evaluate((selector) => new Promise((stands) => {
  let was = "", same = 0;
  const look = () => {
    const { x, y, width, height } = document.querySelector(selector).getBoundingClientRect();
    const now = [x, y, width, height, document.querySelector("#seen").dataset.drawing].join();
    same = now === was ? same + 1 : 0;
    was = now;
    if (same < 12) requestAnimationFrame(look);
    else stands();
  };
  look();
}), selector);

for (const [width, height] of [[1280, 560], [1024, 768], [768, 1024], [390, 844]]) {
  test(`${width} wide: a swipe over curves, dial and the view from above scrolls; handles, grips and the strip of time take the finger`, async () => {
    await touched(width, height);
    const plain = await text();
    for (const what of ["#curves .curve:last-child .u-over", "#above", "#dial"]) {
      const [x, y] = what === "#above" ? await bare(what) : await middle(what);
      const at = what.startsWith("#curves") ? [x + 30, y] : [x, y];
      const [was, before] = [await scrolled(), Math.floor(await frame())]; // it may yet come to rest on its frame
      await swipe([at], [[0, was > 30 ? 60 : -60]]);
      await moved(was, what);
      assert.equal(Math.floor(await frame()), before, what + ": the playhead stays");
    }
    assert.equal(await text(), plain, "and nothing is changed");

    await middle(".curve .u-over");
    await settled(".curve .u-over");
    const over = await middle(".curve .u-over");
    const wide = await tab.$eval(".curve .u-over", (e) => e.clientWidth);
    const from = [over[0] - wide * 0.2, over[1]]; // a fingertip away from every handle, however low the curve
    await tab.evaluate(() => (window.taken = 0, addEventListener("pointercancel", () => window.taken++, true)));
    await swipe([from], [[90, 2]]);
    const scrubbed = await frame();
    assert.ok(scrubbed > 40, `scrubbed to ${scrubbed}, taken away ${await tab.evaluate(() => window.taken)} times by the browser, page at ${await scrolled()}`);
    await tap(from);
    assert.ok((await frame()) < scrubbed, "a tap takes the playhead there");

    // A fingertip beside the handle's middle still has it, and the page stays.
    await middle('.handle[data-path="axis.rail.to"]');
    await settled('.handle[data-path="axis.rail.to"]');
    const to = await middle('.handle[data-path="axis.rail.to"]');
    const was = await scrolled();
    await swipe([[to[0] + 9, to[1] - 8]], [[0, -24]], async () => {
      await until(tab, "the value beside the finger", () => /mm, .* on screen/.test(document.querySelector(".curve .tip:not([hidden])")?.textContent ?? ""));
      const tip = await tab.$eval(".curve .tip", (t) => t.getBoundingClientRect().toJSON());
      const finger = to[0] + 9;
      assert.ok(tip.left > finger + 20 || tip.right < finger - 20, "not under it");
    });
    await until(tab, "the value", () => !/^to *= *"100 mm"/m.test(document.getElementById("text").value));
    assert.equal(await scrolled(), was);

    const lamp = await middle(".grip.lamp");
    const label = await tab.$eval(".grip.lamp", (g) => g.getAttribute("aria-label"));
    const place = await scrolled();
    await swipe([lamp], [[-10, 14]]);
    await until(tab, "the lamp elsewhere", (label) => document.querySelector(".grip.lamp").getAttribute("aria-label") !== label, label);
    assert.equal(await scrolled(), place);
    await picture(tab, `touch-${width}`);
    assert.ok(await tab.evaluate(() => document.documentElement.scrollWidth <= innerWidth));
  });
}

test("two fingers on a curve bring all of them nearer, and further away again", async () => {
  await touched(1024, 768);
  await settled(".curve .u-over");
  const across = () => tab.evaluate(() => {
    const left = (path) => parseFloat(document.querySelector(`[data-path="${path}"]`).style.left);
    return left("axis.rail.dwell-far") - left("axis.rail.to");
  });
  const [x, y] = await middle(".curve .u-over");
  const [was, page, wide] = [await across(), await scrolled(), await tab.evaluate(() => visualViewport.scale)];
  await swipe([[x - 40, y], [x + 40, y + 6]], [[-80, 0], [80, 0]]);
  await until(tab, "the curves nearer", (was) => {
    const left = (path) => parseFloat(document.querySelector(`[data-path="${path}"]`).style.left);
    return left("axis.rail.dwell-far") - left("axis.rail.to") > 2 * was;
  }, was);
  assert.match(await tab.$eval(".span-bar", (b) => b.getAttribute("aria-valuetext")), /^frames/);
  assert.equal(await scrolled(), page, "the page stays");
  assert.equal(await tab.evaluate(() => visualViewport.scale), wide, "and is no larger");
  await swipe([[x - 150, y], [x + 150, y + 6]], [[130, 0], [-130, 0]]);
  await until(tab, "the whole round", () => document.querySelector(".span-bar").classList.contains("whole"));
});
