import {
  MARKS,
  at,
  button,
  gone,
  heardDrive,
  listen,
  make,
  openBeside,
  sayError,
  words
} from "./shared-2.js";
import {
  GONE,
  addressOf,
  ask,
  givenUp,
  pictures,
  refusal
} from "./shared-1.js";

// script/turns.js
var waiting = [];
var busy = false;
function inTurn(rank, wanted, work) {
  waiting.push({ rank, wanted, work });
  void next();
}
async function next() {
  if (busy || document.hidden) return;
  const turn = waiting.filter((w) => w.wanted()).sort((a, b) => a.rank - b.rank)[0];
  if (!turn) return;
  waiting.splice(waiting.indexOf(turn), 1);
  busy = true;
  await turn.work().catch(() => {
  });
  busy = false;
  void next();
}
document.addEventListener("visibilitychange", () => void next());

// script/small.js
var FRAMES = 32;
var KEPT = 16;
var SLOWEST = 10;
var STILL = 0.35;
var still = matchMedia("(prefers-reduced-motion: reduce)");
var held = /* @__PURE__ */ new Set();
var seen = /* @__PURE__ */ new Set();
var of = (
  /** @type {WeakMap<Element, Small>} */
  /* @__PURE__ */ new WeakMap()
);
var watch = new IntersectionObserver((all) => {
  for (const e of all) of.get(e.target)?.sight(e.isIntersecting);
  void next();
}, { rootMargin: "40px" });
var Small = class {
  /** @param {HTMLCanvasElement} canvas @param {number} rank when its turn comes for a still; the loop comes one later */
  constructor(canvas, rank = 1) {
    this.canvas = canvas;
    this.rank = rank;
    this.frames = /** @type {ImageBitmap[]} */
    [];
    this.loop = null;
    this.stop = null;
    this.asked = false;
    this.shown = null;
    of.set(canvas, this);
    watch.observe(canvas);
  }
  /** Shows a loop; what was shown before stays until there is a picture of it. @param {Loop|null} loop */
  show(loop) {
    this.stop?.abort();
    this.loop = loop;
    this.asked = false;
    if (!loop) this.drop();
    else this.want();
  }
  /** @param {boolean} is */
  sight(is) {
    if (is) seen.add(this);
    else seen.delete(this);
    if (!this.canvas.isConnected) {
      watch.unobserve(this.canvas);
      this.show(null);
    }
    if (!is) return;
    if (this.loop && !this.asked) this.want();
    if (held.delete(this)) held.add(this);
    play();
  }
  want() {
    if (this.asked) return;
    this.asked = true;
    const { loop } = this;
    if (!loop) return;
    const wanted = () => this.loop !== loop || seen.has(this);
    inTurn(this.rank, wanted, () => this.draw(loop, Math.floor(loop.frames * STILL)));
    if (!still.matches) inTurn(this.rank + 1, wanted, () => this.draw(loop));
  }
  /** Has a loop drawn, or one frame of it. @param {Loop} loop */
  async draw(loop, frame = -1) {
    if (this.loop !== loop) return;
    this.stop = new AbortController();
    const fresh = [];
    const every = Math.max(1, Math.ceil(loop.frames / FRAMES));
    try {
      await pictures(loop.path, { ...loop.question, width: loop.width, ...frame < 0 ? { every } : { from: frame, to: frame + 1 } }, (data) => fresh.push(data), this.stop.signal, loop.of);
      const frames = await Promise.all(fresh.map((data) => createImageBitmap(new Blob([
        /** @type {BlobPart} */
        data
      ]))));
      if (this.loop === loop) this.take(frames);
      else for (const f of frames) f.close();
    } catch (err) {
      if (!givenUp(err)) this.canvas.dataset.none = refusal(err).message;
    }
  }
  /** @param {ImageBitmap[]} frames */
  take(frames) {
    this.drop();
    this.frames = frames;
    held.add(this);
    this.canvas.dataset.frames = String(frames.length);
    for (const old of held) if (held.size > KEPT && !seen.has(old)) old.evict();
    play();
  }
  drop() {
    for (const f of this.frames) f.close();
    this.frames = [];
    held.delete(this);
  }
  /** Makes room; what it showed is drawn again once it comes into sight. */
  evict() {
    this.drop();
    this.asked = false;
  }
  inSight() {
    return seen.has(this);
  }
  /** Draws the frame of an instant, in s. @param {number} at */
  paint(at2) {
    if (this.frames.length === 0 || !this.loop) return;
    const share = at2 / Math.min(this.loop.seconds, SLOWEST) % 1;
    const frame = this.frames[Math.floor(share * this.frames.length)];
    const thread = this.canvas.nextElementSibling;
    if (thread instanceof HTMLElement && this.frames.length > 1) thread.style.transform = `scaleX(${share})`;
    if (frame === this.shown) return;
    this.shown = frame;
    if (this.canvas.width !== frame.width) Object.assign(this.canvas, { width: frame.width, height: frame.height });
    this.canvas.getContext("2d")?.drawImage(frame, 0, 0);
  }
};
var playing = false;
function play() {
  if (playing) return;
  playing = true;
  requestAnimationFrame(step);
}
function step(now) {
  for (const s of seen) s.paint(still.matches ? 0 : now / 1e3);
  playing = !still.matches && [...seen].some((s) => s.frames.length > 0);
  if (playing) requestAnimationFrame(step);
}

