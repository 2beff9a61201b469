// Where the parts of the page are, at every width, and that nothing jumps.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Served, browser, calm, click, noTroubles, open, picture, ready, still, until } from "./harness.mjs";

const BENCHES = ["moves", "numbers", "rig", "text", "spin", "cues", "sequence", "files", "drive", "film"];
const TARGET = 24, MOVING = 44; // px, WCAG 2.2 criterion 2.5.8; and what moves a rig, criterion 2.5.5

let served;
const tabs = new Map();

/** One page for each width, kept. */
async function at(width, height) {
  if (!tabs.has(width)) tabs.set(width, await ready(await open(served, { width, height })));
  const tab = tabs.get(width);
  await tab.bringToFront();
  return tab;
}

before(async () => {
  served = await Served.start();
});

after(async () => {
  await served.stop();
  await browser.close();
});

const boxes = (tab, selectors) => tab.evaluate((list) => Object.fromEntries(list.map((s) => {
  const { x, y, width, height } = document.querySelector(s).getBoundingClientRect();
  return [s, { x, y, width, height, right: x + width, bottom: y + height }];
})), selectors);

const area = (b) => b.width * b.height;

for (const [width, height] of [[1280, 800], [1024, 768]]) {
  test(`the picture is the largest thing on the page, ${width} wide, on every bench`, async () => {
    const tab = await at(width, height);
    for (const bench of BENCHES) {
      await tab.$eval("#tab-" + bench, (t) => t.click());
      const sizes = await tab.evaluate(() => ["#seen .frame", "#head", "#first", "#plan", "#round", "#transport", "#curves", "#verdicts", "[role=tablist]"].map((s) => {
        const { width, height } = document.querySelector(s).getBoundingClientRect();
        return [s, width * height];
      }));
      const [[, seen], ...others] = sizes;
      assert.deepEqual(others.filter(([, size]) => size >= seen), [], `${bench}: the picture has ${seen}`);
    }
    await tab.$eval("#tab-moves", (t) => t.click());
    assert.equal(await tab.evaluate(() => document.documentElement.scrollHeight), height, "the page itself has nothing to scroll, so that no press can move it");
  });
}

test("at 1280 by 800 all of the loop is in sight, and the picture is the largest thing", async () => {
  const tab = await at(1280, 800);
  const parts = await boxes(tab, ["#head", "#first", "#seen .frame", "#plan", "#round", "#transport", "#curves", "#verdicts", ".bench:not([hidden])", "#notes"].map((s) => s.replace(".bench", "[role=tabpanel]")));
  const frame = parts["#seen .frame"];
  for (const [name, b] of Object.entries(parts)) {
    assert.ok(b.y >= 0 && b.bottom <= 800 && b.right <= 1280, `${name} ends at ${b.right}, ${b.bottom}`);
    if (b !== frame) assert.ok(area(b) < area(frame), `${name} has ${area(b)} px, the picture ${area(frame)}`);
  }
  for (const scrolls of ["#glance", "#curves"]) assert.ok(await tab.$eval(scrolls, (e) => e.scrollHeight <= e.clientHeight + 1), scrolls + " has all in sight");
  assert.ok(parts["#head"].bottom <= parts["#first"].y + 1 && parts["#first"].bottom <= frame.y, "head, headline, picture");
  const plots = await tab.$$eval(".plot", (list) => list.map((p) => p.clientHeight));
  assert.ok(plots.length === 2 && plots.every((h) => h >= 90), "two curves tall enough to drag on: " + plots);
});

test("ten benches are on one line at 1280 and 1024, and on a phone the one at hand is in sight", async () => {
  for (const [width, height] of [[1280, 800], [1024, 768]]) {
    const tab = await at(width, height);
    const line = await tab.$$eval("[role=tab]", (list) => list.map((t) => t.getBoundingClientRect()).map(({ top, right }) => ({ top, right })));
    assert.equal(line.length, BENCHES.length);
    assert.equal(new Set(line.map((t) => t.top)).size, 1);
    assert.ok(await tab.$eval("[role=tablist]", (l) => l.scrollWidth <= l.clientWidth), "without a scroll, " + width);
  }
  const tab = await at(390, 844);
  for (const bench of BENCHES) {
    await tab.$eval("#tab-" + bench, (t) => t.focus());
    await tab.keyboard.press("Enter");
    assert.ok(await tab.$eval("#tab-" + bench, (t) => t.getBoundingClientRect().left >= 0 && t.getBoundingClientRect().right <= innerWidth), bench);
  }
});

