// The headline and the list of verdicts: what does not hold is said first, and what would
// mend it is pressed.
import assert from "node:assert/strict";
import { execFile } from "node:child_process";
import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { promisify } from "node:util";
import { Hand, Served, WINDOWS, browser, calm, click, level, noTroubles, open, picture, ready, still, takeHold, until, violations } from "./harness.mjs";

const run = promisify(execFile);
let served, tab, good;

before(async () => {
  served = await Served.start();
  good = await served.text();
  tab = await ready(await open(served));
});

after(async () => {
  await served?.stop();
  await browser.close();
});

/** Has the page plan another text. */
async function plan(text) {
  await tab.$eval("#text", (t, text) => {
    t.value = text;
    t.dispatchEvent(new Event("input", { bubbles: true }));
  }, text);
}

/** The shot with other values at keys that are in it once. */
function withValues(values, more = "") {
  let text = good;
  for (const [key, to] of Object.entries(values)) {
    const at = new RegExp(`^${key}( *)= *("[^"]*"|[0-9.]+)`, "m");
    assert.match(text, at, key);
    text = text.replace(at, `${key}$1= "${to}"`);
  }
  return text + more;
}

const row = (name, state = "") => `#verdict-list .verdict${state}[data-name="${name}"]`;

/** Presses a cure of a text; again, where what the controller makes of it came in above meanwhile and moved it away. */
async function pressed(cure, text) {
  const written = () => tab.waitForFunction((text) => document.getElementById("text").value !== text, { timeout: 3000 }, text).then(() => true, () => false);
  for (let tries = 3; tries > 0; tries--) {
    await still(tab);
    await click(tab, cure);
    if (await written()) return;
  }
}

/** Breaks a check, presses its first cure, and waits until it holds. */
async function broken(name, text) {
  await plan(text);
  await until(tab, name + " to break", (s) => document.querySelector(s), row(name, ".bad") + " button.fit");
  assert.equal(await level(tab), "bad");
  await picture(tab, "cures-" + name.replaceAll(" ", "-"));
  await pressed(row(name, ".bad") + " button.fit", text);
  await until(tab, name + " to hold again", (s) => !document.querySelector(s), row(name, ".bad"));
  assert.notEqual(await tab.$eval("#text", (t) => t.value), text, "the cure is written");
  await plan(good);
  await until(tab, "the shot as it was", (s) => !document.querySelector(s), "#verdict-list .verdict.bad");
}

test("what holds is one word, what is not known another, and both stay as they are left", async () => {
  await until(tab, "what the controller makes of it", () => document.querySelector("#fold-good .verdict[data-name=controller]"));
  const folds = await tab.$$eval(".fold", (all) => all.map((b) => [b.textContent, b.getAttribute("aria-expanded")]));
  assert.match(folds[0][0], /^\u25cf \d+ hold$/);
  assert.match(folds[1][0], /^\u25cb \d+ not known$/);
  assert.deepEqual(folds.map((f) => f[1]), ["false", "false"]);
  const before = await tab.$eval(".fold", (b) => b.getBoundingClientRect().top);
  await click(tab, ".fold.good");
  assert.equal(await tab.$eval(".fold", (b) => b.getBoundingClientRect().top), before, "what is above does not move");
  await until(tab, "what holds to be shown", () => document.querySelector("#fold-good .verdict").checkVisibility());
  await plan(withValues({ aperture: "f/4" }));
  await until(tab, "another plan", () => document.getElementById("ready").className === "bad");
  assert.equal(await tab.$eval("#fold-good", (l) => l.hidden), false);
  const again = await tab.browserContext().newPage();
  await again.goto(served.address);
  await until(again, "the list", () => document.querySelector(".fold.good")?.getAttribute("aria-expanded") === "true");
  await again.close();
  await click(tab, ".fold.good");
  await plan(good);
  await until(tab, "the shot as it was", () => !document.querySelector("#verdict-list .verdict.bad"));
});

test("a limit that is broken is mended by its cure", () => broken("speed", withValues({ to: "260 mm" })));
test("focus is mended by its cure", () => broken("focus", withValues({ aperture: "f/13", iso: "1250" })));
test("light is mended by its cure", () => broken("light", withValues({ iso: "640" })));
test("smear is mended by its cure", () => broken("smear", withValues({}, "\n[picture]\nsoft-smear = 1\n")));
test("one hand for two things is mended by its cure", () => broken("clash of petal and the dimmer of rim", withValues({}, `
[[scene.lamps]]
name = "rim"
by = "hand"
hand = "left"
fade = { from = "0 %", to = "85 %" }

[[cue]]
name = "petal"
hand = "left"
beats = 0
reaction = "0 s"
leaves = "nothing"
at = "30 frames"
`)));

test("the headline tells the worst, and its button mends that", async () => {
  await plan(withValues({ loop: "3 s", iso: "640" }));
  await until(tab, "the headline", () => document.querySelector("#ready.bad button.fit"));
  assert.match(await tab.$eval("#ready .said", (e) => e.textContent), /^NOT READY\. The move asks for more than the rig can do/);
  assert.match(await tab.$eval("#ready .worst", (e) => e.textContent), /^rail: how fast it goes: /);
  await click(tab, "#ready button.fit");
  await until(tab, "the limits to be kept", () => /^READY, BUT\./.test(document.querySelector("#ready .said").textContent));
  assert.equal(await level(tab), "bad", "it is not green while the picture is not as it should be");
  for (let left = 6; left > 0 && (await level(tab)) === "bad"; left--) {
    await still(tab); // a cure of the text before is written already
    await until(tab, "a cure, or none to be needed", () => !document.querySelector("#ready.bad") || document.querySelector("#ready.bad button.fit"));
    if ((await level(tab)) === "bad") await pressed("#ready.bad button.fit", await tab.$eval("#text", (t) => t.value));
  }
  assert.notEqual(await level(tab), "bad", await tab.$eval("#ready", (e) => e.textContent));
  await plan(good);
});

