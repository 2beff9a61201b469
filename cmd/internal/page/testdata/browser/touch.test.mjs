// The page under fingers: a swipe scrolls, and what can be moved takes the finger.
import assert from "node:assert/strict";
import { after, before, describe, test } from "node:test";
import { Hand, Served, browser, noTroubles, open, picture, ready, still, until } from "./harness.mjs";

let served, tab, hand;

after(() => browser.close());

const touch = (type, ...points) => hand.fingers(type, ...points);

/** Each finger goes from its place by so much, in steps. */
async function swipe(from, by, during) {
  const steps = 8;
  await touch("touchStart", ...from);
  for (let i = 1; i <= steps; i++) await touch("touchMove", ...from.map(([x, y], k) => [x + (by[k][0] * i) / steps, y + (by[k][1] * i) / steps]));
  await during?.();
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

for (const [width, height] of [[1280, 560], [1024, 768], [768, 1024], [390, 844]]) describe(`${width} wide`, () => {
  before(async () => {
    served = await Served.start(); // each has its own: what is not saved would be offered to the next
    tab = await ready(await open(served, { width, height, touch: true }));
    hand = await Hand.on(tab);
  });

  after(async () => {
    noTroubles(tab);
    await tab.close();
    await served.stop();
  });

  test(`a swipe over curves, dial and the view from above scrolls; handles, grips and the strip of time take the finger`, async () => {
    const plain = await text();
    for (const what of ["#curves .curve:last-child .u-over", "#above", "#dial"]) {
      const [x, y] = what === "#above" ? await bare(what) : await middle(what);
      const at = what.startsWith("#curves") ? [x + 30, y] : [x, y];
      const [was, before] = [await scrolled(), await frame()];
      await swipe([at], [[0, was > 30 ? 60 : -60]]);
      await moved(was, what);
      assert.equal(await frame(), before, what + ": the playhead stays");
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
    await hand.tap(from);
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

  if (width === 1024 || width === 390) test("two fingers on a curve bring all of them nearer, and further away again", async () => {
    await tab.$eval("#undo", (b) => b.click());
    await middle(".curve .u-over");
    await settled(".curve .u-over");
    const across = () => tab.evaluate(() => {
      const left = (path) => parseFloat(document.querySelector(`[data-path="${path}"]`).style.left);
      return left("axis.rail.dwell-far") - left("axis.rail.to");
    });
    const [x, y] = await middle(".curve .u-over");
    const [was, page, wide] = [await across(), await scrolled(), await tab.evaluate(() => visualViewport.scale)];
    await swipe([[x - 30, y], [x + 30, y + 6]], [[-70, 0], [70, 0]]);
    await until(tab, "the curves nearer", (was) => {
      const left = (path) => parseFloat(document.querySelector(`[data-path="${path}"]`).style.left);
      return left("axis.rail.dwell-far") - left("axis.rail.to") > 2 * was;
    }, was);
    assert.match(await tab.$eval(".span-bar", (b) => b.getAttribute("aria-valuetext")), /^frames/);
    assert.equal(await scrolled(), page, "the page stays");
    assert.equal(await tab.evaluate(() => visualViewport.scale), wide, "and is no larger");
    await swipe([[x - 120, y], [x + 120, y + 6]], [[100, 0], [-100, 0]]);
    await until(tab, "the whole round", () => document.querySelector(".span-bar").classList.contains("whole"));
  });

  if (width === 1024 || width === 390) test("two taps put a key on a curve; buttons and the strip of time bring the curves nearer and along; the product goes with the finger", async () => {
    const keys = () => tab.$$eval(".handle.key", (all) => all.map((h) => h.getBoundingClientRect()).map((r) => [r.x + r.width / 2, r.y + r.height / 2]).sort((a, b) => a[0] - b[0]));
    await hand.press("#tab-moves");
    await hand.choose("fieldset[data-axis=rail] .field.kind select", "keys");
    await until(tab, "keys on the rail's curve", () => document.querySelectorAll(".handle.key").length > 1);
    await middle(".curve .u-over");
    await still(tab);
    const first = await keys();
    const [a, b] = first.slice(1).map((p, i) => [first[i], p]).sort(([a, b], [c, d]) => d[0] - c[0] - (b[0] - a[0]))[0];
    const spot = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
    await hand.tap(spot, 2);
    await until(tab, "a key more", (n) => document.querySelectorAll(".handle.key").length === n && !document.body.classList.contains("is-stale"), first.length + 1);
    await still(tab);
    assert.ok((await keys()).some(([x]) => Math.abs(x - spot[0]) < 6), "under the finger");
    await picture(tab, `touch-${width}-key`);

    await hand.press("[aria-label='Curves nearer']");
    await still(tab);
    assert.match(await tab.$eval(".span-bar", (b) => b.getAttribute("aria-valuetext")), /^frames/);
    const was = await keys();
    await hand.drag(await hand.middle(".curve .u-axis"), [40, 0]);
    assert.ok(Math.abs((await keys())[1][0] - was[1][0] - 40) < 3, `along with the finger: ${was} became ${await keys()}`);
    await hand.press(".span-strip button:last-child");
    await until(tab, "the whole round", () => document.querySelector(".span-bar").classList.contains("whole"));

    const product = await hand.middle(".grip.product");
    await hand.drag(product, [24, -12], async ([x, y]) => {
      await until(tab, "what it is now, beside the finger", () => /mm from the lens/.test(document.querySelector("#plan .tip:not([hidden])")?.textContent ?? ""));
      await until(tab, "the product under the finger", (x, y) => {
        const box = document.querySelector(".grip.product .target").getBoundingClientRect();
        return Math.hypot(box.x + box.width / 2 - x, box.y + box.height / 2 - y) < 3;
      }, x, y);
      const [tip, room] = await tab.$$eval("#plan .tip, #plan", (list) => list.map((e) => e.getBoundingClientRect().toJSON()).sort((a, b) => a.width - b.width));
      assert.ok((tip.left > x + 10 || tip.right < x - 10 || tip.bottom < y || tip.top > y) && tip.left >= 0 && tip.right <= room.right + 1, `not under it: ${JSON.stringify(tip)}, the finger at ${x}, ${y}`);
      await picture(tab, `touch-${width}-product`);
    });
    await until(tab, "the numbers", () => /^aside *= *"-?[1-9]/m.test(document.getElementById("text").value));
    if (width < 700) { // whatever would do, tried or not, stands below the words, which have the whole line
      await until(tab, "what would do", () => document.querySelector("#ready > :is(.fit, .untried, .by-hand)"));
      const [words, cure] = await tab.$$eval("#ready > .words, #ready > :is(.fit, .untried, .by-hand)", (list) => list.map((e) => e.getBoundingClientRect().toJSON()));
      assert.ok(words.bottom <= cure.top + 1 && words.width > 0.8 * width, JSON.stringify([words, cure]));
    }
  });
});