test("on a phone the picture stays in sight over the bench, below the buttons of the head", async () => {
  const tab = await at(390, 844);
  await tab.$eval("#tab-moves", (t) => t.click()); // a bench that has much to scroll through
  await tab.evaluate(() => scrollBy(0, document.getElementById("benches").getBoundingClientRect().top + 200));
  await tab.evaluate(() => new Promise(requestAnimationFrame));
  const { "#save": save, "#seen .frame": frame, "[role=tablist]": line } = await boxes(tab, ["#save", "#seen .frame", "[role=tablist]"]);
  assert.ok(save.y >= 0 && save.bottom <= frame.y + 1, "the head is above the picture");
  assert.ok(frame.bottom <= line.y + 8 && line.bottom < 422, "and the benches below it have half of the screen");
  await picture(tab, "layout-390-scrolled");
  await tab.evaluate(() => scrollTo(0, 0));
});

for (const [width, height] of [[1280, 800], [1024, 768], [768, 1024], [640, 400], [390, 844]]) {
  test(`at ${width} nothing is wider than the screen or too small to hit`, async () => {
    const tab = await at(width, height);
    for (const bench of BENCHES) {
      await tab.$eval("#tab-" + bench, (t) => t.click());
      assert.ok(await tab.evaluate(() => document.documentElement.scrollWidth <= innerWidth), bench + " is wider than the screen");
      const small = await tab.evaluate((least, moving) => [...document.querySelectorAll("button, select, summary, a, input, [role=tab]")].filter((e) => e.checkVisibility({ visibilityProperty: true })).map((e) => {
        const box = (e.closest("label") ?? e).getBoundingClientRect();
        const need = e.matches("#stop, #drive-open, #drive-asks button, .hold, #go-frame, #walk") ? moving : least;
        return box.width + 0.5 < need || box.height + 0.5 < need ? `${e.id || e.className || e.textContent} ${box.width.toFixed()}x${box.height.toFixed()}` : "";
      }).filter(Boolean), TARGET, MOVING);
      assert.deepEqual(small.filter((s) => !s.startsWith("skip")), [], bench);
    }
    noTroubles(tab);
  });
}

/** What jumped while f ran, as the browser saw it, those jumps too that follow on a press. What is in the drawings moves because it is dragged or played, which is no jump; and what a choice brings may push what is below it, if that is named. */
async function jumps(tab, f, { above = "" } = {}) {
  await tab.evaluate((above) => {
    window.jumps = [];
    const drawings = ["#curves", "#plan", "#round"].map((s) => document.querySelector(s).getBoundingClientRect());
    const inside = (r) => drawings.some((d) => r.left >= d.left && r.right <= d.right && r.top >= d.top && r.bottom <= d.bottom);
    const end = above ? document.querySelector(above).getBoundingClientRect() : null;
    const left = document.querySelector("#benches").getBoundingClientRect().left;
    /** Below the choice before and after; what was not in sight has no box. */
    const pushed = (s) => end && [s.previousRect, s.currentRect].every((r) => r.width === 0 || (r.top >= end.bottom - 1 && r.left >= left));
    const told = ({ node, previousRect: a, currentRect: b }) => `${node?.id || node?.className || node?.parentElement?.id || node?.nodeName} ${a.x},${a.y} to ${b.x},${b.y}`;
    window.seen = (entries) => {
      for (const e of entries) {
        const what = e.sources.filter((s) => (!inside(s.previousRect) || !inside(s.currentRect)) && !pushed(s)).map(told);
        if (what.length) window.jumps.push(...what);
      }
    };
    window.seeing = new PerformanceObserver((list) => window.seen(list.getEntries()));
    window.seeing.observe({ type: "layout-shift" });
  }, above);
  await f();
  await tab.evaluate(() => new Promise((later) => requestAnimationFrame(() => requestAnimationFrame(later))));
  return tab.evaluate(() => {
    window.seen(window.seeing.takeRecords());
    window.seeing.disconnect();
    return window.jumps;
  });
}