test("a text with faults says so first, and dims what is drawn", async () => {
  await plan(good.replace("aperture", "apreture"));
  await until(tab, "the fault", () => !document.getElementById("stale").hidden);
  assert.match(await tab.$eval("#stale-words", (e) => e.textContent), /^The text has a fault: line \d+: .*the last plan that could be made\.$/);
  assert.ok(Number(await tab.$eval("#seen", (e) => getComputedStyle(e).opacity)) < 1);
  await picture(tab, "cures-fault");
  assert.deepEqual(await tab.$$eval("#faults .fit", (all) => all.map((b) => b.textContent)), ['"aperture" in place of apreture', "without apreture"]);
  await click(tab, "#stale-cure");
  await until(tab, "no fault", () => document.getElementById("stale").hidden);
  assert.equal(await tab.$eval("#text", (t) => t.value), good, "the key is put right, and nothing else changes");
});

test("nothing jumps while something is dragged", async () => {
  await plan(good);
  await until(tab, "the shot as it was", () => !document.querySelector("#verdict-list .verdict.bad"));
  const order = () => tab.$$eval("#verdict-list > .verdict", (all) => all.map((r) => r.dataset.name));
  const first = await order();
  const [x, y] = await takeHold(tab, "axis.rail.to");
  await tab.mouse.move(x, y - 170, { steps: 6 });
  await until(tab, "a limit to break", () => document.querySelector("#verdict-list > .verdict.bad"));
  assert.deepEqual((await order()).slice(0, first.length), first, "rows keep their places");
  await tab.mouse.up();
  await until(tab, "the worst first", () => document.querySelector("#verdict-list > .verdict").classList.contains("bad"));
  await plan(good);
});

for (const { width, height, touch } of WINDOWS.slice(1)) {
  test(`${width} wide, by ${touch ? "touch" : "mouse"}: the worst is said first and mended by a button, so is what the list says, and a fault`, async () => {
    const own = await Served.start();
    const wide = tab;
    try {
      tab = await ready(await open(own, { width, height, touch }));
      const hand = await Hand.on(tab);
      const written = (was) => until(tab, "the cure to be written", (was) => document.getElementById("text").value !== was, was);
      const mends = async (text, cure, gone) => {
        await plan(text);
        await until(tab, "the cure", (s) => document.querySelector(s), cure);
        await (cure === "#stale-cure" ? calm : still)(tab); // a text with a fault is drawn nowhere
        await hand.press(cure);
        await written(text);
        await until(tab, "it to hold", (s) => !document.querySelector(s), gone);
      };
      await plan(withValues({ loop: "3 s", iso: "640" }));
      await until(tab, "the headline", () => document.querySelector("#ready.bad button.fit"));
      await still(tab);
      assert.match(await tab.$eval("#ready .said", (e) => e.textContent), /^NOT READY\. The move asks for more than the rig can do/);
      assert.match(await tab.$eval("#ready .worst", (e) => e.textContent), /^rail: how fast it goes: /);
      await tab.evaluate(() => scrollTo(0, 0));
      await picture(tab, `cures-headline-${width}`);
      await hand.press("#ready .worst", { stays: true });
      await until(tab, "its row", () => document.querySelector('#verdict-list .verdict.now[data-name="speed"]'));
      await tab.evaluate(() => scrollTo(0, 0));
      await hand.press("#ready button.fit", { stays: true });
      await until(tab, "the limits to be kept", () => /^READY, BUT\./.test(document.querySelector("#ready .said").textContent));
      await mends(withValues({ aperture: "f/13", iso: "1250" }), row("focus", ".bad") + " button.fit", row("focus", ".bad"));
      await picture(tab, `cures-list-${width}`);
      await mends(good.replace("aperture", "apreture"), "#stale-cure", "#stale:not([hidden])");
      assert.equal(await tab.$eval("#text", (t) => t.value), good);
      noTroubles(tab);
    } finally {
      await tab.close();
      tab = wide;
      await own.stop();
    }
  });
}

test("a stand that does not come round is mended by its cure", async () => {
  const other = await Served.start();
  try {
    await run(process.env.SEAMRAIL_PROGRAM, ["new", "display-stand", other.folder, "--force"]);
    const shot = await readFile(join(other.folder, "display-stand.toml"), "utf8");
    await writeFile(other.shot, shot.replace(/^(loop *= *)"[^"]*"/m, '$1"350 frames"'));
    const stand = await ready(await open(other));
    const closing = '#verdict-list .verdict.bad[data-name^="closing of"]';
    await until(stand, "the stand to come round elsewhere", (s) => document.querySelector(s), closing + " button.fit");
    await picture(stand, "cures-closing");
    await click(stand, closing + " button.fit");
    await until(stand, "the stand to close", (s) => !document.querySelector(s), closing);
    noTroubles(stand);
  } finally {
    await other.stop();
  }
});

test("axe-core finds nothing serious, and nothing was thrown", async () => {
  assert.deepEqual(await violations(tab), []);
  noTroubles(tab);
});
