// What the page looks like, as far as that does not hang on a font: the boxes of its
// parts, and the drawings without their words. SEAMRAIL_GOLDEN=write keeps them anew.
import assert from "node:assert/strict";
import { mkdir, readFile, writeFile } from "node:fs/promises";
import { test } from "node:test";
import { aTabEach, open, ready } from "./harness.mjs";

const GOLDEN = new URL("../golden/", import.meta.url);
const WRITE = process.env.SEAMRAIL_GOLDEN === "write";
const LINE = 10; // px that a box may differ: other fonts make a line of text so much higher, and a part that has moved is off by far more
const SHADE = 48; // of 255 that a pixel may differ: edges are smoothed differently from one version of a browser to the next
const PIXELS = 0.02; // share of pixels that may differ by more, for the same reason: lines are thin

const PARTS = ["#head", "#first", "#seen", "#plan", "#transport", "#round", "#curves", "#verdicts", "[role=tablist]", "[role=tabpanel]:not([hidden])"];
const SIZES = [[1280, 800], [1024, 768], [390, 844]];
/** On one column the page scrolls: how tall a bench is hangs on its words, and what is below the curves on how tall those are. */
const LAST = PARTS.indexOf("#verdicts");

let served, tab;

await mkdir(GOLDEN, { recursive: true });
aTabEach((s) => (served = s), () => tab);

const boxes = (wide) => tab.evaluate((parts) => Object.fromEntries(parts.map((p) => {
  const { x, y, width, height } = document.querySelector(p).getBoundingClientRect();
  return [p, [x, y, width, height].map(Math.round)];
})), wide < 1000 ? PARTS.slice(0, LAST) : PARTS);

const different = (have, want) => Object.keys(want).filter((p) => have[p].some((v, i) => Math.abs(v - want[p][i]) > LINE));

async function kept(name, have) {
  const file = new URL(name, GOLDEN);
  if (WRITE) await writeFile(file, have);
  return readFile(file);
}

for (const [width, height] of SIZES) {
  test(`the parts are where they were, ${width} wide, and it is seen when they are not`, async () => {
    tab = await ready(await open(served, { width, height }));
    const have = await boxes(width);
    const lines = Object.entries(have).map(([p, b]) => `  ${JSON.stringify(p)}: ${JSON.stringify(b)}`).join(",\n");
    const want = JSON.parse(await kept(`boxes-${width}.json`, `{\n${lines}\n}\n`));
    assert.deepEqual(different(have, want), [], JSON.stringify(have));
    await tab.evaluate(() => document.getElementById("transport").style.setProperty("margin-bottom", "40px"));
    assert.ok(different(await boxes(width), want).length > 0, "a row that is pushed down is seen");
  });
}

/** How large a share of two pictures differs. */
const differ = (a, b) => tab.evaluate(async (a, b, shade) => {
  const pixels = async (text) => {
    const bitmap = await createImageBitmap(new Blob([Uint8Array.from(atob(text), (c) => c.charCodeAt(0))], { type: "image/png" }));
    const at = new OffscreenCanvas(bitmap.width, bitmap.height).getContext("2d");
    at.drawImage(bitmap, 0, 0);
    return at.getImageData(0, 0, bitmap.width, bitmap.height);
  };
  const [x, y] = [await pixels(a), await pixels(b)];
  if (x.width !== y.width || x.height !== y.height) return 1;
  let count = 0;
  for (let i = 0; i < x.data.length; i += 4) count += [0, 1, 2].some((k) => Math.abs(x.data[i + k] - y.data[i + k]) > shade) ? 1 : 0;
  return (4 * count) / x.data.length;
}, a.toString("base64"), b.toString("base64"), SHADE);

test("the dial and the scene from above are drawn as they were, and it is seen when they are not", async () => {
  tab = await ready(await open(served));
  await tab.evaluate(() => {
    for (const id of ["dial", "above"]) Object.assign(document.getElementById(id).style, { position: "fixed", inset: "0 auto auto 0", width: "240px", height: "240px", zIndex: 300, background: "#12160f", flex: "none" });
    for (const t of document.querySelectorAll("#dial text, #above text, .over, [data-older]")) t.style.visibility = "hidden";
    document.getElementById("hold-seam").click();
  });
  await tab.evaluate(() => new Promise((later) => requestAnimationFrame(() => requestAnimationFrame(later))));
  const taken = async (id) => {
    await tab.$eval(id, (e) => (e.style.zIndex = 301));
    const picture = await tab.screenshot({ clip: { x: 0, y: 0, width: 240, height: 240 } });
    await tab.$eval(id, (e) => (e.style.zIndex = 300));
    return Buffer.from(picture);
  };
  for (const id of ["#dial", "#above"]) {
    const have = await taken(id);
    const off = await differ(have, await kept(id.slice(1) + ".png", have));
    assert.ok(off <= PIXELS, `${id} differs in ${(100 * off).toFixed(1)} % of its pixels`);
    await tab.$eval(id, (e) => (e.style.transform = "translateX(20px)"));
    assert.ok((await differ(await taken(id), have)) > PIXELS, id + " moved aside is seen");
    await tab.$eval(id, (e) => (e.style.transform = ""));
  }
});