test("a layout-shift is seen where there is one", async () => {
  const tab = await at(1280, 800);
  await click(tab, "#tab-moves");
  const push = (before) => jumps(tab, () => tab.evaluate((before) => document.querySelector(before).before(Object.assign(document.createElement("p"), { className: "pushed", textContent: "pushes" })), before), { above: "#bench-moves select" });
  assert.ok((await push("#first")).length > 0);
  assert.ok((await push('[data-axis="rail"] .field.kind')).length > 0, "a choice that moves itself");
  await tab.$$eval(".pushed", (list) => list.forEach((p) => p.remove()));
});

/** In the middle of what is seen, before anything is measured. */
const toMiddle = (tab, selector) => tab.$eval(selector, (e) => e.scrollIntoView({ block: "center" }));
const pageTop = (tab) => tab.evaluate(() => scrollY + document.documentElement.scrollTop + document.body.scrollTop);

for (const [width, height] of [[1280, 800], [1024, 768], [390, 844]]) {
  test(`nothing jumps, ${width} wide: laws and moves chosen, fields in hand, the wheel, play, a drag, a note, a fault`, async () => {
    const tab = await at(width, height);
    await click(tab, "#tab-moves");
    await tab.evaluate(() => new Promise((later) => setTimeout(later, 600)));
    const quiet = async (what, f, allowed) => {
      await (await tab.$eval("#stale", (e) => e.hidden) ? still : calm)(tab); // what was done before glides to its end
      assert.deepEqual(await jumps(tab, f, allowed), [], what);
    };
    const laws = '.law-field[data-path="axis.rail.law"]';
    const values = await tab.$$eval(laws + " input", (list) => list.map((i) => i.value));
    await toMiddle(tab, laws);
    const stands = await pageTop(tab);
    for (const value of width === 1280 ? [...values, "3-4-5"] : ["uniform", "seven-segment", "3-4-5"]) {
      await quiet("law " + value, async () => {
        await click(tab, `${laws} input[value="${value}"]`);
        await until(tab, "the law", (v) => new RegExp(`^law\\s*=\\s*"${v}"`, "m").test(document.getElementById("text").value), value);
      });
      assert.equal(await pageTop(tab), stands, "the page stays where it is");
    }
    await quiet("fields", async () => {
      for (const field of await tab.$$("#moves .field")) if (await field.evaluate((f) => f.checkVisibility())) {
        await field.hover();
        await field.$eval("input, select", (i) => i.focus({ preventScroll: true }));
      }
    });
    await quiet("the wheel", async () => {
      for (const over of ["#seen", "#dial", ".plot", "#above", "#first"]) {
        await (await tab.$(over)).hover();
        await tab.mouse.wheel({ deltaY: 300 });
      }
    });
    await quiet("play", async () => {
      await click(tab, "#play");
      await tab.evaluate(() => new Promise((later) => setTimeout(later, 300)));
      await click(tab, "#play");
    });
    const kind = '[data-axis="rail"] .field.kind select';
    await toMiddle(tab, kind);
    for (const move of ["hold", "there-and-back"]) {
      const was = await tab.$eval(kind, (e) => e.getBoundingClientRect().top);
      await quiet("it does: " + move, async () => {
        await tab.select(kind, move);
        await until(tab, "the move", (v) => new RegExp(`^move\\s*=\\s*"${v}"`, "m").test(document.getElementById("text").value), move);
      }, { above: kind });
      assert.equal(await tab.$eval(kind, (e) => e.getBoundingClientRect().top), was, "the choice stays where it was made");
    }
    await tab.evaluate(() => scrollTo(0, 0));
    await quiet("a fault in the text", async () => {
      await tab.$eval("#text", (t) => Object.assign(t, { value: t.value.replace("[clock]", "[clock") }).dispatchEvent(new Event("input")));
      await until(tab, "the fault", () => !document.getElementById("stale").hidden);
    });
    assert.ok(await tab.$eval("#stale-words", (e) => { const b = e.getBoundingClientRect(); return e.contains(document.elementFromPoint(b.left + 4, b.top + 4)) && getComputedStyle(e).opacity === "1"; }), "its words lie over the headline");
    await picture(tab, `layout-${width}-fault`);
    await quiet("the fault mended", async () => {
      await tab.$eval("#text", (t) => Object.assign(t, { value: t.value.replace("[clock", "[clock]") }).dispatchEvent(new Event("input")));
      await until(tab, "no fault", () => document.getElementById("stale").hidden);
    });
    await toMiddle(tab, '[data-path="axis.rail.to"]');
    await quiet("a drag too far and back", async () => {
      const box = await (await tab.$('[data-path="axis.rail.to"]')).boundingBox();
      const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
      await tab.mouse.move(x, y);
      await tab.mouse.down();
      await tab.mouse.move(x, y - 120, { steps: 6 });
      await until(tab, "a verdict", () => document.querySelector(".verdict.bad"));
      await picture(tab, `layout-${width}-too-far`);
      await tab.mouse.move(x, y, { steps: 6 });
      await tab.mouse.up();
    });
    await until(tab, "the verdicts in full", () => !document.querySelector("#verdicts[data-glanced], #verdicts[data-older]"));
    await quiet("a note", () => tab.evaluate(async () => (await import(document.querySelector("script[src$='main.js']").src)).say("A note of some length, as one comes.", "fair")));
    noTroubles(tab);
  });
}

