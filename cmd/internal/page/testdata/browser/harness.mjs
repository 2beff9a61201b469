// harness starts seamrail's page for a test and opens it in Chromium.
import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { cp, mkdtemp, readFile, rm } from "node:fs/promises";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, afterEach, before } from "node:test";

// These name what the test under Go hands over.
const OUTSIDE = process.env.SEAMRAIL_CHROMIUM; // folder with puppeteer-core and axe-core in node_modules
const PROGRAM = process.env.SEAMRAIL_PROGRAM;
const DEMO = process.env.SEAMRAIL_DEMO; // folder with the demo's shot and rig
export const PICTURES = process.env.SEAMRAIL_PICTURES; // where to keep screenshots, or nothing
// Its shell without a window draws with the same engine, and starts in half the time.
const CHROMIUM = process.env.SEAMRAIL_BROWSER ?? "/usr/bin/chromium-headless-shell";

const outside = createRequire(join(OUTSIDE, "node_modules", "of-the-tests.js"));
const puppeteer = outside("puppeteer-core");
const AXE = await readFile(outside.resolve("axe-core/axe.min.js"), "utf8");

// PATIENCE is far longer than anything takes here, in ms; only what fails lasts
// that long.
export const PATIENCE = 20_000;

export const browser = await puppeteer.launch({
  executablePath: CHROMIUM,
  headless: CHROMIUM.endsWith("shell") ? "shell" : true,
  // There is no sandbox for root in a container, and what is opened is our own.
  // A name that points here from elsewhere is what a hostile page would bring.
  args: ["--no-sandbox", "--disable-dev-shm-usage", "--hide-scrollbars", "--host-resolver-rules=MAP rebound.test 127.0.0.1"],
});

/** A running `seamrail page` in a folder of its own. */
export class Served {
  static async start() {
    const folder = await mkdtemp(join(tmpdir(), "seamrail-page-"));
    await cp(DEMO, folder, { recursive: true });
    return Served.in(folder, join(folder, "lantern.toml"));
  }

  /** In a folder that is there; without a shot it is the first screen. */
  static async in(folder, shot) {
    const s = Object.assign(new Served(), { folder, shot });
    s.child = spawn(PROGRAM, ["page", "--no-browser", ...(shot ? [shot] : [])], { cwd: folder });
    s.ended = new Promise((resolve) => s.child.on("exit", (code, signal) => resolve({ code, signal })));
    s.said = "";
    s.child.stderr.on("data", (d) => (s.said += d));
    s.printed = [];
    s.taken = 0;
    let out = "";
    s.child.stdout.on("data", (d) => {
      const rows = (out + d).split("\n");
      out = rows.pop();
      s.printed.push(...rows.flatMap((row) => /http:\S+/.exec(row) ?? []));
    });
    s.address = (await s.#printed(0)).split("#")[0];
    return s;
  }

  /** The page's address with a word that is good once: the next that is printed. */
  next() {
    return this.#printed(this.taken++);
  }

  async #printed(n) {
    for (const began = Date.now(); this.printed.length <= n; await new Promise((resolve) => setTimeout(resolve, 5))) {
      if (this.child.exitCode !== null) throw new Error("seamrail page ended: " + this.said);
      if (Date.now() - began > PATIENCE) throw new Error("no address was printed");
    }
    return this.printed[n];
  }

  text() {
    return readFile(this.shot, "utf8");
  }

  async interrupt(signal = "SIGINT") {
    this.child.kill(signal);
    return this.ended;
  }

  async stop() {
    await this.interrupt();
    await rm(this.folder, { recursive: true, force: true });
  }
}

/** Opens a served page, in a window of its own: what is behind another is drawn no more. What its scripts throw or the policy refuses fails the test at troubles(). */
export async function open(served, { width = 1280, height = 800, features = [], touch = false, first = undefined } = {}) {
  const tab = await (await browser.createBrowserContext()).newPage();
  tab.setDefaultTimeout(PATIENCE);
  tab.troubles = [];
  tab.asked = [];
  tab.on("pageerror", (e) => tab.troubles.push("threw: " + e.message));
  tab.on("console", (m) => m.type() === "error" && tab.troubles.push("console: " + m.text() + " " + (m.location().url ?? "")));
  // What is refused is printed in its own words: the console has the status alone.
  tab.on("response", (r) => r.status() === 422 && r.text().then((said) => console.log(`${new URL(r.url()).pathname}: ${said.slice(0, 500)}`), () => {}));
  tab.on("request", (r) => tab.asked.push(r.url()));
  tab.on("dialog", (d) => d.accept());
  await tab.setViewport({ width, height, hasTouch: touch });
  if (features.length) await tab.emulateMediaFeatures(features);
  if (first) await tab.evaluateOnNewDocument(first); // before any script of the page
  await tab.goto(await served.next());
  return tab;
}

