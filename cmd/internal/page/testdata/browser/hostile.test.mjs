// A hostile page that is open in the same browser can read nothing and change
// nothing, even where it knows the port, and even the key.
import assert from "node:assert/strict";
import { createServer } from "node:http";
import { after, before, test } from "node:test";
import { Served, browser, click, open, until } from "./harness.mjs";

let served, port, key, hostile, evil;

before(async () => {
  served = await Served.start();
  ({ port } = new URL(served.address));
  const { origin } = new URL(served.address);
  const once = (await served.next()).split("#once=")[1];
  const given = await fetch(origin + "/api/key", { method: "POST", headers: { "Seamrail-Key": once } });
  ({ key } = await given.json());
  evil = createServer((_, answer) => answer.setHeader("Content-Type", "text/html").end("<!doctype html><title>elsewhere</title>"));
  await new Promise((ready) => evil.listen(0, "127.0.0.1", ready));
  hostile = await browser.newPage();
  await hostile.goto(`http://127.0.0.1:${evil.address().port}/`);
});

after(async () => {
  evil.closeAllConnections();
  evil.close();
  await served.stop();
  await browser.close();
});

const home = () => `http://127.0.0.1:${port}`;

test("another page cannot read an answer, with or without the key", async () => {
  for (const headers of [{}, { "Seamrail-Key": key }]) {
    const got = await hostile.evaluate(
      (to, headers) => fetch(to, { headers }).then(() => "answered", () => "refused"), home() + "/api/start", headers);
    assert.equal(got, "refused");
  }
});

test("another page cannot write without asking first", async () => {
  const was = await served.text();
  await hostile.evaluate((to) => fetch(to, { method: "POST", mode: "no-cors", body: JSON.stringify({ text: "", base: "" }) }).catch(() => 0), home() + "/api/save");
  assert.equal(await served.text(), was);
});

test("another page can neither frame it nor run its scripts", async () => {
  const tab = await browser.newPage();
  await tab.goto(`http://127.0.0.1:${evil.address().port}/`);
  const page = await (await fetch(home() + "/")).text();
  const script = /src="(a\/[^"]+main\.js)"/.exec(page)[1];
  assert.equal((await fetch(`${home()}/${script}`)).status, 200);
  const ran = await tab.evaluate((home) => new Promise((resolve) => {
    const script = document.createElement("script");
    script.type = "module";
    script.src = home;
    script.onload = () => resolve("ran");
    script.onerror = () => resolve("refused");
    document.head.append(script);
  }), `${home()}/${script}`);
  assert.equal(ran, "refused");
  await tab.evaluate((home) => new Promise((resolve) => {
    const frame = document.createElement("iframe");
    frame.src = home + "/";
    frame.onload = resolve;
    document.body.append(frame);
  }), home());
  const inside = tab.frames().find((f) => f !== tab.mainFrame());
  assert.match(await inside.evaluate(() => location.href), /^chrome-error:/);
  await tab.close();
});

test("a name from elsewhere that points here is refused, even with the key", async () => {
  const tab = await browser.newPage();
  const answer = await tab.goto(`http://rebound.test:${port}/`);
  assert.equal(answer.status(), 403);
  const got = await tab.evaluate((key) => fetch("/api/start", { headers: { "Seamrail-Key": key } }).then((r) => r.status), key);
  assert.equal(got, 403);
  await tab.close();
});

test("the page itself asks nothing of anyone else, and takes the word out of its address", async () => {
  const tab = await open(served);
  await tab.waitForFunction(() => document.readyState === "complete");
  assert.ok(tab.asked.length > 0);
  for (const url of tab.asked) assert.ok(url.startsWith(home() + "/") || url.startsWith("blob:") || url.startsWith("data:"), url);
  assert.equal(await tab.evaluate(() => location.hash), "");
  await tab.close();
});

const plans = (tab) => until(tab, "the first plan on screen", () => document.body.classList.contains("ready"));
const refused = (tab) => until(tab, "the words of an address that opens nothing", () => /each is good once/.test(document.getElementById("gone").textContent));

test("an address that was opened opens nothing more, in this browser or another, but its own tab", async () => {
  const address = await served.next();
  const context = await browser.createBrowserContext();
  const tab = await context.newPage();
  await tab.goto(address);
  await plans(tab);
  await tab.reload();
  await plans(tab);
  for (const other of [await context.newPage(), await (await browser.createBrowserContext()).newPage()]) {
    await other.goto(address);
    await refused(other);
    assert.equal(await other.evaluate(() => sessionStorage.length), 0);
    await other.goto(home());
    await refused(other);
  }
  const next = await (await browser.createBrowserContext()).newPage();
  await next.goto(await served.next());
  await plans(next);
  await next.browserContext().close();
  await context.close();
});

test("another window is opened from the page, and takes nothing over from it", async () => {
  const tab = await open(served);
  await plans(tab);
  await tab.evaluate(() => sessionStorage.setItem("of this tab", "alone"));
  const comes = new Promise((resolve) => browser.once("targetcreated", resolve));
  await tab.$eval("#another", (b) => b.scrollIntoView());
  await click(tab, "#another");
  const window = await (await comes).page();
  await plans(window);
  assert.deepEqual(await window.evaluate(() => [location.hash, window.opener, sessionStorage.getItem("of this tab")]), ["", null, null]);
  await tab.browserContext().close();
});
