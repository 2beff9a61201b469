// harness starts seamrail's page for a test and opens it in Chromium.
import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { cp, mkdtemp, readFile, rm } from "node:fs/promises";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";

// These name what the test under Go hands over.
const OUTSIDE = process.env.SEAMRAIL_CHROMIUM; // folder with puppeteer-core and axe-core in node_modules
const PROGRAM = process.env.SEAMRAIL_PROGRAM;
const DEMO = process.env.SEAMRAIL_DEMO; // folder with the demo's shot and rig
export const PICTURES = process.env.SEAMRAIL_PICTURES; // where to keep screenshots, or nothing
const CHROMIUM = process.env.SEAMRAIL_BROWSER ?? "/usr/bin/chromium";

const outside = createRequire(join(OUTSIDE, "node_modules", "of-the-tests.js"));
const puppeteer = outside("puppeteer-core");
const AXE = await readFile(outside.resolve("axe-core/axe.min.js"), "utf8");

// PATIENCE is far longer than anything takes here, in ms; only what fails lasts
// that long.
export const PATIENCE = 20_000;

export const browser = await puppeteer.launch({
  executablePath: CHROMIUM,
  // There is no sandbox for root in a container, and what is opened is our own.
  // A name that points here from elsewhere is what a hostile page would bring.
  args: ["--no-sandbox", "--disable-dev-shm-usage", "--hide-scrollbars", "--host-resolver-rules=MAP rebound.test 127.0.0.1"],
});

/** A running `seamrail page` in a folder of its own. */
export class Served {
  static async start() {
    const s = new Served();
    s.folder = await mkdtemp(join(tmpdir(), "seamrail-page-"));
    await cp(DEMO, s.folder, { recursive: true });
    s.shot = join(s.folder, "lantern.toml");
    s.child = spawn(PROGRAM, ["page", "--no-browser", s.shot], { cwd: s.folder });
    s.ended = new Promise((resolve) => s.child.on("exit", (code, signal) => resolve({ code, signal })));
    s.said = "";
    s.child.stderr.on("data", (d) => (s.said += d));
    s.address = await s.#address();
    return s;
  }

  #address() {
    return new Promise((resolve, reject) => {
      let out = "";
      this.child.stdout.on("data", (d) => {
        out += d;
        const found = /http:\S+/.exec(out);
        if (found) resolve(found[0]);
      });
      this.child.on("exit", () => reject(new Error("seamrail page ended: " + this.said)));
    });
  }

  text() {
    return readFile(this.shot, "utf8");
  }

  async interrupt() {
    this.child.kill("SIGINT");
    return this.ended;
  }

  async stop() {
    await this.interrupt();
    await rm(this.folder, { recursive: true, force: true });
  }
}

/** Opens a served page, in a window of its own: what is behind another is drawn no more. What its scripts throw or the policy refuses fails the test at troubles(). */
export async function open(served, { width = 1280, height = 800, features = [] } = {}) {
  const tab = await (await browser.createBrowserContext()).newPage();
  tab.setDefaultTimeout(PATIENCE);
  tab.troubles = [];
  tab.asked = [];
  tab.on("pageerror", (e) => tab.troubles.push("threw: " + e.message));
  tab.on("console", (m) => m.type() === "error" && tab.troubles.push("console: " + m.text() + " " + (m.location().url ?? "")));
  tab.on("request", (r) => tab.asked.push(r.url()));
  tab.on("dialog", (d) => d.accept());
  await tab.setViewport({ width, height });
  if (features.length) await tab.emulateMediaFeatures(features);
  await tab.goto(served.address);
  return tab;
}

/** Fails when something went wrong on the page that nobody asked for. */
export function noTroubles(tab) {
  assert.deepEqual(tab.troubles, []);
}

/** Waits until f, run in the page, is true, and says what was waited for if not. */
export async function until(tab, what, f, ...args) {
  try {
    await tab.waitForFunction(f, { timeout: PATIENCE, polling: 20 }, ...args);
  } catch (err) {
    throw new Error("waited for: " + what, { cause: err });
  }
}

/** What axe-core finds, of the two worst impacts. */
export async function violations(tab) {
  // Evaluated over the debugger, so the page's own policy does not stand in its way.
  await tab.evaluate(AXE);
  const found = await tab.evaluate(() => window.axe.run(document, { resultTypes: ["violations"] }));
  return found.violations
    .filter((v) => v.impact === "serious" || v.impact === "critical")
    .map((v) => `${v.id} (${v.impact}): ${v.nodes.map((n) => n.target.join(" ") + " – " + n.any.concat(n.all, n.none).map((c) => c.message).join("; ")).join(" | ")}`);
}

export async function picture(tab, name) {
  if (PICTURES) await tab.screenshot({ path: join(PICTURES, name + ".png") });
}

/** Waits until the page has drawn its first plan, and lets it stand still. */
export async function ready(tab) {
  await until(tab, "the first plan on screen", () => document.body.classList.contains("ready"));
  await tab.evaluate(() => document.getElementById("play").textContent === "Stand still" && document.getElementById("play").click());
  return tab;
}

/** Presses what a hand could press: it must be seen, and not be covered. */
export async function click(tab, selector) {
  await until(tab, selector + " to be there and enabled", (s) => document.querySelector(s)?.checkVisibility() && !document.querySelector(s).disabled, selector);
  await (await tab.$(selector)).click();
}

/** good, fair, bad or unknown: whether the plan may be driven. */
export const level = (tab) => tab.$eval("#ready", (e) => e.className);

/** A value of the shot by its key, in the text that the page holds; the key must be in it once. */
export const value = (tab, key) => tab.$eval("#text", (t, key) => {
  const found = [...t.value.matchAll(new RegExp(`^${key} *= *"(.*?)"`, "gm"))];
  if (found.length !== 1) throw new Error(`${key} is in the text ${found.length} times`);
  return found[0][1];
}, key);
