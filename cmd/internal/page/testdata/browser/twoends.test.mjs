// A rig to which nothing is sent: what to set and press is read off the page, and its takes
// are logged there.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { after, afterEach, beforeEach, test } from "node:test";
import { Served, browser, click, noTroubles, open, picture, ready, until, violations } from "./harness.mjs";

let served, tab;

beforeEach(async () => {
  served = await Served.start();
  execFileSync(process.env.SEAMRAIL_PROGRAM, ["new", "--controller", "two-ends", "--force", served.folder]);
  await writeFile(served.shot, await readFile(join(served.folder, "there-and-back.toml"), "utf8"));
});

afterEach(async () => {
  await tab.close();
  await served.stop();
});

after(() => browser.close());

for (const width of [1280, 390]) {
  test(`its takes are logged by hand, ${width} wide`, async () => {
    tab = await ready(await open(served, { width, height: 844 }));
    await click(tab, "#tab-drive");
    assert.ok((await tab.$$("#presses li")).length > 3);
    assert.match(await tab.$eval("#press-warned", (e) => e.innerText), /Before it moves[^]*Know its own stop button/, "what step 1 says stands below");
    for (const id of ["#drive-setup", "#rig-read", "#stop"]) assert.ok(!(await tab.$eval(id, (e) => e.checkVisibility())), id);
    await tab.type("#log-took", "3.45");
    await click(tab, "#log-take");
    await until(tab, "the take", () => document.querySelector('#takes [data-take="1"]'));
    assert.match(await tab.$eval("#takes li", (e) => e.textContent), /finished, 3 rounds; logged by hand/);
    await click(tab, '#takes [aria-label="Keep take 1"]');
    await until(tab, "it to be kept", () => document.querySelector('#takes [aria-label="Keep take 1"][aria-pressed=true]'));
    assert.deepEqual(await violations(tab), []);
    assert.ok(!(await tab.evaluate(() => document.documentElement.scrollWidth > innerWidth)));
    await picture(tab, `two-ends-${width}`);
    noTroubles(tab);
    await tab.type("#log-took", "99");
    await click(tab, "#log-take");
    await until(tab, "it to be refused", () => document.getElementById("notes").textContent.includes("is not one of 3 of the plan's rounds"));
  });
}
