import {
  GONE,
  ask,
  givenUp,
  keepClaim,
  lastWord,
  lines,
  refusal,
  regained,
  whole
} from "./shared-1.js";

// script/make.js
var SVG = "http://www.w3.org/2000/svg";
function make(kind, props, ...children) {
  return (
    /** @type {HtmlOf<K>} */
    filled(document.createElement(kind.split(".")[0]), kind, props, children)
  );
}
function draw(kind, props, ...children) {
  return (
    /** @type {SvgOf<K>} */
    filled(document.createElementNS(SVG, kind.split(".")[0]), kind, props, children)
  );
}
function filled(el, kind, props, children) {
  const classes = kind.split(".").slice(1);
  if (classes.length) el.classList.add(...classes);
  for (const [name, value] of Object.entries(props ?? {})) set(el, name, value);
  for (const c of children.flat()) if (c !== null && c !== void 0 && c !== false) el.append(c);
  return el;
}
function set(el, name, value) {
  if (value === null || value === void 0 || value === false) return;
  if (typeof value === "function") el.addEventListener(
    name.slice(2),
    /** @type {EventListener} */
    value
  );
  else if (name === "value") el.value = String(value);
  else el.setAttribute(name, value === true ? "" : String(value));
}
var at = (id) => (
  /** @type {Parts[K]} */
  document.getElementById(id)
);
function words(el, text) {
  if (el.textContent !== text) el.textContent = text;
}
function mark(el, name, value) {
  if (el.getAttribute(name) !== String(value)) el.setAttribute(name, String(value));
}
function button(text, onclick, props) {
  return make("button", { type: "button", onclick, ...props }, text);
}
function fill(el, as, content) {
  if (el.dataset.as === as) return;
  el.dataset.as = as;
  el.replaceChildren(...content());
}

// script/shot.js
var shot = {
  text: "",
  saved: "",
  // the text on disk, as last heard
  revision: "",
  view: (
    /** @type {Wire.View} */
    /** @type {unknown} */
    null
  ),
  // of the last text that could be planned; null before the first, when nothing is told
  faults: (
    /** @type {Wire.Fault[]} */
    []
  ),
  // of text
  planned: "",
  // the text that these are of: what is typed is planned once it rests
  start: (
    /** @type {Wire.Start} */
    /** @type {unknown} */
    null
  ),
  // null until the program has answered
  step: 0,
  // the number of the change that the view is of
  asked: 0,
  // that of the newest change
  pending: false,
  // whether the newest change is still being planned
  dragged: false,
  // whether more of the same change is to come
  glanced: false,
  // whether the view is at a glance, and a closer look at the same is under way
  began: 0
  // when the change was made that led to the view, in ms of the page's clock
};
var hearers = /* @__PURE__ */ new Map();
function on(name, f) {
  hearers.set(name, [...hearers.get(name) ?? [], f]);
}
function tell(name, ...what) {
  for (const f of hearers.get(name) ?? []) f(
    /** @type {never} */
    what[0]
  );
}
var unsaved = () => shot.text !== shot.saved || Boolean(shot.start?.new && shot.revision === "");
var frameOf = (place) => Math.floor(place + 1e-6);
var timelinePerFrame = (view) => view.timelineFrames / view.frames;
function position(axis, frame, view = shot.view) {
  const at2 = Math.min(Math.max(frame / view.every, 0), axis.pos.length - 1);
  const low = Math.floor(at2);
  const a = axis.pos[low];
  const b = axis.pos[Math.min(low + 1, axis.pos.length - 1)];
  return a + (b - a) * (at2 - low);
}
var turned = (axis) => axis.pos[axis.pos.length - 1] - axis.pos[0];
function number(x, places = 1) {
  const text = x.toFixed(places);
  return Number(text) === 0 ? 0 .toFixed(places) : text.replace("-", "−");
}

// script/marks.js
var MARKS = {
  good: { sign: "●", word: "holds", many: "hold" },
  fair: { sign: "◆", word: "look at it", many: "to look at" },
  bad: { sign: "▲", word: "does not hold", many: "do not hold" },
  unknown: { sign: "○", word: "not known", many: "not known" }
};

