// An axis of the rig made of software is moved by hand from the page: held, let go of in
// every way there is, marked, and shown frame by frame. Where the rig is and whether it
// moves is what the engine says, with the times at which the page heard it.
import assert from "node:assert/strict";
import { after, before, describe, test } from "node:test";
import { Hand, Served, WINDOWS, browser, click, noTroubles, open, picture, reach, ready, until, value, violations } from "./harness.mjs";

// RESTS is how long after the last word of the page the rig may move on, in ms, as the
// program has it: 200 where that was no release, the engine's 20, the braking at the
// greatest speed, and a busy computer, which was seen to take 554. SEEN is how much later at most the page shows it.
const RESTS = 1000, SEEN = 6000;

let served, tab;

/** Takes the rig in hand on a page of its own, and homes it, which takes seconds. */
async function inHand(size) {
  served = await Served.start();
  tab = await ready(await open(served, size));
  await click(tab, "#tab-drive");
  await tab.select("#port", "virtual");
  await click(tab, "#drive-open");
  await reach(tab, "position unknown");
  assert.ok(await unfolded(), "the cautions are open before anything moves");
  assert.ok(await tab.$eval("#cautions", (e) => e.getBoundingClientRect().bottom <= document.getElementById("byhand").getBoundingClientRect().top), "and above what moves it");
  await click(tab, "#drive-home");
  await reach(tab, "ready");
  assert.ok(await unfolded(), "nothing has jumped");
  await tab.select("#byhand-speed", await tab.$eval("#byhand-speed", (s) => s.lastElementChild.value));
}

async function letGo() {
  await tab.close().catch(() => {}); // some tests close it themselves
  await served.stop();
}

after(() => browser.close());

const moves = (on) => until(on, "the axis to move", () => document.getElementById("held-words").dataset.moving === "true" && /[1-9]/.test(document.getElementById("held-words").textContent));
const rests = (on) => until(on, "the axis to rest", () => document.getElementById("held-words").dataset.moving === "false");
const place = (on) => on.$eval("#live td", (e) => e.textContent);

/** Waits until it rests, says how long that took, and that nothing moves from then on. */
async function stops(on, how, most = RESTS) {
  const from = performance.now();
  await rests(on);
  const seen = performance.now() - from, took = 1000 * await on.$eval("#held-words", (e) => Number(e.dataset.after));
  console.log(`${how}: it rests ${took.toFixed(0)} ms after the last word of the page, seen after ${seen.toFixed(0)} ms`);
  assert.ok(took > 0 && took < most && seen < SEEN, `${how}: ${took} ms, seen after ${seen} ms`);
  const was = await place(on);
  await new Promise((later) => setTimeout(later, 300));
  assert.equal(await place(on), was, how + ": it rests for good");
}

/** Whether the cautions can be read, every one. */
const unfolded = () => tab.$$eval("#caution-list li", (list) => list.length > 0 && list.every((li) => li.checkVisibility()));

/** Puts the pointer down on a hold button, and leaves it there. */
async function press(on, id) {
  const hand = await Hand.on(on);
  await hand.down(await hand.middle(id));
}

/** Whether the beginning of an element is what is seen there. */
const seen = (on, s) => on.$eval(s, (e) => {
  const r = e.getBoundingClientRect();
  return e.contains(document.elementFromPoint(r.left + 4, r.top + r.height / 2)) && e.contains(document.elementFromPoint(r.left + 4, r.top + 4));
});

