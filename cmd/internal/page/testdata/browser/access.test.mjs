// The page by the keyboard alone, for a screen reader, and for who wants nothing
// to move by itself.
import assert from "node:assert/strict";
import { test } from "node:test";
import { aTabEach, click, open, picture, ready, until, violations } from "./harness.mjs";

const BENCHES = ["moves", "numbers", "rig", "text", "spin", "cues", "sequence", "files", "drive", "film"];
const ALL = ["minor", "moderate", "serious", "critical"]; // impacts

let served, tab;

aTabEach((s) => (served = s), () => tab);

/** Whether anything is wider than the page. */
const wide = (on) => on.evaluate(() => document.documentElement.scrollWidth > innerWidth);

for (const [width, height] of [[1280, 800], [768, 1024], [390, 844]]) {
  test(`axe-core finds nothing on any bench, ${width} wide, and nothing is cut off`, async () => {
    tab = await ready(await open(served, { width, height }));
    for (const bench of BENCHES) {
      await click(tab, "#tab-" + bench);
      assert.deepEqual(await violations(tab, ALL), [], bench);
      assert.ok(!(await wide(tab)), bench + " is wider than the screen");
      await picture(tab, `bench-${bench}-${width}`);
    }
  });
}

for (const [width, height] of [[1280, 800], [480, 900]]) {
  test(`the guide: axe-core finds nothing serious in any chapter, ${width} wide, and nothing is cut off`, async () => {
    tab = await ready(await open(served, { width, height }));
    const first = await tab.$eval("#guide", (a) => a.href);
    await tab.goto(first);
    const all = await tab.$$eval("nav a", (list) => list.map((a) => a.href));
    assert.ok(all.length > 8);
    for (const chapter of all) {
      await tab.goto(chapter);
      assert.deepEqual(await violations(tab), [], chapter);
      assert.ok(!(await wide(tab)), chapter + " is wider than the screen");
      assert.equal(await tab.evaluate(() => document.querySelectorAll("h1").length), 1);
    }
    await picture(tab, `guide-${width}`);
    await tab.goto(first);
    await tab.keyboard.press("Tab");
    assert.equal(await tab.evaluate(() => document.activeElement.className), "skip");
    await tab.keyboard.press("Enter");
    assert.equal(await tab.evaluate(() => location.hash), "#chapter");
  });
}

test("the guide is not a click away while a rig is driven, since this page would be out of sight", async () => {
  tab = await ready(await open(served));
  const shown = () => tab.$eval("#guide", (a) => a.checkVisibility());
  assert.ok(await shown());
  await tab.$eval("#stop", (b) => (b.hidden = false));
  assert.ok(!(await shown()));
});

test("the keyboard reaches everything, and what it has reached is seen", async () => {
  tab = await ready(await open(served));
  const all = await tab.evaluate(() => {
    const sought = [...document.querySelectorAll("button, input, select, textarea, summary, [role=slider], [role=button], [role=tab]")]
      .filter((e) => e.checkVisibility() && !e.disabled && e.tabIndex >= 0 && !(e.type === "radio" && !e.checked));
    // What shows the focus is on the element, on its mark in a drawing, or on its label.
    window.looksOf = (e) => [e, e.querySelector("circle"), e.closest("label")].filter(Boolean).map((x) => getComputedStyle(x))
      .map((s) => [s.outline, s.boxShadow, s.borderColor, s.backgroundColor, s.stroke, s.strokeWidth].join()).join();
    sought.forEach((e, i) => Object.assign(e.dataset, { sought: i, looks: window.looksOf(e) }));
    return sought.length;
  });
  assert.ok(all > 30);
  const reached = new Set();
  const unseen = [];
  for (let presses = 0; presses < all * 2 && reached.size < all; presses++) {
    await tab.keyboard.press("Tab");
    const at = await tab.evaluate(() => {
      const e = document.activeElement;
      return { sought: e.dataset.sought, shown: window.looksOf(e) !== e.dataset.looks, what: e.id || e.dataset.path || e.textContent.slice(0, 20) };
    });
    if (at.sought === undefined) continue;
    reached.add(at.sought);
    if (!at.shown) unseen.push(at.what);
  }
  const missed = await tab.evaluate((got) => [...document.querySelectorAll("[data-sought]")].filter((e) => !got.includes(e.dataset.sought)).map((e) => e.outerHTML.slice(0, 90)), [...reached]);
  assert.deepEqual(missed, []);
  assert.deepEqual(unseen, [], "these have the focus and do not show it");
});

test("everything that takes the focus has a name", async () => {
  tab = await ready(await open(served));
  const tree = await tab.accessibility.snapshot({ interestingOnly: false });
  const nameless = [];
  const walk = (n) => {
    if (["button", "slider", "textbox", "combobox", "tab", "radio", "checkbox", "spinbutton", "searchbox"].includes(n.role) && !n.name) nameless.push(n.role + " " + (n.value ?? ""));
    n.children?.forEach(walk);
  };
  walk(tree);
  assert.deepEqual(nameless, []);
});

test("the arrow keys go by the frame, and Home holds the seam", async () => {
  tab = await ready(await open(served));
  const frame = () => tab.$eval("#now", (e) => Number(e.dataset.frame));
  await tab.evaluate(() => document.activeElement.blur());
  await tab.keyboard.press("Home");
  assert.equal(await frame(), 0);
  await tab.keyboard.press("ArrowRight");
  await tab.keyboard.press("ArrowRight");
  assert.equal(await frame(), 2);
  await tab.keyboard.press("ArrowLeft");
  assert.equal(await frame(), 1);
  await tab.keyboard.press("ArrowLeft");
  await tab.keyboard.press("ArrowLeft");
  assert.equal(await frame(), 143, "over the seam");
});

/** How far the playhead moves while the page is left alone, in frames. */
async function moved(on) {
  const frame = () => on.$eval("#now", (e) => Number(e.dataset.frame));
  const was = await frame();
  await new Promise((later) => setTimeout(later, 400));
  return Math.abs((await frame()) - was);
}

test("nothing moves by itself where less motion is asked for, and otherwise it does", async () => {
  const asked = [["no-preference", true], ["reduce", false]];
  for (const [value, moves] of asked) {
    tab = await open(served, { features: [{ name: "prefers-reduced-motion", value }] });
    await until(tab, "the first plan", () => document.body.classList.contains("ready"));
    assert.equal((await moved(tab)) > 0, moves, value);
    const running = await tab.evaluate(() => document.getAnimations().filter((a) => a.playState === "running").length);
    if (!moves) assert.equal(running, 0);
    if (moves) await tab.close();
  }
});
