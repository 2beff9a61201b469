// All of the page by fingers alone: from a folder with nothing in it to a take that is
// stopped. What is chosen from a list of the system's own, and typed on its keyboard, is
// given as those give it.
import assert from "node:assert/strict";
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, test } from "node:test";
import { Hand, Served, browser, noTroubles, open, picture, reach, ready, until } from "./harness.mjs";

after(() => browser.close());

for (const [width, height] of [[1024, 768], [768, 1024], [390, 844]]) {
  test(`${width} wide, by touch alone: a shot is begun, shaped, saved, exported, and filmed on a rig of software`, async (t) => {
    const folder = await mkdtemp(join(tmpdir(), "seamrail-touch-"));
    const served = await Served.in(folder);
    t.after(async () => {
      await served.interrupt();
      await rm(folder, { recursive: true, force: true });
    });
    const tab = await open(served, { width, height, touch: true });
    const hand = await Hand.on(tab);
    const tap = (selector, how) => hand.press(selector, how);
    const drag = async (selector, by) => hand.drag(await hand.middle(selector), by);
    const text = () => tab.$eval("#text", (t) => t.value);
    const changed = (was, what) => until(tab, what, (was) => document.getElementById("text").value !== was, was);
    const changes = async (what, f) => {
      const was = await text();
      await f();
      await changed(was, what);
      return text();
    };

    await tap("#kinds .card:not(:disabled)");
    await Promise.all([tab.waitForNavigation(), tap("#begin-go")]);
    await ready(tab);

    // A move from key to key, and a key that is dragged.
    await tap("#tab-moves");
    await changes("keys", () => tab.select('[data-axis="rail"] .field.kind select', "keys"));
    const key = await tab.$$eval(".curve .handle.key", (list) => list.map((h) => h.dataset.path)[1]);
    await changes("the key elsewhere", () => drag(`.handle[data-path="${key}"]`, [12, -14]));
    await changes("there and back again", () => tab.select('[data-axis="rail"] .field.kind select', "there-and-back"));
    await changes("another ease", () => tap('.law-field[data-path="axis.rail.law"] input[value="cycloidal"]'));

    // A lamp more, and dragged.
    const lamps = (await tab.$$(".grip.lamp")).length;
    await tap('#plan [data-add="scene.lamps"]');
    await until(tab, "a lamp more", (n) => document.querySelectorAll(".grip.lamp").length === n + 1, lamps);
    await changes("the lamp elsewhere", () => drag(".grip.lamp", [-10, 14]));

    // A value of the rig, typed on the keyboard of the screen.
    await tap("#tab-rig");
    const speed = '#rig [data-path="rig:axis.rail.speed"] input';
    await tap(speed);
    await until(tab, "the field in hand", (s) => document.activeElement === document.querySelector(s), speed);
    await tab.$eval(speed, (i) => i.select());
    await tab.keyboard.type("390 mm/s");
    await tap("#tab-files"); // which leaves the field
    await until(tab, "the rig written", () => document.getElementById("rig-text").textContent.includes("390 mm/s"));

    await tap("#export-frames");
    await until(tab, "the file", () => /Downloaded \S+\.csv/.test(document.getElementById("notes").textContent));
    await tap("#save");
    await until(tab, "it saved", () => /^as on disk/.test(document.getElementById("save-state").textContent));
    assert.equal(await readFile(join(folder, await tab.evaluate(() => decodeURIComponent(new URL(location.href).searchParams.get("shot")))), "utf8"), await text());
    await picture(tab, `bytouch-${width}-made`);

    await tap("#tab-drive");
    await tab.select("#port", "virtual");
    await tap("#endless");
    await tap("#drive-open");
    await reach(tab, "position unknown");
    await tap("#drive-home");
    await reach(tab, "ready");
    await tap("#drive-go");
    await reach(tab, "cautions");
    assert.ok(await tab.$eval("#cautions", (e) => { const b = e.getBoundingClientRect(); return b.top >= document.getElementById("strip").getBoundingClientRect().bottom - 1 && b.top < innerHeight - 100; }), "the first caution is in sight");
    await picture(tab, `bytouch-${width}-cautions`);
    await tap("#drive-confirm");
    await reach(tab, "running");
    await tap("#stop", { stays: true });
    await reach(tab, "held");
    await picture(tab, `bytouch-${width}-held`);
    if (width >= 1000) { // beside the picture the bench scrolls by itself, below what the rig may do next
      const [asks, bench, hit] = await tab.evaluate(() => {
        const bench = document.getElementById("bench-drive");
        bench.scrollTop = bench.scrollHeight;
        const box = document.getElementById("drive-resume").getBoundingClientRect();
        return [document.getElementById("drive-asks").getBoundingClientRect().top, bench.getBoundingClientRect().top, document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2)?.id];
      });
      assert.ok(Math.abs(asks - bench) < 2, `what the rig may do next is at ${asks}, the top of the bench at ${bench}`);
      assert.equal(hit, "drive-resume", "and nothing lies over it");
    }
    await tap("#drive-quit");
    await until(tab, "the rig let go of", () => document.getElementById("strip").hidden);
    await until(tab, "the take in the log", () => document.querySelector("#virtual-takes li"));
    noTroubles(tab);
    await tab.close();
  });
}