// script/cards.js
var WIDE = 192;
var READY = { good: "ready", fair: "look", unknown: "ready, as far as is known", bad: "not ready" };
function card(shot) {
  const canvas = make("canvas", { width: WIDE, height: WIDE * 9 / 16, "aria-hidden": "true" });
  const title = make("b", {}, shot.file.replace(/\.toml$/, ""));
  const length = make("span", {});
  const mark2 = make("p.mark-words.unknown", {}, "…");
  const none = make("span.none-words", {});
  const li = make("li", {}, make(
    "a.card",
    { href: addressOf(shot.file), "data-file": shot.file },
    make("div.small-loop", {}, canvas, make("i.thread", {}), none),
    title,
    make("p.file", {}, make("span", {}, shot.file), " ", length),
    mark2,
    shot.unsaved ? make("p.unsaved", {}, "◆ ", shot.gone ? "not saved yet, kept for you" : "has changes that were not saved") : null
  ));
  const small2 = new Small(canvas);
  inTurn(0, () => li.isConnected, () => look(shot.file, { li, title, length, mark: mark2, none, small: small2 }));
  return li;
}
async function look(file, parts) {
  let told;
  try {
    told = await ask("card", {}, void 0, file);
  } catch (err) {
    return unread(parts, refusal(err).message);
  }
  words(parts.title, told.title);
  if (told.faults.length) {
    const [f] = told.faults;
    return unread(parts, `${f.line ? `line ${f.line}: ` : ""}${f.text}`, told.faults.length);
  }
  words(parts.length, `${told.seconds.toFixed(1)} s`);
  headline(parts.mark, told.headline, told.headline.level === "unknown");
  if (told.pictured) parts.small.show({ path: "preview", question: { text: told.text }, of: file, frames: told.frames, seconds: told.seconds, width: WIDE });
  else words(parts.none, "no scene to draw");
  if (told.headline.level !== "bad") inTurn(3, () => parts.li.isConnected, async () => headline(parts.mark, (await ask("controller", { text: told.text }, void 0, file)).headline, false));
}
function headline(el, told, pending) {
  const [mark2, word] = pending ? ["…", "being looked at"] : [MARKS[told.level].sign, READY[told.level]];
  el.className = "mark-words " + (pending ? "unknown" : told.level);
  el.title = told.words;
  el.replaceChildren(make("span.mark", { "aria-hidden": "true" }, mark2), " " + word);
}
function unread(parts, why, faults = 1) {
  parts.mark.className = "mark-words bad";
  parts.mark.replaceChildren(make("span.mark", { "aria-hidden": "true" }, MARKS.bad.sign), " cannot be read");
  parts.none.parentElement?.classList.add("broken");
  words(parts.none, why + (faults > 1 ? `, and ${faults - 1} more` : ""));
}
function kindCard(kind, chosen) {
  const canvas = make("canvas", { width: WIDE, height: WIDE * 9 / 16, "aria-hidden": "true" });
  const b = button("", () => chosen(kind), { class: "card kind", "data-kind": kind.name, disabled: kind.why !== "" });
  b.append(make("div.small-loop", {}, kind.why ? make("span.none-words", {}, "not on this rig") : canvas, make("i.thread", {})), make("b", {}, kind.name.replaceAll("-", " ")), make("p.file", {}, kind.line), kind.why ? make("p.why", {}, kind.why) : "");
  return { li: make("li", {}, b), small: kind.why ? null : new Small(canvas) };
}