describe("one rig in hand", () => {
  before(() => inHand());
  after(letGo);

  test("a mark with which the rig could not run the plan is asked about", async () => {
    await tab.evaluate(() => document.activeElement.blur());
    await tab.keyboard.press("Home");
    await tab.keyboard.press("ArrowLeft");
    await tab.$eval("#text", (t) => {
      t.value = t.value.replace('loop     = "6 s"', 'loop     = "4.5 s"');
      t.dispatchEvent(new Event("input", { bubbles: true }));
    });
    await until(tab, "the shorter loop", () => document.getElementById("round-words").textContent.startsWith("108 frames"));
    assert.equal(await tab.$eval("#dial .count", (e) => e.textContent), "107", "a playhead that stood on the last frame stands on it still");
    await click(tab, '#mark-places [data-place="from"]'); // at home, 40 mm before the near end
    await until(tab, "the question", () => document.getElementById("mark-leave"));
    assert.ok(await seen(tab, "#mark-asks p"), "its first words are not under the buttons");
    assert.match(await tab.$eval("#mark-asks", (e) => e.textContent), /the rig cannot run the plan: *axis rail: /);
    assert.deepEqual(await violations(tab), []);
    await picture(tab, "mark-asks-1280");
    await click(tab, "#mark-leave");
    assert.equal(await value(tab, "from"), "40 mm");
    await click(tab, '#mark-places [data-place="from"]');
    await click(tab, "#mark-set");
    await until(tab, "the mark in the text", () => document.getElementById("text").value.includes('from      = "0 mm"'));
    for (let n = 0; n < 2; n++) await click(tab, "#undo"); // the mark and the loop
    await until(tab, "the text as it was", () => document.getElementById("undo").disabled);
    noTroubles(tab);
  });

  test("an axis moves while a button or an arrow key is held, and rests when it is not", async () => {
    assert.deepEqual(await violations(tab), []);
    const home = await place(tab);
    await press(tab, "#hold-more");
    await moves(tab);
    await picture(tab, "byhand-1280");
    await tab.mouse.up();
    await stops(tab, "the button let go of");
    assert.notEqual(await place(tab), home);

    const frame = await tab.$eval("#now", (e) => e.dataset.frame);
    await tab.focus("#hold-less");
    await tab.keyboard.down("ArrowRight");
    await moves(tab);
    await tab.keyboard.up("ArrowRight");
    await stops(tab, "the key let go of");
    assert.equal(await tab.$eval("#now", (e) => e.dataset.frame), frame, "and the playhead stays where it was");

    await press(tab, "#hold-more");
    await moves(tab);
    await tab.keyboard.press("Space");
    await stops(tab, "the space bar", SEEN); // until the controller has forgotten all that it held, and is ready again
    await tab.mouse.up();
    await reach(tab, "ready");

    await tab.focus("#hold-more");
    await tab.keyboard.down("ArrowRight");
    await moves(tab);
    await tab.evaluate(() => document.activeElement.blur());
    await stops(tab, "the focus lost");
    await tab.keyboard.up("ArrowRight");

    await press(tab, "#hold-more");
    await moves(tab);
    await tab.evaluate(() => dispatchEvent(new Event("blur")));
    await stops(tab, "the window behind another");
    await tab.mouse.up();
    noTroubles(tab);
  });

  test("a page that is loaded anew holds nothing, and has the rig in hand again", async () => {
    const other = await ready(await open(served));
    await click(other, "#tab-drive");
    await press(tab, "#hold-more");
    await moves(other);
    await tab.reload();
    await stops(other, "the page loaded anew");
    await tab.mouse.up();
    await ready(tab);
    await click(tab, "#tab-drive");
    await reach(tab, "ready");
    await press(tab, "#hold-less");
    await moves(tab);
    await tab.mouse.up();
    await stops(tab, "held anew, and let go of");
    await other.close();
  });

  test("a place is marked, a frame is gone to, and the plan is walked through", async () => {
    await press(tab, "#hold-more");
    await moves(tab);
    await tab.mouse.up();
    await rests(tab);
    const at = parseFloat(await place(tab));
    await click(tab, '#mark-places [data-place="from"]');
    await until(tab, "the mark in the text", () => !document.getElementById("text").value.includes('from      = "40 mm"'));
    assert.ok(Math.abs(parseFloat(await value(tab, "from")) - at) < 0.01, "where it stands");
    assert.match(await tab.$eval("#text", (t) => t.value), /# The rail pushes in on the lantern/, "comments stay");
    await click(tab, "#undo");
    await until(tab, "the text as it was", () => document.getElementById("text").value.includes('from      = "40 mm"'));

    await tab.evaluate(() => document.activeElement.blur());
    await tab.keyboard.press("Home");
    for (let n = 0; n < 3; n++) await tab.keyboard.press("ArrowRight");
    await click(tab, "#go-frame");
    await until(tab, "the frame to be shown", () => /Frame 3 of the loop/.test(document.getElementById("said").textContent));
    await reach(tab, "ready");

    await click(tab, "#walk");
    await reach(tab, "cautions");
    assert.ok(await unfolded());
    await click(tab, "#drive-confirm");
    await reach(tab, "running");
    assert.ok(!await unfolded(), "what runs has the room once the word is said");
    assert.ok(await seen(tab, "#drive-state"), "what it does is in view once more");
    await click(tab, "#stop");
    await reach(tab, "held");
    await picture(tab, "walk-held-1280");
    await click(tab, "#drive-quit");
    noTroubles(tab);
  });
});

test("a page that hangs or is closed holds nothing", async () => {
  await inHand();
  const other = await ready(await open(served));
  await click(other, "#tab-drive");
  await press(tab, "#hold-more");
  await moves(other);
  void tab.evaluate(() => { for (const end = performance.now() + 1500; performance.now() < end;); }); // no timer of the page runs
  await stops(other, "the page hanging");
  await tab.mouse.up();
  await reach(tab, "ready");

  await press(tab, "#hold-more");
  await moves(other);
  await tab.close({ runBeforeUnload: false });
  await stops(other, "the page closed");
  await other.close();
  await letGo();
});

test("what has been asked for and begins only after the page is gone is stopped", async () => {
  await inHand();
  const other = await ready(await open(served));
  await click(other, "#tab-drive");
  await click(tab, "#walk"); // it is worked out first
  await tab.close({ runBeforeUnload: false });
  await until(other, "the run to end", () => document.getElementById("drive-setup").checkVisibility());
  assert.match(await place(other), /^(\u2013|0\.00 mm)$/, "where it stood");
  await other.close();
  await letGo();
});

for (const size of WINDOWS.slice(1)) {
  test(`${size.width} wide, by ${size.touch ? "touch" : "mouse"}: an axis moves while its button is held, a place is marked, and a frame gone to`, async () => {
    await inHand(size);
    const hand = await Hand.on(tab);
    const at = await hand.middle("#hold-more");
    const drawn = await tab.evaluate(() => scrollY);
    await hand.down(at);
    await moves(tab);
    assert.ok(await seen(tab, "#held-words"), "how far it has gone is seen under the hand");
    assert.ok(await seen(tab, "#stop"), "and Stop");
    await picture(tab, `byhand-${size.width}`);
    await hand.up();
    await stops(tab, "the finger lifted");
    assert.equal(await tab.evaluate(() => scrollY), drawn, "the page has stayed under it");
    const stands = parseFloat(await place(tab));
    await hand.press('#mark-places [data-place="from"]');
    await until(tab, "the mark in the text", () => !document.getElementById("text").value.includes('from      = "40 mm"'));
    assert.ok(Math.abs(parseFloat(await value(tab, "from")) - stands) < 0.01, "where it stands");
    await hand.press("#undo", { stays: true });
    await until(tab, "the text as it was", () => document.getElementById("text").value.includes('from      = "40 mm"'));
    await tab.evaluate(() => document.activeElement.blur());
    await tab.keyboard.press("ArrowRight");
    await hand.press("#go-frame");
    await until(tab, "the frame to be shown", () => /Frame \d+ of the loop/.test(document.getElementById("said").textContent));
    await reach(tab, "ready");
    assert.ok(await tab.evaluate(() => document.documentElement.scrollWidth <= innerWidth));
    await hand.press("#drive-quit");
    await until(tab, "the rig let go of", () => document.getElementById("strip").hidden);
    noTroubles(tab);
    await letGo();
  });
}