/**
 * Serves one page for all tests of a file. Each opens a tab of its own, in which nothing may
 * have gone wrong and which is then closed.
 */
export function aTabEach(begin, tabOf) {
  oneServed(begin);
  afterEach(async () => {
    noTroubles(tabOf());
    await tabOf().close();
  });
}

/** Serves one page for all tests of a file. */
export function oneServed(begin) {
  let served;
  before(async () => {
    served = await Served.start();
    await begin(served);
  });
  after(async () => {
    await served?.stop();
    await browser.close();
  });
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

/** What axe-core finds, of the two worst impacts if not of others. */
export async function violations(tab, impacts = ["serious", "critical"]) {
  // Evaluated over the debugger, so the page's own policy does not stand in its way.
  await tab.evaluate(AXE);
  const found = await tab.evaluate(() => window.axe.run(document, { resultTypes: ["violations"] }));
  return found.violations
    .filter((v) => impacts.includes(v.impact))
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

/** Waits until nothing on the page is older than the numbers, and no window glides any more: what is where it is stays there. */
export async function still(tab) {
  await until(tab, "nothing older", () => !document.querySelector("[data-older]:not(.answer)"));
  await calm(tab);
}

/** Waits until no window glides any more. */
export async function calm(tab) {
  await tab.evaluate(() => (window.stillByTest = { last: "", frames: 0 }));
  await tab.waitForFunction(() => {
    const now = [...document.querySelectorAll(".handle, .span-seen, #above")].map((e) => (e.getAttribute("viewBox") ?? "") + e.getAttribute("style")).join();
    const seen = window.stillByTest;
    seen.frames = seen.last === now ? seen.frames + 1 : 0;
    seen.last = now;
    return seen.frames > 4;
  }, { polling: "raf" });
}

/** Takes hold of a handle where it rests, and returns where it was pressed. */
export async function takeHold(tab, path) {
  await still(tab);
  const box = await (await tab.$(`.handle[data-path="${path}"]`)).boundingBox();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await tab.mouse.move(x, y);
  await tab.mouse.down();
  assert.equal(await tab.evaluate(() => document.querySelector(".handle.held")?.dataset.path), path, "what was pressed");
  return [x, y];
}

/** Presses what a hand could press: it must be seen, and not be covered. */
export async function click(tab, selector) {
  await until(tab, selector + " to be there and enabled", (s) => document.querySelector(s)?.checkVisibility() && !document.querySelector(s).disabled, selector);
  await (await tab.$(selector)).click();
}

/** The windows in which it is tried what a hand does, and whether by a finger. */
export const WINDOWS = [
  { width: 1280, height: 800, touch: false },
  { width: 1024, height: 768, touch: false },
  { width: 390, height: 844, touch: true },
];

/** A hand on a page: a finger where the tab was opened for fingers, else a mouse. What it presses must be in sight, with nothing over it. */
export class Hand {
  static async on(tab) {
    const touch = Boolean(tab.viewport().hasTouch);
    return Object.assign(new Hand(), { tab, touch, wire: touch && (await tab.createCDPSession()) });
  }

  /** Has fingers where they are told to be, each at its place. */
  fingers(type, ...points) {
    return this.wire.send("Input.dispatchTouchEvent", { type, touchPoints: points.map(([x, y], id) => ({ x, y, id })) });
  }

  /** The middle of what can be hit, once it has stood still; scrolled to, but for what stays in sight. */
  async middle(selector, { stays = false } = {}) {
    await until(this.tab, selector + " to be there and enabled", (s) => document.querySelector(s)?.checkVisibility() && !document.querySelector(s).disabled, selector);
    if (!stays) await this.tab.$eval(selector, (e) => e.scrollIntoView({ block: "center" }));
    const { at, hit, what } = await this.tab.evaluate((selector) => new Promise((stands) => {
      let was = "", same = 0;
      const look = () => {
        const el = document.querySelector(selector);
        if (!el) return stands({ at: [0, 0], hit: false, what: "nothing: it is gone" });
        const { x, y, width, height } = (el.querySelector(".target") ?? el).getBoundingClientRect();
        const now = [x, y, width, height].join();
        same = now === was ? same + 1 : 0;
        was = now;
        if (same < 3) return requestAnimationFrame(look);
        const at = [x + width / 2, y + height / 2], top = document.elementFromPoint(...at);
        stands({ at, hit: el.contains(top) || el.matches(".handle, .grip") && Boolean(top?.closest(".plot, #above")), what: top?.id || top?.className || top?.nodeName });
      };
      look();
    }), selector);
    assert.ok(hit, `${selector}, at ${at}, lies under ${what}`);
    return at;
  }

  async tap(at, count = 1) {
    if (!this.touch) return this.tab.mouse.click(...at, { count });
    // Both at once: where a page is busy, the time until it has answered the first would make a long press of it.
    for (let i = 0; i < count; i++) await Promise.all([this.fingers("touchStart", at), this.fingers("touchEnd")]);
  }

  async press(selector, how) {
    await this.tap(await this.middle(selector, how));
  }

  /** Goes along from a place, in steps; what is done while it is held is told where it then is. */
  async drag([x, y], [dx, dy], during = async () => {}) {
    await this.down([x, y]);
    for (let i = 1; i <= 6; i++) await this.go([x + (dx * i) / 6, y + (dy * i) / 6]);
    await during([x + dx, y + dy]);
    if (this.touch) await new Promise((rested) => setTimeout(rested, 80)); // lifted as it goes it would fling the page, and the next tap only end that
    await this.up();
  }

  down(at) {
    return this.touch ? this.fingers("touchStart", at) : this.tab.mouse.move(...at).then(() => this.tab.mouse.down());
  }

  go(at) {
    return this.touch ? this.fingers("touchMove", at) : this.tab.mouse.move(...at);
  }

  up() {
    return this.touch ? this.fingers("touchEnd") : this.tab.mouse.up();
  }

  /** Chooses from a list, which the system shows by itself. */
  async choose(selector, value) {
    await this.middle(selector);
    await this.tab.select(selector, value);
  }

  /** Types into a field, and leaves it. */
  async type(selector, text) {
    await this.press(selector);
    await until(this.tab, selector + " to have the focus", (s) => document.activeElement === document.querySelector(s), selector);
    await this.tab.$eval(selector, (i) => i.select());
    await (text ? this.tab.keyboard.type(text) : this.tab.keyboard.press("Backspace"));
    await this.tab.$eval(selector, (i) => i.blur());
  }
}

/** good, fair, bad or unknown: whether the plan may be driven. */
export const level = (tab) => tab.$eval("#ready", (e) => e.className);

/** A value of the shot by its key, in the text that the page holds; the key must be in it once. */
export const value = (tab, key) => tab.$eval("#text", (t, key) => {
  const found = [...t.value.matchAll(new RegExp(`^${key} *= *"(.*?)"`, "gm"))];
  if (found.length !== 1) throw new Error(`${key} is in the text ${found.length} times`);
  return found[0][1];
}, key);

/** Waits until the rig is in a state, by its name. */
export const reach = (on, name) => until(on, "the rig to be " + name, (name) => document.getElementById("drive-state").textContent === name, name);

/** Takes hold of the rig, brings it home and to the start, and arms it. */
export async function armed(on, { endless = true, countIn = 0 } = {}) {
  await click(on, "#tab-drive");
  await on.select("#port", "virtual");
  await on.$eval("#count-in", (i, n) => (i.value = n), countIn);
  await on.$eval("#endless", (i, is) => (i.checked = is), endless);
  await click(on, "#drive-open");
  await reach(on, "position unknown");
  await click(on, "#drive-home");
  await reach(on, "ready");
  await click(on, "#drive-go");
  await reach(on, "cautions");
  assert.ok((await on.$$("#caution-list li")).length > 0, "cautions are read before anything moves");
}