// script/begin.js
var PAUSE = 220;
var RESTED = 700;
var WIDE2 = 320;
var dialog = at("begin");
var small = new Small(at("begin-picture"), 0);
var inputs = (
  /** @type {Map<string, {input: HTMLInputElement, range: HTMLElement, wrong: HTMLElement}>} */
  /* @__PURE__ */ new Map()
);
var of2 = (
  /** @type {{ kind?: string } & OnRig} */
  {}
);
var answers = (
  /** @type {Record<string, string>} */
  {}
);
var waiting2 = 0;
var asked = 0;
var resting = 0;
async function begin(kind, rig2) {
  of2 = { kind: kind.name, ...rig2 };
  answers = {};
  words(at("begin-name"), kind.name.replaceAll("-", " "));
  words(at("begin-line"), kind.line);
  words(at("begin-file-wrong"), "");
  at("begin-questions").replaceChildren();
  at("begin-headline").replaceChildren();
  const told = await look2(true);
  if (!told) return;
  at("begin-file").value = told.file;
  dialog.showModal();
  (at("begin-questions").querySelector("input") ?? at("begin-file")).focus();
}
async function look2(first = false) {
  const number = ++asked;
  let told;
  try {
    told = await ask("kind", { ...of2, answers });
  } catch (err) {
    if (number === asked) sayError(err);
    return null;
  }
  if (number !== asked) return null;
  if (first) inputs.clear();
  if (first) at("begin-questions").replaceChildren(...told.questions.map(question));
  for (const q of told.questions) mark(q);
  const wrong = told.questions.some((q) => q.wrong);
  at("begin-go").disabled = wrong || told.why !== "";
  words(at("begin-rig"), told.rigFile ? `Its rig is ${told.rigFile}${told.writes ? ", which is written beside it" : ""}.` : "");
  headline2(told, wrong);
  clearTimeout(resting);
  if (!wrong && !told.why && told.headline.ready) resting = window.setTimeout(() => void fully(number), RESTED);
  if (told.frames) small.show({ path: "kind/picture", question: { ...of2, answers: { ...answers } }, frames: told.frames, seconds: told.seconds, width: WIDE2 });
  return told;
}
async function fully(number) {
  try {
    const told = await ask("kind", { ...of2, answers, fully: true });
    if (number === asked) headline2(told, false);
  } catch (err) {
    if (number === asked) sayError(err);
  }
}
function headline2(told, wrong) {
  const bad = told.why || told.faults.map((f) => f.text).join("; ") || (wrong ? "One of the numbers would not do." : "");
  const h = told.headline;
  const level = bad ? "bad" : h.level;
  at("begin-headline").className = level;
  at("begin-headline").replaceChildren(
    make("span.mark", { "aria-hidden": "true" }, MARKS[level].sign),
    " " + (bad || `${told.seconds.toFixed(1)} s. ${h.words}`)
  );
}
function question(q) {
  const id = "asked-" + q.name;
  const input = make("input", { id, name: q.name, type: "text", value: q.value, spellcheck: "false", "aria-describedby": id + "-range " + id + "-wrong" });
  input.addEventListener("input", () => {
    answers[q.name] = input.value.trim();
    if (answers[q.name] === "") delete answers[q.name];
    clearTimeout(waiting2);
    waiting2 = window.setTimeout(() => void look2(), PAUSE);
  });
  const range = make("small", { id: id + "-range" });
  const wrong = make("small.wrong", { id: id + "-wrong", role: "alert" });
  inputs.set(q.name, { input, range, wrong });
  return make("label.asked", { for: id }, make("span.ask", {}, q.ask), input, range, wrong);
}
function mark(q) {
  const parts = inputs.get(q.name);
  if (!parts) return;
  const { input, range, wrong } = parts;
  if (answers[q.name] === void 0 && document.activeElement !== input) input.value = q.value;
  input.placeholder = q.value;
  input.setAttribute("aria-invalid", String(q.wrong !== ""));
  words(range, `${q.name}, ${q.least} to ${q.most}`);
  words(wrong, q.wrong);
}
at("begin-form").addEventListener("submit", async (e) => {
  e.preventDefault();
  at("begin-go").disabled = true;
  try {
    const { file } = await ask("begin", { ...of2, answers, file: at("begin-file").value });
    location.assign(addressOf(file));
  } catch (err) {
    words(at("begin-file-wrong"), refusal(err).first);
    at("begin-go").disabled = false;
  }
});
at("begin-file").addEventListener("input", () => words(at("begin-file-wrong"), ""));
at("begin-away").addEventListener("click", () => dialog.close());
dialog.addEventListener("close", () => {
  asked++;
  clearTimeout(waiting2);
  clearTimeout(resting);
  small.show(null);
});