// script/notice.js
var LINGERS = 9e3;
function say(text, kind = "good") {
  const away = button("Put away", () => note.remove(), { class: "quiet" });
  const note = make("div.note." + kind, { role: kind === "bad" ? "alert" : "status" }, make("span.mark", { "aria-hidden": "true" }, MARKS[kind].sign), make("span", {}, text), away);
  for (const old of at("notes").children) if (old.children[1].textContent === text) old.remove();
  at("notes").append(note);
  if (kind !== "bad") setTimeout(() => note.remove(), LINGERS);
}
function sayError(err) {
  if (!givenUp(err)) say(refusal(err).words, "bad");
}

// script/another.js
async function openBeside(address) {
  try {
    const { once } = await ask("window", {});
    make("a", { href: `${address}#once=${once}`, target: "_blank", rel: "noopener" }).click();
  } catch (err) {
    sayError(err);
  }
}

// script/driver.js
var BEAT = 250;
var STALE = 400;
var rig = (
  /** @type {Wire.DriveState} */
  /** @type {unknown} */
  null
);
var claim = "";
var beating = 0;
var called = 0;
var mine = () => claim !== "";
var STILL = /* @__PURE__ */ new Set(["no rig", "opening", "reading settings", "position unknown", "ready", "cautions", "held", "waiting for the hand", "over"]);
var moving = () => Boolean(rig?.open) && (!STILL.has(rig.state) || Boolean(rig.held?.moving));
async function open(port, how) {
  try {
    hold((await ask("drive/open", { text: shot.text, port, ...how })).claim);
  } catch (err) {
    sayError(err);
  }
}
function hold(now) {
  claim = now;
  keepClaim(claim);
  beating = setInterval(beat, BEAT);
  void beat();
  void stay();
  tell("drive");
}
void regained.then((was) => {
  if (!was) return;
  whole();
  hold(was);
  say("This page was loaded anew, and has the rig in hand again.", "fair");
});
async function beat() {
  try {
    await ask("drive/beat", { claim });
  } catch (err) {
    if (refusal(err).status === 423) letGo();
  }
}
async function stay() {
  for (const own = claim; own === claim; ) {
    await lines("drive/stay", { claim: own }, () => {
    }).catch(() => {
    });
    await new Promise((resolve) => setTimeout(resolve, BEAT));
  }
}
function letGo() {
  clearInterval(beating);
  claim = "";
  keepClaim("");
  tell("drive");
}
async function want(request, more = {}) {
  try {
    return await ask("drive/do", { claim, request, ...more });
  } catch (err) {
    if (request === "stop" || request === "abort") return stopAsAny(request === "abort");
    sayError(err);
    return null;
  }
}
async function stopAsAny(again) {
  try {
    return await ask("drive/stop", { again });
  } catch (err) {
    if (refusal(err).status !== 409) sayError(err);
    return null;
  }
}
function stop() {
  if (!rig?.open) return;
  const again = rig.takes.includes("abort");
  void (mine() ? want(again ? "abort" : "stop") : stopAsAny(again));
}
var lastBeat = () => mine() && lastWord("drive/beat", { claim });
addEventListener("beforeunload", (e) => {
  lastBeat();
  if (mine() && moving()) e.preventDefault();
});
addEventListener("pagehide", lastBeat);
var drawn = true;
function heardDrive(state) {
  const ended = rig?.open && !state.open;
  const calls = rig ? state.calls.filter((c) => c.n > called && Date.now() - c.at < STALE) : [];
  called = Math.max(called, ...state.calls.map((c) => c.n));
  rig = { ...state, pos: state.pos ?? [] };
  if (ended && mine()) letGo();
  if (calls.length) tell("call", calls);
  if (!drawn) return;
  drawn = false;
  requestAnimationFrame(() => {
    drawn = true;
    tell("drive");
  });
}