for (const [width, height] of [[1280, 800], [1024, 768], [768, 1024], [390, 844]]) {
  test(`the headline, the worst and its cure are read without a scroll, ${width} wide`, async () => {
    const tab = await at(width, height);
    const write = (from, to) => tab.$eval("#text", (t, from, to) => Object.assign(t, { value: t.value.replace(new RegExp(`^to *= *"${from}"`, "m"), `to = "${to}"`) }).dispatchEvent(new Event("input")), from, to);
    const was = await tab.$eval("#text", (t) => /^to *= *"(.*?)"/m.exec(t.value)[1]);
    await write(was, "1490 mm");
    await until(tab, "a cure at hand", () => document.querySelector("#ready.bad > .fit"));
    await picture(tab, `layout-${width}-headline`);
    const cut = await tab.evaluate(() => {
      const room = document.getElementById("first").getBoundingClientRect();
      return [...document.querySelectorAll("#ready, #ready > *")].filter((e) => {
        const box = e.getBoundingClientRect();
        return e.scrollHeight > e.clientHeight + 1 && getComputedStyle(e).display !== "inline" || box.bottom > room.bottom + 1 || box.top < room.top;
      }).map((e) => `${e.id || e.className} ${e.scrollHeight} in ${e.clientHeight}`);
    });
    assert.deepEqual(cut, []);
    const [words, worst] = await tab.$$eval("#ready > .words, #ready > .worst", (list) => list.map((e) => e.getBoundingClientRect().toJSON()));
    assert.ok(words.right <= worst.left + 1 || words.bottom <= worst.top + 1, "one beside the other, or below");
    const sum = await tab.$eval("#verdict-sum", (e) => [e.scrollWidth, e.clientWidth]);
    assert.ok(sum[0] <= sum[1], `all the counts have room: ${sum}`);
    await write("1490 mm", was);
    await until(tab, "nothing wrong", () => !document.querySelector("#ready.bad"));
    noTroubles(tab);
  });
}

test("whatever axis it is of, the law at hand is in sight as its picker is", async () => {
  for (const [width, height] of [[1280, 800], [390, 844]]) {
    const tab = await at(width, height);
    await tab.$eval("#tab-moves", (t) => t.click());
    const hidden = await tab.$$eval(".law-field", (list) => list.filter((f) => f.querySelector(":checked")).map((f) => {
      f.scrollIntoView({ block: "center" });
      const room = f.querySelector(".laws"), chosen = f.querySelector(":checked").closest("label");
      const box = chosen.getBoundingClientRect();
      return room.scrollHeight > room.clientHeight || !chosen.contains(document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2)) ? f.dataset.path : "";
    }).filter(Boolean));
    assert.deepEqual(hidden, []);
    assert.ok((await tab.$$(".law-field :checked")).length >= 2);
  }
});