// script/shelf.js
var AGAIN = 2e3;
var WIDE3 = 192;
var known = "";
async function look3() {
  let told;
  try {
    told = await ask("shelf", {});
  } catch (err) {
    const { status, message } = refusal(err);
    gone(status ? message : GONE, !status);
    if (!status) setTimeout(look3, AGAIN);
    return;
  }
  gone("");
  words(at("folder"), told.folder);
  words(at("version"), told.version);
  const as = JSON.stringify([told.shots, told.left]);
  if (as !== known) list(told);
  known = as;
  rigs(told);
  document.body.classList.add("ready");
}
function list({ shots, left, driving }) {
  document.body.classList.toggle("empty", shots.length === 0);
  const some = shots.length === 0 ? "There is no shot in this folder yet." : driving ? "A page drives a rig just now." : "";
  words(at("here-words"), left ? `${some} ${left} more are not shown.`.trim() : some);
  at("cards").replaceChildren(...shots.map(card));
}
function rigs({ rigs: rigs2, builtIn }) {
  const as = JSON.stringify(rigs2);
  if (at("new-rig").dataset.as === as) return;
  at("new-rig").dataset.as = as;
  const was = at("new-rig").value;
  const there = rigs2.map((r) => make("option", { value: "file:" + r.file, disabled: r.why !== "" }, r.why ? `${r.file}, which cannot be read` : `${r.name}, ${r.file}`));
  const ours = builtIn.map((b) => make("option", { value: "kind:" + b.controller }, `${b.name}, ${b.controller}`));
  at("new-rig").replaceChildren(...there.length ? [make("optgroup", { label: "Rigs of this folder" }, ...there)] : [], make("optgroup", { label: "Built in, to be measured later" }, ...ours));
  if ([...at("new-rig").options].some((o) => o.value === was)) at("new-rig").value = was;
  else void kinds();
}
var rig = () => {
  const [sort, ...rest] = at("new-rig").value.split(":");
  const name = rest.join(":");
  return { rig: sort === "file" ? name : "", controller: sort === "kind" ? name : "", noTable: !at("new-table").checked };
};
async function kinds() {
  const on = rig();
  try {
    const all = await ask("kinds", on);
    at("kinds").replaceChildren(...all.map((kind) => {
      const { li, small: small2 } = kindCard(kind, (k) => begin(k, on));
      if (small2) inTurn(1, () => !li.isConnected || small2.inSight(), () => picture(li, small2, { kind: kind.name, ...on }));
      return li;
    }));
  } catch (err) {
    sayError(err);
  }
}
async function picture(li, small2, question2) {
  if (!li.isConnected) return;
  const { frames, seconds } = await ask("kind", question2);
  small2.show({ path: "kind/picture", question: question2, frames, seconds, width: WIDE3 });
}
function beside(e) {
  const link = e.target instanceof Element && e.target.closest("a.card");
  if (!(link instanceof HTMLAnchorElement) || !(e.ctrlKey || e.metaKey || e.button === 1)) return;
  e.preventDefault();
  void openBeside(link.href);
}
for (
  const kind of
  /** @type {const} */
  ["click", "auxclick"]
) at("cards").addEventListener(kind, beside);
at("new-rig").addEventListener("change", kinds);
at("new-table").addEventListener("change", kinds);
document.addEventListener("visibilitychange", () => document.hidden || look3());
addEventListener("pageshow", (e) => e.persisted && look3());
void look3();
void listen("drive/watch", () => ({}), ({ drive }) => drive && heardDrive(drive));