// script/dead.js
var KEPT = "seamrail-rig";
var OFTEN = 1e3;
var SILENT = 4e3;
var SILENT_HELD = 2500;
var told = "";
var toldAt = 0;
var seen = false;
function keep() {
  const known = rig && { open: rig.open, where: rig.where, runsOn: rig.runsOn };
  const now = performance.now();
  if (!known || JSON.stringify([known.open, known.where]) === told && now - toldAt < OFTEN) return;
  told = JSON.stringify([known.open, known.where]);
  toldAt = now;
  localStorage.setItem(KEPT, JSON.stringify(known));
}
on("drive", keep);
var last = () => document.hidden || !rig ? JSON.parse(localStorage.getItem(KEPT) ?? "null") : rig;
var patience = () => last()?.open ? SILENT_HELD : SILENT;
var runs = make("p", {});
var second = make("p", {}, "Where seamrail could begin a second process for that, this tells the rig to hold; whether it was heard cannot be known here.");
at("dead").append(
  make("h2", {}, "seamrail does not answer, and it had a rig in hand"),
  make("p", {}, make("b", {}, "Cut the power of the rig now."), " Neither this page nor its Stop reaches it any more."),
  runs,
  second,
  button("I have seen it", () => {
    seen = true;
    at("dead").hidden = true;
  }, { id: "dead-seen", class: "strong" })
);
function gone(text, lost = false) {
  const held2 = lost && last();
  words(at("gone"), text);
  at("gone").hidden = text === "";
  if (text === "") seen = false;
  const large = held2 && held2.open && !seen;
  if (large) {
    words(runs, held2.runsOn);
    second.hidden = held2.where === "virtual";
  }
  at("dead").hidden = !large;
}

// script/listen.js
var AGAIN = 1e3;
var heardAt = 0;
var listening = null;
var listenAnew = () => listening?.abort();
var behind = () => document.hidden && !mine();
document.addEventListener("visibilitychange", () => behind() && listenAnew());
function inSight() {
  heardAt = 0;
  return new Promise((resolve) => document.addEventListener("visibilitychange", resolve, { once: true }));
}
async function listen(path, question, hear) {
  for (; ; ) {
    while (behind()) await inSight();
    const { signal } = listening = new AbortController();
    try {
      await lines(path, question(), (news) => {
        heardAt = performance.now();
        gone("");
        queueMicrotask(() => hear(news));
      }, signal);
    } catch (err) {
      const { status, message } = refusal(err);
      if (status === 403) {
        heardAt = 0;
        return gone(message);
      }
    }
    if (behind() || signal.aborted) continue;
    gone(GONE, true);
    await new Promise((resolve) => setTimeout(resolve, AGAIN));
  }
}
setInterval(() => heardAt && performance.now() - heardAt > patience() && gone(GONE, true), AGAIN);

// script/stop.js
var TYPED = "input:not([type=radio]):not([type=checkbox]), textarea, select";
at("stop").addEventListener("click", stop);
on("drive", () => {
  at("stop").hidden = !rig?.open;
  words(at("stop-words"), rig?.takes.includes("abort") ? "Stop at once" : "Stop");
  words(at("stop-whose"), mine() ? "space bar" : "of the other tab; space bar");
});
function held(e) {
  if (e.key !== " " || !rig?.open) return false;
  return moving() || !(e.target instanceof Element && e.target.closest(TYPED));
}
for (
  const kind of
  /** @type {const} */
  ["keydown", "keyup"]
) addEventListener(kind, (e) => {
  if (!held(e)) return;
  e.preventDefault();
  e.stopImmediatePropagation();
  if (kind === "keydown" && !e.repeat) stop();
}, { capture: true });

// script/rigwords.js
var STATES = {
  "opening": "Waiting for the board",
  "reading settings": "Reading its settings",
  "position unknown": "Where it stands is not known",
  "homing": "Moving to its switches",
  "ready": "Ready, at rest",
  "going to a frame": "Going to a frame",
  "going to the start": "Going to the start",
  "cautions": "At rest, waiting for your word",
  "counting in": "Counting in",
  "running": "Running",
  "slowing down": "Slowing down",
  "moving on what it holds": "Moving on what it holds",
  "held": "Held, at rest",
  "waiting for the hand": "At rest, waiting for the hand",
  "returning": "Going back to the start",
  "over": "Let go of"
};
var stateWords = (rig2) => rig2.held?.moving && rig2.state === "ready" ? "Moved by hand" : STATES[rig2.state] ?? rig2.state;
var IN_TAKE = /* @__PURE__ */ new Set(["counting in", "running", "slowing down", "moving on what it holds", "held", "waiting for the hand"]);
var ON_CURVE = /* @__PURE__ */ new Set(["running", "slowing down", "moving on what it holds", "held", "waiting for the hand"]);
var onCurve = (rig2, plan) => rig2?.open && ON_CURVE.has(rig2.state) && rig2.plan === plan && rig2.seen && rig2.seen.round >= 0 && !rig2.seen.back ? rig2.seen : null;
function takeWords(rig2) {
  if (!IN_TAKE.has(rig2.state) || rig2.state === "counting in") return "";
  return rig2.take > 0 ? `${rig2.where === "virtual" ? "virtual take" : "take"} ${rig2.take}` : "walk";
}
function roundWords(rig2) {
  if (!ON_CURVE.has(rig2.state)) return "";
  if (rig2.of > 0) return `${rig2.taken} of ${rig2.of} frames taken`;
  if (rig2.round < 0) return "run-up";
  return `round ${rig2.round + 1}${rig2.rounds > 0 ? ` of ${rig2.rounds}` : ""}${rig2.back ? ", on the way back" : ""}`;
}
function frameWords(rig2) {
  return ON_CURVE.has(rig2.state) && rig2.round >= 0 && !rig2.back ? `frame ${rig2.frame}, ${rig2.timecode}` : "";
}
function nextWords(rig2) {
  if (rig2.state === "waiting for the hand" && rig2.calls.length) return `Take ${rig2.calls.at(-1)?.text}`;
  return rig2.next && rig2.state === "running" ? `Next hand: ${rig2.next.text}, ${rig2.next.in < 1 ? "now" : `in ${Math.floor(rig2.next.in)} s`}` : "";
}
var extent = (t) => t.of || t.frames ? `${t.frames}${t.of ? ` of ${t.of}` : ""} frames` : `${t.rounds} ${t.rounds === 1 ? "round" : "rounds"}`;
var TOGETHER = 120;
var together = (calls) => calls.filter((c) => calls[calls.length - 1].at - c.at < TOGETHER);
function countOf(calls) {
  const left = Math.min(...calls.map((c) => c.left));
  return left > 0 ? String(left) : calls[calls.length - 1].hand ? "NOW" : "GO";
}

// script/strip.js
var MINE = document.body.classList.contains("shelf") ? "This tab has it in hand; what else it takes is on the page of a shot." : "";
var parts = { state: stateWords, take: takeWords, round: roundWords, frame: frameWords, next: nextWords };
var shown = Object.entries(parts).map(([name, of]) => ({ el: make(name === "state" ? "b" : "span", { id: "strip-" + name }), of }));
var whose = make("span", { id: "strip-whose" });
at("strip-words").append(...shown.map(({ el }) => el), whose);
on("drive", () => {
  const open2 = Boolean(rig?.open);
  at("strip").hidden = !open2;
  document.body.classList.toggle("mine", mine());
  if (!open2) return room();
  for (const { el, of } of shown) words(el, of(rig));
  words(whose, mine() ? MINE : "Another tab drives; its Stop is here as well.");
  room();
});
function room() {
  const head = at("head").offsetHeight + parseFloat(getComputedStyle(at("head")).top), strip = at("strip").offsetHeight;
  for (const { style } of [document.documentElement, document.body]) {
    style.setProperty("--bar", head + "px");
    if (strip) style.setProperty("--head", head + strip + "px");
    else style.removeProperty("--head");
  }
}
new ResizeObserver(room).observe(at("head"));
new ResizeObserver(room).observe(at("strip"));

export {
  make,
  draw,
  at,
  words,
  mark,
  button,
  fill,
  shot,
  on,
  tell,
  unsaved,
  frameOf,
  timelinePerFrame,
  position,
  turned,
  number,
  MARKS,
  say,
  sayError,
  openBeside,
  rig,
  mine,
  moving,
  open,
  want,
  heardDrive,
  gone,
  listenAnew,
  listen,
  onCurve,
  extent,
  together,
  countOf,
  TYPED
};
