import {
  MARKS,
  TYPED,
  at,
  button,
  countOf,
  draw,
  extent,
  fill,
  frameOf,
  gone,
  heardDrive,
  listen,
  listenAnew,
  make,
  mark,
  mine,
  moving,
  number,
  on,
  onCurve,
  open,
  openBeside,
  position,
  rig,
  say,
  sayError,
  shot,
  tell,
  timelinePerFrame,
  together,
  turned,
  unsaved,
  want,
  words
} from "./shared-2.js";
import {
  ask,
  askFile,
  givenUp,
  lastWord,
  lines,
  nameShot,
  pictures,
  refusal,
  sendFile,
  told
} from "./shared-1.js";

// script/work.js
var SOON = 300;
var TICK = 100;
var under = /* @__PURE__ */ new Set();
var ticking = 0;
var list = at("work");
async function working(name2, f, outer) {
  const work3 = { name: name2, began: performance.now(), own: new AbortController() };
  outer?.addEventListener("abort", () => work3.own.abort(), { once: true });
  under.add(work3);
  ticking ||= setInterval(tell2, TICK);
  try {
    return await f(work3.own.signal);
  } finally {
    under.delete(work3);
    work3.row?.remove();
    list.hidden = list.childElementCount === 0;
    if (under.size === 0) clearInterval(ticking), ticking = 0;
  }
}
function tell2() {
  for (const work3 of under) {
    const sec = (performance.now() - work3.began) / 1e3;
    if (sec * 1e3 < SOON) continue;
    words(work3.said ?? begin(work3), `${sec.toFixed(1)} s`);
  }
}
function begin(work3) {
  const said3 = work3.said = make("span.seconds", { "aria-hidden": "true" });
  work3.row = make("p", {}, make("span.what", {}, `Working out ${work3.name}`), " ", said3, " ", button("Give up", () => work3.own.abort(), { class: "give-up", "aria-label": `Give up ${work3.name}` }));
  list.append(work3.row);
  list.hidden = false;
  return said3;
}

// script/planner.js
var past = [];
var future = [];
var PROMPT = 60;
var asking = false;
var long = true;
var next = null;
var closer = null;
var settled = [];
var MEASURE = "change to plan on screen";
function change(edits, { text, before: before2 = shot.text, last: last2 = true, label = "change" } = {}) {
  return queue({ text: text ?? shot.text, edits, before: before2, last: last2, label, atHand: text === void 0, whole: false });
}
function retext(text, label = "text", before2 = shot.text) {
  return queue({ text, edits: [], before: before2, last: true, label, atHand: false, whole: true });
}
function queue(asked4) {
  const job = { ...asked4, began: performance.now(), id: ++shot.asked, earlier: [] };
  shot.pending = true;
  if (job.whole) shot.text = job.text;
  if (next?.atHand && job.atHand) job.earlier = [...next.earlier, next];
  next = job;
  closer?.abort();
  const done2 = (
    /** @type {Promise<Wire.Answer | null>} */
    new Promise((resolve) => settled.push(resolve))
  );
  void work();
  tell("asked", job);
  return done2;
}
async function work() {
  if (asking || !next) return;
  const job = next.earlier.shift() ?? next;
  if (job === next) next = null;
  if (job.atHand) job.text = job.before = shot.text;
  asking = true;
  tell("asking");
  let answer2 = null;
  try {
    answer2 = await planned(job);
  } catch (err) {
    if (!givenUp(err)) sayError(err);
    else if (!next) say(`Given up: ${shot.step === job.id ? "the verdicts are those of a glance" : "what is drawn is the plan before"}.`, "fair");
  }
  asking = false;
  if (next) return void work();
  if (shot.glanced) {
    shot.glanced = false;
    tell("view");
  }
  done(answer2);
}
function done(answer2) {
  shot.pending = false;
  tell("planned");
  const waiting5 = settled;
  settled = [];
  for (const resolve of waiting5) resolve(answer2);
}
async function planned(job) {
  let quick = !job.last || long;
  const asked4 = () => working("the plan", (signal) => ask("plan", { text: job.text, edits: job.edits, quick }, signal));
  let answer2 = await asked4();
  if (!answer2.view && quick && job.last) {
    quick = false;
    answer2 = await asked4();
  }
  const more3 = quick && job.last && answer2.view !== null && !next;
  take(answer2, job, more3);
  if (!more3) return noted(answer2, quick);
  if (next) return answer2;
  done(answer2);
  closer = new AbortController();
  const whole4 = await working("the verdicts in full", (signal) => ask("plan", { text: answer2.text, edits: [], quick: false }, signal), closer.signal);
  if (shot.text === answer2.text) show(whole4, { ...job, whole: false }, false);
  return noted(whole4, false);
}
function noted(answer2, quick) {
  if (!quick && answer2.view) long = answer2.ms > PROMPT;
  return answer2;
}
function take(answer2, job, more3) {
  if (shot.text !== job.text) {
    if (job.whole) return;
    if (job.atHand) return void change(job.edits, { last: job.last, label: job.label });
  }
  const refused = answer2.refused || answer2.faults.length > 0 && !job.whole && answer2.text === job.text;
  if (refused && job.last) {
    for (const f of answer2.faults) say(told(f), "bad");
  }
  if (refused) return;
  if (job.last && answer2.text !== job.before) remember(job.before, job.label);
  show(answer2, job, more3);
  requestAnimationFrame(() => performance.measure(MEASURE, { start: job.began, end: performance.now() }));
}
function show(answer2, job, more3) {
  const same = answer2.text === shot.text && !job.whole;
  shot.text = answer2.text;
  shot.faults = answer2.faults;
  shot.planned = answer2.text;
  shot.began = job.began;
  shot.dragged = !job.last || more3;
  shot.glanced = more3;
  if (answer2.view) Object.assign(shot, { view: { ...answer2.view, takes: answer2.view.takes ?? shot.view?.takes ?? [] }, step: job.id });
  if (!same) tell("text");
  if (answer2.view) tell("view");
  tell("faults");
  tell("disk");
}
function remember(text, label, beside4 = null) {
  past.push({ text, label, beside: beside4 });
  future.length = 0;
  tell("history");
}
var putsBack = async (beside4) => beside4;
var besideShot = (f) => void (putsBack = f);
async function step(from2, to) {
  const was2 = from2.pop();
  if (!was2) return;
  let beside4 = null;
  try {
    if (was2.beside) beside4 = await putsBack(was2.beside);
  } catch (err) {
    sayError(err);
    tell("history");
    return;
  }
  to.push({ text: shot.text, label: was2.label, beside: beside4 });
  await queue({ text: was2.text, edits: [], before: was2.text, last: true, label: was2.label, atHand: false, whole: true });
  tell("history");
}
var undo = () => step(past, future);
var redo = () => step(future, past);
var undoes = () => past.at(-1)?.label;
var redoes = () => future.at(-1)?.label;

// script/playhead.js
var PACES = { shown: "As shown", half: "Half", real: "Real time" };
var playhead = { frame: 0, playing: false, pace: (
  /** @type {Pace} */
  "shown"
), seam: false };
var watchers = [];
var last = 0;
var follow = (f) => watchers.push(f);
function refresh() {
  for (const f of watchers) f(playhead);
}
function seamReach() {
  const { frames: frames2, loopScreenSeconds } = shot.view;
  return Math.min(frames2 / 4, frames2 / loopScreenSeconds / 2);
}
var wrap = (frame2, frames2) => (frame2 % frames2 + frames2) % frames2;
function wholeFrame(frame2) {
  const per = timelinePerFrame(shot.view);
  return frameOf(frame2 * per) / per;
}
on("view", () => playhead.frame = Math.min(playhead.frame, shot.view.frames - 1));
function goTo(frame2) {
  if (!shot.view) return;
  playhead.frame = wrap(frame2, shot.view.frames);
  refresh();
}
function stepBy(count3) {
  if (!shot.view) return;
  pause();
  const per = timelinePerFrame(shot.view);
  const from2 = Math.round(playhead.frame * per);
  goTo((from2 + count3) / per);
}
function pause() {
  if (playhead.playing) playhead.frame = wholeFrame(playhead.frame);
  playhead.playing = false;
  refresh();
}
function play() {
  if (!shot.view || playhead.playing) return;
  playhead.playing = true;
  last = performance.now();
  requestAnimationFrame(tick);
  refresh();
}
var playOrPause = () => playhead.playing ? pause() : play();
function setPace(pace) {
  playhead.pace = pace;
  refresh();
}
function holdSeam() {
  pause();
  goTo(0);
}
function loopSeam(on4) {
  playhead.seam = on4;
  if (on4) goTo(-seamReach());
  refresh();
}
function speed() {
  const { frames: frames2, loopScreenSeconds, captureHz } = shot.view;
  const shown5 = frames2 / loopScreenSeconds;
  return { shown: shown5, half: shown5 / 2, real: captureHz }[playhead.pace];
}
function tick(now2) {
  if (!playhead.playing) return;
  const gone4 = Math.min((now2 - last) / 1e3, 0.25);
  last = now2;
  const before2 = Math.floor(playhead.frame);
  playhead.frame = onward(playhead.frame + gone4 * speed());
  if (Math.floor(playhead.frame) !== before2) refresh();
  requestAnimationFrame(tick);
}
function onward(frame2) {
  const { frames: frames2 } = shot.view;
  const reach = seamReach();
  const at2 = wrap(frame2, frames2);
  if (playhead.seam && at2 > reach && at2 < frames2 - reach) return frames2 - reach;
  return at2;
}

// script/apart.js
var side = (lines2) => lines2.map((l) => make(l.own ? "span.only" : "span", {}, `${l.own ? "◆" : " "} ${l.text}
`));
async function showApart(here4, there) {
  at("conflict-here").textContent = here4;
  at("conflict-there").textContent = there;
  try {
    const lines2 = await ask("apart", { here: here4, there });
    at("conflict-here").replaceChildren(...side(lines2.here));
    at("conflict-there").replaceChildren(...side(lines2.there));
  } catch (err) {
    sayError(err);
  }
}

// script/disk.js
var theirs = null;
async function save() {
  if (theirs) return void at("conflict-name").focus();
  await write(shot.text, shot.revision);
}
async function write(text, revision) {
  try {
    const answer2 = await ask("save", { text, revision });
    written(text, answer2.revision);
    say(`Saved as ${shot.start.file}.`);
  } catch (err) {
    const { status, body } = refusal(err);
    if (status !== 409) return sayError(err);
    against(
      /** @type {Wire.conflict} */
      body
    );
  }
}
function written(text, revision) {
  shot.saved = text;
  shot.revision = revision;
  shot.start.new = false;
  settle();
  tell("disk");
}
function heard(news) {
  if (news.gone) return gone2(news.error ?? "");
  if (news.error) return say(news.error, "bad");
  if (news.revision === shot.revision && !shot.start.new) return settle();
  if (news.revision === "") return;
  if (news.text === shot.text) return written(news.text, news.revision);
  if (unsaved()) return against(news);
  const was2 = shot.text;
  shot.saved = news.text;
  shot.revision = news.revision;
  void retext(news.text, "what was written on disk", was2);
  say("Another program wrote the file; this is it now. Undo brings back what was here.", "fair");
}
function gone2(why) {
  settle();
  shot.revision = "";
  shot.start.new = true;
  say(why, "fair");
  tell("disk");
}
function heardUnder({ files, own: own3 }) {
  void retext(shot.text);
  if (files.includes(shot.start.rigFile)) void rigAgain();
  if (!own3) say(`Another program wrote ${files.join(", ")}, which this shot stands on. This is the plan with it.`, "fair");
}
async function rigAgain() {
  try {
    words(at("rig-text"), (await ask("start")).rigText);
  } catch (err) {
    sayError(err);
  }
}
function against(news) {
  theirs = { text: news.text, revision: news.revision };
  at("conflict").hidden = false;
  at("conflict-name").focus();
  void showApart(shot.text, news.text);
}
function settle() {
  theirs = null;
  at("conflict").hidden = true;
}
at("conflict-mine").addEventListener("click", () => {
  if (theirs) void write(shot.text, theirs.revision);
  settle();
});
at("conflict-theirs").addEventListener("click", () => {
  if (!theirs) return;
  const was2 = shot.text;
  const { text, revision } = theirs;
  written(text, revision);
  void retext(text, "the text on disk", was2);
  say("This is the text on disk. Undo brings back what was here.");
});
on("disk", () => {
  const open6 = unsaved();
  words(at("save-state"), shot.start.new ? "not on disk yet" : open6 ? "changed, not saved" : "as on disk");
  at("save-state").classList.toggle("open", open6);
  at("save").disabled = !open6;
  document.title = `${open6 ? "◆ " : ""}${shot.view?.title ?? shot.start.file} – seamrail`;
});

// script/drafts.js
var PAUSE = 500;
var HERE = "seamrail-draft";
var TAB = "seamrail-tab";
var LOCK = "seamrail-draft-";
var left = JSON.parse(sessionStorage.getItem(HERE) ?? "null");
var id = "";
var waiting = 0;
var sending = null;
var kept = "";
var told2 = false;
async function name() {
  id = sessionStorage.getItem(TAB) ?? fresh();
  if (!await hold()) {
    id = fresh();
    await hold();
  }
  sessionStorage.setItem(TAB, id);
}
var fresh = () => Array.from(crypto.getRandomValues(new Uint8Array(12)), (b) => (b % 36).toString(36)).join("");
function hold() {
  if (!navigator.locks) return Promise.resolve(true);
  return new Promise((resolve) => {
    void navigator.locks.request(LOCK + id, { ifAvailable: true }, (lock2) => {
      resolve(lock2 !== null);
      return lock2 && new Promise(() => {
      });
    });
  });
}
async function alive() {
  const all4 = await navigator.locks?.query();
  return new Set((all4?.held ?? []).map((l) => (l.name ?? "").replace(LOCK, "")));
}
on("disk", () => {
  const { text, revision } = shot;
  if (text === shot.saved) sessionStorage.removeItem(HERE);
  else sessionStorage.setItem(HERE, JSON.stringify({ file: shot.start.folder + "/" + shot.start.file, text, revision }));
  later();
});
function later() {
  clearTimeout(waiting);
  waiting = window.setTimeout(keep, shot.text === shot.saved ? 0 : PAUSE);
}
document.addEventListener("visibilitychange", () => document.hidden && keep());
async function keep() {
  clearTimeout(waiting);
  if (!id || !shot.start || sending) return;
  const text = shot.text;
  const asOnDisk = text === shot.saved && !shot.start.new;
  if (asOnDisk ? kept === "" : text === kept) return;
  sending = ask("draft", { id, text, revision: shot.revision });
  try {
    kept = (await sending).kept ? text : "";
    told2 = false;
  } catch (err) {
    const { status, message } = refusal(err);
    if (status && !told2) say(`What is not saved cannot be kept beside the shot: ${message}`, "bad");
    told2 = status > 0;
    kept = "";
  }
  sending = null;
  if (shot.text !== text) later();
}
async function restore(apart2) {
  await name();
  const living = await alive();
  const file2 = shot.start.folder + "/" + shot.start.file;
  const orphans = shot.start.drafts.filter((d) => d.id === id || !living.has(d.id));
  if (left?.file === file2 && left.text !== shot.saved) {
    await take2({ ...left, id }, apart2);
    offer(orphans.filter((d) => d.id !== id && d.text !== left.text));
  } else if (orphans.length > 0) {
    await take2(orphans[0], apart2);
    offer(orphans.slice(1));
  }
}
async function take2(draft, apart2) {
  const disk = { text: shot.saved, revision: shot.revision };
  if (draft.text !== shot.text) await retext(draft.text, "what was not saved", shot.saved);
  await keep();
  if (draft.id !== id && kept === draft.text) void ask("draft", { id: draft.id, text: draft.text, drop: true }).catch(() => {
  });
  if (shot.start.new) say("What was not saved is back. There is no file of it any more; Save writes one.", "fair");
  else if (draft.revision === disk.revision) say("What was not saved is back. Undo takes the file as it is.", "fair");
  else apart2(disk);
}
function offer(drafts) {
  at("left").hidden = drafts.length === 0;
  at("left").replaceChildren(...drafts.map((d) => {
    const when = new Date(d.when).toLocaleString([], { dateStyle: "medium", timeStyle: "short" });
    const p = make(
      "p",
      {},
      `Another tab had something that was not saved either, of ${when}. `,
      button("Take it", () => (gone3(p), retext(d.text, "what another tab had not saved")), { title: "Undo brings back what is here" }),
      " ",
      button("Throw it away", () => (gone3(p), ask("draft", { id: d.id, text: d.text, drop: true }).catch(sayError)), { class: "quiet" })
    );
    return p;
  }));
}
function gone3(p) {
  p.remove();
  at("left").hidden = at("left").children.length === 0;
}
async function letGo() {
  clearTimeout(waiting);
  await sending?.catch(() => {
  });
  if (kept) await ask("draft", { id, text: kept, drop: true }).catch(sayError);
  kept = "";
}
async function renamed() {
  kept = "";
  await keep();
}

// script/takes.js
at("log-take").addEventListener("click", async () => {
  const number2 = (id2) => Number(at(id2).value) || 0;
  const log = { text: shot.text, rounds: number2("log-rounds"), took: number2("log-took"), group: at("log-group").value.trim(), pass: at("log-pass").value.trim() };
  if (await showTakes(void 0, log)) at("log-took").value = "";
});
on("view", () => at("log-rounds").placeholder = String(shot.view.rounds));
async function showTakes(mark3, log) {
  try {
    const { takes } = await ask("takes", { mark: mark3, log });
    const filmed = takes.filter((t) => !t.virtual), virtual = takes.filter((t) => t.virtual);
    anew(at("takes"), filmed.length ? filmed.map(row) : [make("li.none", {}, "No take yet.")]);
    at("virtual-takes").replaceChildren(...virtual.map((t) => make("li", { "data-virtual-take": t.take }, make("p", {}, make("b", {}, `virtual take ${t.take}`), ` ${t.end}, ${extent(t)}${t.group ? `; ${t.group}, pass ${t.pass}` : ""}`))));
    at("virtual-takes-head").hidden = !virtual.length;
    const groups2 = [...new Set(takes.map((t) => t.group).filter(Boolean))];
    at("groups").replaceChildren(...groups2.map((g) => button(`How ${g} matches`, () => void match(g))));
    lock();
    return true;
  } catch (err) {
    sayError(err);
    return false;
  }
}
function anew(list4, rows3) {
  const name2 = (e) => e?.getAttribute("aria-label");
  const held7 = list4.contains(document.activeElement) ? name2(document.activeElement) : null;
  const typed3 = new Map([...list4.querySelectorAll("input")].map((i) => [name2(i), i.value]));
  list4.replaceChildren(...rows3);
  for (const i of list4.querySelectorAll("input")) i.value = typed3.get(name2(i)) ?? "";
  if (held7) [.../** @type {NodeListOf<HTMLElement>} */
  list4.querySelectorAll("[aria-label]")].find((e) => name2(e) === held7)?.focus();
}
async function match(group2) {
  try {
    words(at("group-match"), (await ask("takes/group", { text: shot.text, group: group2 })).text);
  } catch (err) {
    sayError(err);
  }
}
var began = (t) => new Date(t.began).toLocaleString([], { dateStyle: "short", timeStyle: "short" });
function row(t) {
  const note = make("input", { type: "text", "aria-label": `Words on take ${t.take}`, placeholder: "a word" });
  const add2 = async (as) => {
    const word = note.value.trim();
    note.value = "";
    if (word && !await showTakes({ take: t.take, [as]: word })) note.value = word;
  };
  note.addEventListener("keydown", (e) => e.key === "Enter" && add2("note"));
  const said3 = [t.byHand && "logged by hand", t.group && `${t.group}, pass ${t.pass}`, t.clip && `clip ${t.clip}`, t.rejected && `rejected: ${t.rejected}`, t.driver && `driven by ${t.driver}`].filter(Boolean).join("; ");
  return make(
    "li",
    { "data-take": t.take },
    make("p", {}, make("b", {}, `take ${t.take}`), ` ${began(t)}: ${t.end}, ${extent(t)}${said3 ? "; " + said3 : ""}`, ...t.notes.map((n) => make("q", {}, n))),
    make(
      "div.pair",
      {},
      button(t.keep ? "● Kept" : "○ Keep", () => showTakes({ take: t.take, keep: !t.keep, note: "" }), { "aria-pressed": String(t.keep), "aria-label": `Keep take ${t.take}` }),
      note,
      ...[["note", "Add note"], ["clip", "Is the clip"], ["reject", "Reject, since"]].map(([as, text]) => button(text, () => add2(as), { "aria-label": `${text}: take ${t.take}` }))
    )
  );
}
function lock() {
  const locked = moving();
  for (const i of at("takes").querySelectorAll("input")) {
    i.disabled = locked;
    i.placeholder = locked ? "when the rig rests" : "a word";
  }
}
on("drive", lock);
at("takes-again").addEventListener("click", () => showTakes());

// script/dial.js
var R = 76;
var BREADTH = 26;
var dial = at("dial");
var marks = draw("g", {});
var hand = draw("g.hand", {}, draw("line", { x1: 0, y1: -44, x2: 0, y2: -R - 8 }), draw("circle", { cx: 0, cy: -R, r: 7 }));
var round = draw("circle.gone", { cx: 0, cy: 0, r: R, pathLength: 1, transform: "rotate(-90)" });
var count = draw("text.count", { x: 0, y: 4 });
var under2 = draw("text.under", { x: 0, y: 22 });
dial.append(
  draw("circle.ring", { cx: 0, cy: 0, r: R }),
  round,
  marks,
  draw("g.stitch", {}, [-12, 0, 12].map((y) => draw("line", { x1: -7, x2: 7, y1: -R + y + 3, y2: -R + y - 3 }))),
  hand,
  count,
  under2
);
var turn = (frame2) => 360 * frame2 / shot.view.frames;
follow((p) => {
  if (!shot.view) return;
  hand.setAttribute("transform", `rotate(${turn(p.frame)})`);
  round.setAttribute("stroke-dasharray", `${p.frame / shot.view.frames} 1`);
  const frame2 = frameOf(p.frame * timelinePerFrame(shot.view));
  words(count, String(frame2));
  words(under2, `of ${shot.view.timelineFrames}`);
  dial.setAttribute("aria-valuenow", String(frame2));
  dial.setAttribute("aria-valuetext", `frame ${frame2} of ${shot.view.timelineFrames}`);
});
on("view", () => {
  dial.setAttribute("aria-valuemax", String(shot.view.timelineFrames - 1));
  marks.replaceChildren(...shot.view.verdicts.filter((v) => typeof v.frame === "number" && v.level !== "good").map((v) => draw("text.at." + v.level, {
    transform: `rotate(${turn(v.frame ?? 0)}) translate(0 ${-R - 12})`
  }, MARKS[v.level].sign)));
});
var BY = /* @__PURE__ */ new Map([["ArrowUp", 1], ["ArrowDown", -1], ["PageUp", 10], ["PageDown", -10]]);
function from(e) {
  const box2 = dial.getBoundingClientRect();
  const unit = 200 / Math.min(box2.width, box2.height);
  return [(e.clientX - box2.left - box2.width / 2) * unit, (e.clientY - box2.top - box2.height / 2) * unit];
}
function scrub(e) {
  const [x, y] = from(e);
  if (shot.view) goTo(frameOf(Math.atan2(x, -y) / (2 * Math.PI) * shot.view.frames));
}
var onRing = (e) => Math.abs(Math.hypot(...from(e)) - R) < BREADTH;
dial.addEventListener("touchstart", (e) => onRing(e.touches[0]) && e.preventDefault(), { passive: false });
dial.addEventListener("pointerdown", (e) => {
  if (e.pointerType === "touch" && !onRing(e)) return;
  dial.setPointerCapture(e.pointerId);
  pause();
  scrub(e);
});
dial.addEventListener("pointermove", (e) => dial.hasPointerCapture(e.pointerId) && scrub(e));
dial.addEventListener("keydown", (e) => {
  const by = BY.get(e.key);
  if (by) stepBy(by);
  else if (e.key === "Home") goTo(0);
  else if (e.key === "End") goTo(-1);
  else return;
  e.preventDefault();
});

// script/transport.js
var go = button("Go round", playOrPause, { id: "play", "aria-keyshortcuts": "Space" });
var back = button("− 1", () => stepBy(-1), { id: "back", "aria-label": "− 1 frame", "aria-keyshortcuts": "ArrowLeft" });
var on2 = button("+ 1", () => stepBy(1), { id: "onward", "aria-label": "+ 1 frame", "aria-keyshortcuts": "ArrowRight" });
var hold2 = button("Hold seam", holdSeam, { id: "hold-seam", "aria-keyshortcuts": "Home", title: "Stand at the joint of the round" });
var loop = button("Loop seam", () => loopSeam(!playhead.seam), { id: "loop-seam", "aria-pressed": "false", title: "Go over the joint again and again" });
var paces = (
  /** @type {[import("./playhead.js").Pace, string][]} */
  Object.entries(PACES).map(([name2, text]) => button(text, () => setPace(name2), { id: "pace-" + name2, "aria-pressed": "false" }))
);
var now = at("now");
at("transport").append(
  go,
  make("span.joined", {}, back, on2),
  make("span.joined", { role: "group", "aria-label": "Pace" }, ...paces),
  make("span.joined", { role: "group", "aria-label": "Seam" }, hold2, loop)
);
follow((p) => {
  words(go, p.playing ? "Stand still" : "Go round");
  go.classList.toggle("on", p.playing);
  loop.setAttribute("aria-pressed", String(p.seam));
  for (const b of paces) b.setAttribute("aria-pressed", String(b.id === "pace-" + p.pace));
  if (!shot.view) return;
  const frame2 = p.frame * timelinePerFrame(shot.view);
  const sec = p.frame / shot.view.frames * shot.view.loopScreenSeconds;
  words(now, `${sec.toFixed(2)} s shown
${(p.frame / shot.view.captureHz).toFixed(3)} s on the rig
captured ${frameOf(p.frame)}`);
  now.dataset.frame = frame2.toFixed(3);
});

// script/glide.js
var PACE = 60;
var THERE = 2e-3;
var BESIDE = 50;
var Glide = class {
  /** @param {() => void} draw called whenever it has moved */
  constructor(draw6) {
    this.draw = draw6;
    this.set = false;
    this.now = [0, 0];
    this.goal = [0, 0];
    this.going = false;
    this.last = 0;
  }
  /**
   * Goes to a window, at once where there is none yet or where that is asked for.
   * @param {[number, number]} goal
   * @param {boolean} atOnce
   */
  to(goal, atOnce = false) {
    this.goal = goal;
    if (!this.set || atOnce || matchMedia("(prefers-reduced-motion: reduce)").matches) {
      const same = this.set && this.now[0] === goal[0] && this.now[1] === goal[1];
      this.now = [...goal];
      this.set = true;
      if (!same) this.draw();
      return;
    }
    if (this.going || near(this.now, goal)) return;
    this.going = true;
    this.last = performance.now();
    requestAnimationFrame((now2) => this.step(now2));
  }
  /** @param {number} now */
  step(now2) {
    if (shot.pending && now2 - this.last < BESIDE) return void requestAnimationFrame((next3) => this.step(next3));
    const { now: from2, goal } = this;
    const share2 = 1 - Math.exp(-Math.max(now2 - this.last, 0) / PACE);
    this.last = now2;
    this.now = [from2[0] + (goal[0] - from2[0]) * share2, from2[1] + (goal[1] - from2[1]) * share2];
    this.going = !near(this.now, goal);
    if (!this.going) this.now = [...goal];
    this.draw();
    if (this.going) requestAnimationFrame((next3) => this.step(next3));
  }
};
var near = (at2, goal) => goal.every((g, i) => Math.abs(g - at2[i]) <= (goal[1] - goal[0]) * THERE);

// script/span.js
var BESIDE2 = 0.09;
var LEAST = 4;
var AIR = 0.05;
var STEP = 1.6;
var watchers2 = [];
var glide = new Glide(() => watchers2.forEach((f) => f()));
var whole = true;
var held = false;
var onSpan = (f) => watchers2.push(f);
var span = () => glide.set ? glide.now : all();
var beside = () => shot.view.frames * BESIDE2;
var all = () => [-beside(), shot.view.frames + beside()];
var seesAll = () => whole;
function width(wide2) {
  const [low, high2] = all();
  return Math.min(Math.max(wide2, Math.min(LEAST, high2 - low)), high2 - low);
}
function put(from2, to, atOnce) {
  const [low, high2] = all();
  const wide2 = width(to - from2);
  const left2 = Math.min(Math.max(from2, low), high2 - wide2);
  whole = wide2 >= high2 - low - 1e-9;
  glide.to([left2, left2 + wide2], atOnce);
}
var showSpan = (from2, to) => put(from2, to, true);
function zoomAt(frame2, factor, atOnce = true) {
  const [from2, to] = glide.goal;
  const share2 = width((to - from2) / factor) / (to - from2);
  put(frame2 - (frame2 - from2) * share2, frame2 + (to - frame2) * share2, atOnce);
}
function panBy(frames2) {
  const [from2, to] = span();
  put(from2 + frames2, to + frames2, true);
}
var showAll = () => put(...all(), false);
function reveal(frame2) {
  const [from2, to] = span();
  if (frame2 < from2 || frame2 > to) put(frame2 - (to - from2) / 2, frame2 + (to - from2) / 2, false);
}
function include(frame2) {
  const [from2, to] = span(), [low, high2] = all();
  const air = (to - from2) * AIR;
  glide.to([Math.max(Math.min(from2, frame2 - air), low), Math.min(Math.max(to, frame2 + air), high2)]);
}
function holdSpan(on4) {
  held = on4;
  if (!on4 && shot.view) settle2();
}
function settle2() {
  if (whole && !held) return glide.to(all(), !glide.set);
  const [from2, to] = span();
  if (held) glide.to([from2, Math.max(to, whole ? all()[1] : shot.view.frames + (to - from2) * AIR)]);
  else put(from2, to, false);
}
var frames = 0;
on("view", () => {
  const same = frames === shot.view.frames;
  frames = shot.view.frames;
  if (!same || !glide.set) settle2();
});

// script/overview.js
var TYPED2 = "input, textarea, select";
var thumb = make("div.span-seen", {});
var head = make("div.span-head", {});
var ticks = make("div", {});
var bar = make("div.span-bar", {
  role: "scrollbar",
  tabindex: "0",
  "aria-label": "Part of the round that the curves show",
  "aria-controls": "curves",
  "aria-orientation": "horizontal",
  "aria-valuemin": "0",
  "aria-valuemax": "100",
  "aria-valuenow": "0"
}, ticks, thumb, head);
var nearer = button("+", () => closer2(STEP), { "aria-label": "Curves nearer", title: "Nearer (+)" });
var further = button("−", () => closer2(1 / STEP), { "aria-label": "Curves further away", title: "Further away (−)" });
var whole2 = button("Whole round", showAll, { title: "The whole round (0)" });
at("curves").prepend(make("div.span-strip", {}, bar, further, nearer, whole2));
function closer2(factor) {
  const [from2, to] = span();
  const seen3 = playhead.frame >= from2 && playhead.frame <= to;
  zoomAt(seen3 ? playhead.frame : (from2 + to) / 2, factor, false);
}
var share = (frame2) => {
  const [low, high2] = all();
  return 100 * (frame2 - low) / (high2 - low) + "%";
};
function show2() {
  if (!shot.view) return;
  const [from2, to] = span(), [low, high2] = all();
  thumb.style.left = share(from2);
  thumb.style.width = 100 * (to - from2) / (high2 - low) + "%";
  const room = high2 - low - (to - from2);
  bar.setAttribute("aria-valuenow", String(room > 1e-6 ? Math.round(100 * (from2 - low) / room) : 0));
  bar.setAttribute("aria-valuetext", seesAll() ? "the whole round" : `frames ${Math.round(from2)} to ${Math.round(to)} of ${shot.view.frames}`);
  bar.classList.toggle("whole", seesAll());
  further.disabled = whole2.disabled = seesAll();
  head.style.left = share(playhead.frame);
}
function marks2() {
  const frames2 = [...new Set(shot.view.axes.flatMap((a) => a.handles.map((h) => Math.round(h.frame))))].sort((a, b) => a - b);
  fill(ticks, [shot.view.frames, ...frames2].join(), () => [
    ...frames2.map((f) => ({ f, kind: "div.tick-mark" })),
    ...[0, shot.view.frames].map((f) => ({ f, kind: "div.seam-mark" }))
  ].map(({ f, kind }) => {
    const el = make(kind, {});
    el.style.left = share(f);
    return el;
  }));
}
var grabbed = null;
var frameAt = (e) => {
  const box2 = bar.getBoundingClientRect(), [low, high2] = all();
  return low + (e.clientX - box2.left) / box2.width * (high2 - low);
};
bar.addEventListener("pointerdown", (e) => {
  if (!shot.view) return;
  bar.setPointerCapture(e.pointerId);
  const [from2, to] = span(), frame2 = frameAt(e);
  grabbed = frame2 >= from2 && frame2 <= to ? frame2 - from2 : (to - from2) / 2;
  take3(e);
});
bar.addEventListener("pointermove", take3);
for (const end of ["pointerup", "pointercancel"]) bar.addEventListener(end, () => grabbed = null);
function take3(e) {
  if (grabbed === null) return;
  const [from2, to] = span(), left2 = frameAt(e) - grabbed;
  showSpan(left2, left2 + to - from2);
}
var BY2 = /* @__PURE__ */ new Map([["ArrowLeft", -0.1], ["ArrowRight", 0.1], ["PageUp", -1], ["PageDown", 1]]);
bar.addEventListener("keydown", (e) => {
  const [from2, to] = span();
  const by = BY2.get(e.key);
  if (!by || e.ctrlKey || e.metaKey || e.altKey) return;
  e.preventDefault();
  e.stopPropagation();
  panBy(by * (to - from2));
});
var DOES = /* @__PURE__ */ new Map([["+", () => closer2(STEP)], ["=", () => closer2(STEP)], ["-", () => closer2(1 / STEP)], ["0", showAll]]);
addEventListener("keydown", (e) => {
  const does = DOES.get(e.key);
  if (!does || !shot.view || e.defaultPrevented || e.ctrlKey || e.metaKey || e.altKey || e.target instanceof Element && e.target.closest(TYPED2)) return;
  e.preventDefault();
  does();
});
onSpan(show2);
on("view", () => (marks2(), show2()));
follow(show2);

// vendor/uplot/uPlot.esm.js
var FEAT_TIME = true;
var pre = "u-";
var UPLOT = "uplot";
var ORI_HZ = pre + "hz";
var ORI_VT = pre + "vt";
var TITLE = pre + "title";
var WRAP = pre + "wrap";
var UNDER = pre + "under";
var OVER = pre + "over";
var AXIS = pre + "axis";
var OFF = pre + "off";
var SELECT = pre + "select";
var CURSOR_X = pre + "cursor-x";
var CURSOR_Y = pre + "cursor-y";
var CURSOR_PT = pre + "cursor-pt";
var LEGEND = pre + "legend";
var LEGEND_LIVE = pre + "live";
var LEGEND_INLINE = pre + "inline";
var LEGEND_SERIES = pre + "series";
var LEGEND_MARKER = pre + "marker";
var LEGEND_LABEL = pre + "label";
var LEGEND_VALUE = pre + "value";
var WIDTH = "width";
var HEIGHT = "height";
var TOP = "top";
var BOTTOM = "bottom";
var LEFT = "left";
var RIGHT = "right";
var hexBlack = "#000";
var transparent = hexBlack + "0";
var mousemove = "mousemove";
var mousedown = "mousedown";
var mouseup = "mouseup";
var mouseenter = "mouseenter";
var mouseleave = "mouseleave";
var dblclick = "dblclick";
var resize = "resize";
var scroll = "scroll";
var change2 = "change";
var dppxchange = "dppxchange";
var LEGEND_DISP = "--";
var domEnv = typeof window != "undefined";
var doc = domEnv ? document : null;
var win = domEnv ? window : null;
var nav = domEnv ? navigator : null;
var pxRatio;
var query;
function setPxRatio() {
  let _pxRatio = devicePixelRatio;
  if (pxRatio != _pxRatio) {
    pxRatio = _pxRatio;
    query && off(change2, query, setPxRatio);
    query = matchMedia(`(min-resolution: ${pxRatio - 1e-3}dppx) and (max-resolution: ${pxRatio + 1e-3}dppx)`);
    on3(change2, query, setPxRatio);
    win.dispatchEvent(new CustomEvent(dppxchange));
  }
}
function addClass(el, c) {
  if (c != null) {
    let cl = el.classList;
    !cl.contains(c) && cl.add(c);
  }
}
function remClass(el, c) {
  let cl = el.classList;
  cl.contains(c) && cl.remove(c);
}
function setStylePx(el, name2, value) {
  el.style[name2] = value + "px";
}
function placeTag(tag, cls, targ, refEl) {
  let el = doc.createElement(tag);
  if (cls != null)
    addClass(el, cls);
  if (targ != null)
    targ.insertBefore(el, refEl);
  return el;
}
function placeDiv(cls, targ) {
  return placeTag("div", cls, targ);
}
var xformCache = /* @__PURE__ */ new WeakMap();
function elTrans(el, xPos, yPos, xMax, yMax) {
  let xform = "translate(" + xPos + "px," + yPos + "px)";
  let xformOld = xformCache.get(el);
  if (xform != xformOld) {
    el.style.transform = xform;
    xformCache.set(el, xform);
    if (xPos < 0 || yPos < 0 || xPos > xMax || yPos > yMax)
      addClass(el, OFF);
    else
      remClass(el, OFF);
  }
}
var colorCache = /* @__PURE__ */ new WeakMap();
function elColor(el, background, borderColor) {
  let newColor = background + borderColor;
  let oldColor = colorCache.get(el);
  if (newColor != oldColor) {
    colorCache.set(el, newColor);
    el.style.background = background;
    el.style.borderColor = borderColor;
  }
}
var sizeCache = /* @__PURE__ */ new WeakMap();
function elSize(el, newWid, newHgt, centered) {
  let newSize = newWid + "" + newHgt;
  let oldSize = sizeCache.get(el);
  if (newSize != oldSize) {
    sizeCache.set(el, newSize);
    el.style.height = newHgt + "px";
    el.style.width = newWid + "px";
    el.style.marginLeft = centered ? -newWid / 2 + "px" : 0;
    el.style.marginTop = centered ? -newHgt / 2 + "px" : 0;
  }
}
var evOpts = { passive: true };
var evOpts2 = { ...evOpts, capture: true };
function on3(ev, el, cb, capt) {
  el.addEventListener(ev, cb, capt ? evOpts2 : evOpts);
}
function off(ev, el, cb, capt) {
  el.removeEventListener(ev, cb, evOpts);
}
domEnv && setPxRatio();
function closestIdx(num, arr, lo, hi) {
  let mid;
  lo = lo || 0;
  hi = hi || arr.length - 1;
  let bitwise = hi <= 2147483647;
  while (hi - lo > 1) {
    mid = bitwise ? lo + hi >> 1 : floor((lo + hi) / 2);
    if (arr[mid] < num)
      lo = mid;
    else
      hi = mid;
  }
  if (num - arr[lo] <= arr[hi] - num)
    return lo;
  return hi;
}
function makeIndexOfs(predicate) {
  let indexOfs = (data, _i0, _i1) => {
    let i0 = -1;
    let i1 = -1;
    for (let i = _i0; i <= _i1; i++) {
      if (predicate(data[i])) {
        i0 = i;
        break;
      }
    }
    for (let i = _i1; i >= _i0; i--) {
      if (predicate(data[i])) {
        i1 = i;
        break;
      }
    }
    return [i0, i1];
  };
  return indexOfs;
}
var notNullish = (v) => v != null;
var isPositive = (v) => v != null && v > 0;
var nonNullIdxs = makeIndexOfs(notNullish);
var positiveIdxs = makeIndexOfs(isPositive);
function getMinMax(data, _i0, _i1, sorted = 0, log = false) {
  let getEdgeIdxs = log ? positiveIdxs : nonNullIdxs;
  let predicate = log ? isPositive : notNullish;
  [_i0, _i1] = getEdgeIdxs(data, _i0, _i1);
  let _min = data[_i0];
  let _max = data[_i0];
  if (_i0 > -1) {
    if (sorted == 1) {
      _min = data[_i0];
      _max = data[_i1];
    } else if (sorted == -1) {
      _min = data[_i1];
      _max = data[_i0];
    } else {
      for (let i = _i0; i <= _i1; i++) {
        let v = data[i];
        if (predicate(v)) {
          if (v < _min)
            _min = v;
          else if (v > _max)
            _max = v;
        }
      }
    }
  }
  return [_min ?? inf, _max ?? -inf];
}
function rangeLog(min2, max2, base, fullMags) {
  let minSign = sign(min2);
  let maxSign = sign(max2);
  if (min2 == max2) {
    if (minSign == -1) {
      min2 *= base;
      max2 /= base;
    } else {
      min2 /= base;
      max2 *= base;
    }
  }
  let logFn = base == 10 ? log10 : log2;
  let growMinAbs = minSign == 1 ? floor : ceil;
  let growMaxAbs = maxSign == 1 ? ceil : floor;
  let minExp = growMinAbs(logFn(abs(min2)));
  let maxExp = growMaxAbs(logFn(abs(max2)));
  let minIncr = pow(base, minExp);
  let maxIncr = pow(base, maxExp);
  if (base == 10) {
    if (minExp < 0)
      minIncr = roundDec(minIncr, -minExp);
    if (maxExp < 0)
      maxIncr = roundDec(maxIncr, -maxExp);
  }
  if (fullMags || base == 2) {
    min2 = minIncr * minSign;
    max2 = maxIncr * maxSign;
  } else {
    min2 = incrRoundDn(min2, minIncr);
    max2 = incrRoundUp(max2, maxIncr);
  }
  return [min2, max2];
}
function rangeAsinh(min2, max2, base, fullMags) {
  let minMax = rangeLog(min2, max2, base, fullMags);
  if (min2 == 0)
    minMax[0] = 0;
  if (max2 == 0)
    minMax[1] = 0;
  return minMax;
}
var rangePad = 0.1;
var autoRangePart = {
  mode: 3,
  pad: rangePad
};
var _eqRangePart = {
  pad: 0,
  soft: null,
  mode: 0
};
var _eqRange = {
  min: _eqRangePart,
  max: _eqRangePart
};
function rangeNum(_min, _max, mult, extra) {
  if (isObj(mult))
    return _rangeNum(_min, _max, mult);
  _eqRangePart.pad = mult;
  _eqRangePart.soft = extra ? 0 : null;
  _eqRangePart.mode = extra ? 3 : 0;
  return _rangeNum(_min, _max, _eqRange);
}
function ifNull(lh, rh) {
  return lh == null ? rh : lh;
}
function hasData(data, idx0, idx1) {
  idx0 = ifNull(idx0, 0);
  idx1 = ifNull(idx1, data.length - 1);
  while (idx0 <= idx1) {
    if (data[idx0] != null)
      return true;
    idx0++;
  }
  return false;
}
function _rangeNum(_min, _max, cfg) {
  let cmin = cfg.min;
  let cmax = cfg.max;
  let padMin = ifNull(cmin.pad, 0);
  let padMax = ifNull(cmax.pad, 0);
  let hardMin = ifNull(cmin.hard, -inf);
  let hardMax = ifNull(cmax.hard, inf);
  let softMin = ifNull(cmin.soft, inf);
  let softMax = ifNull(cmax.soft, -inf);
  let softMinMode = ifNull(cmin.mode, 0);
  let softMaxMode = ifNull(cmax.mode, 0);
  let delta = _max - _min;
  let deltaMag = log10(delta);
  let scalarMax = max(abs(_min), abs(_max));
  let scalarMag = log10(scalarMax);
  let scalarMagDelta = abs(scalarMag - deltaMag);
  if (delta < 1e-24 || scalarMagDelta > 10) {
    delta = 0;
    if (_min == 0 || _max == 0) {
      delta = 1e-24;
      if (softMinMode == 2 && softMin != inf)
        padMin = 0;
      if (softMaxMode == 2 && softMax != -inf)
        padMax = 0;
    }
  }
  let nonZeroDelta = delta || scalarMax || 1e3;
  let mag = log10(nonZeroDelta);
  let base = pow(10, floor(mag));
  let _padMin = nonZeroDelta * (delta == 0 ? _min == 0 ? 0.1 : 1 : padMin);
  let _newMin = roundDec(incrRoundDn(_min - _padMin, base / 10), 24);
  let _softMin = _min >= softMin && (softMinMode == 1 || softMinMode == 3 && _newMin <= softMin || softMinMode == 2 && _newMin >= softMin) ? softMin : inf;
  let minLim = max(hardMin, _newMin < _softMin && _min >= _softMin ? _softMin : min(_softMin, _newMin));
  let _padMax = nonZeroDelta * (delta == 0 ? _max == 0 ? 0.1 : 1 : padMax);
  let _newMax = roundDec(incrRoundUp(_max + _padMax, base / 10), 24);
  let _softMax = _max <= softMax && (softMaxMode == 1 || softMaxMode == 3 && _newMax >= softMax || softMaxMode == 2 && _newMax <= softMax) ? softMax : -inf;
  let maxLim = min(hardMax, _newMax > _softMax && _max <= _softMax ? _softMax : max(_softMax, _newMax));
  if (minLim == maxLim && minLim == 0)
    maxLim = 100;
  return [minLim, maxLim];
}
var numFormatter = new Intl.NumberFormat(domEnv ? nav.language : "en-US");
var fmtNum = (val) => numFormatter.format(val);
var M = Math;
var PI = M.PI;
var abs = M.abs;
var floor = M.floor;
var round2 = M.round;
var ceil = M.ceil;
var min = M.min;
var max = M.max;
var pow = M.pow;
var sign = M.sign;
var log10 = M.log10;
var log2 = M.log2;
var sinh = (v, linthresh = 1) => M.sinh(v) * linthresh;
var asinh = (v, linthresh = 1) => M.asinh(v / linthresh);
var inf = Infinity;
function numIntDigits(x) {
  return (log10((x ^ x >> 31) - (x >> 31)) | 0) + 1;
}
function clamp(num, _min, _max) {
  return min(max(num, _min), _max);
}
function isFn(v) {
  return typeof v == "function";
}
function fnOrSelf(v) {
  return isFn(v) ? v : () => v;
}
var noop = () => {
};
var retArg0 = (_0) => _0;
var retArg1 = (_0, _1) => _1;
var retNull = (_2) => null;
var retTrue = (_2) => true;
var retEq = (a, b) => a == b;
var regex6 = /\.\d*?(?=9{6,}|0{6,})/gm;
var fixFloat = (val) => {
  if (isInt(val) || fixedDec.has(val))
    return val;
  const str = `${val}`;
  const match2 = str.match(regex6);
  if (match2 == null)
    return val;
  let len = match2[0].length - 1;
  if (str.indexOf("e-") != -1) {
    let [num, exp] = str.split("e");
    return +`${fixFloat(num)}e${exp}`;
  }
  return roundDec(val, len);
};
function incrRound(num, incr) {
  return fixFloat(roundDec(fixFloat(num / incr)) * incr);
}
function incrRoundUp(num, incr) {
  return fixFloat(ceil(fixFloat(num / incr)) * incr);
}
function incrRoundDn(num, incr) {
  return fixFloat(floor(fixFloat(num / incr)) * incr);
}
function roundDec(val, dec = 0) {
  if (isInt(val))
    return val;
  let p = 10 ** dec;
  let n = val * p * (1 + Number.EPSILON);
  return round2(n) / p;
}
var fixedDec = /* @__PURE__ */ new Map();
function guessDec(num) {
  return (("" + num).split(".")[1] || "").length;
}
function genIncrs(base, minExp, maxExp, mults) {
  let incrs = [];
  let multDec = mults.map(guessDec);
  for (let exp = minExp; exp < maxExp; exp++) {
    let expa = abs(exp);
    let mag = roundDec(pow(base, exp), expa);
    for (let i = 0; i < mults.length; i++) {
      let _incr = base == 10 ? +`${mults[i]}e${exp}` : mults[i] * mag;
      let dec = (exp >= 0 ? 0 : expa) + (exp >= multDec[i] ? 0 : multDec[i]);
      let incr = base == 10 ? _incr : roundDec(_incr, dec);
      incrs.push(incr);
      fixedDec.set(incr, dec);
    }
  }
  return incrs;
}
var EMPTY_OBJ = {};
var EMPTY_ARR = [];
var nullNullTuple = [null, null];
var isArr = Array.isArray;
var isInt = Number.isInteger;
var isUndef = (v) => v === void 0;
function isStr(v) {
  return typeof v == "string";
}
function isObj(v) {
  let is = false;
  if (v != null) {
    let c = v.constructor;
    is = c == null || c == Object;
  }
  return is;
}
function fastIsObj(v) {
  return v != null && typeof v == "object";
}
var TypedArray = Object.getPrototypeOf(Uint8Array);
var __proto__ = "__proto__";
function copy(o, _isObj = isObj) {
  let out;
  if (isArr(o)) {
    let val = o.find((v) => v != null);
    if (isArr(val) || _isObj(val)) {
      out = Array(o.length);
      for (let i = 0; i < o.length; i++)
        out[i] = copy(o[i], _isObj);
    } else
      out = o.slice();
  } else if (o instanceof TypedArray)
    out = o.slice();
  else if (_isObj(o)) {
    out = {};
    for (let k in o) {
      if (k != __proto__)
        out[k] = copy(o[k], _isObj);
    }
  } else
    out = o;
  return out;
}
function assign(targ) {
  let args = arguments;
  for (let i = 1; i < args.length; i++) {
    let src = args[i];
    for (let key in src) {
      if (key != __proto__) {
        if (isObj(targ[key]))
          assign(targ[key], copy(src[key]));
        else
          targ[key] = copy(src[key]);
      }
    }
  }
  return targ;
}
var NULL_REMOVE = 0;
var NULL_RETAIN = 1;
var NULL_EXPAND = 2;
function nullExpand(yVals, nullIdxs, alignedLen) {
  for (let i = 0, xi, lastNullIdx = -1; i < nullIdxs.length; i++) {
    let nullIdx = nullIdxs[i];
    if (nullIdx > lastNullIdx) {
      xi = nullIdx - 1;
      while (xi >= 0 && yVals[xi] == null)
        yVals[xi--] = null;
      xi = nullIdx + 1;
      while (xi < alignedLen && yVals[xi] == null)
        yVals[lastNullIdx = xi++] = null;
    }
  }
}
function join(tables3, nullModes) {
  if (allHeadersSame(tables3)) {
    let table = tables3[0].slice();
    for (let i = 1; i < tables3.length; i++)
      table.push(...tables3[i].slice(1));
    if (!isAsc(table[0]))
      table = sortCols(table);
    return table;
  }
  let xVals = /* @__PURE__ */ new Set();
  for (let ti = 0; ti < tables3.length; ti++) {
    let t = tables3[ti];
    let xs = t[0];
    let len = xs.length;
    for (let i = 0; i < len; i++)
      xVals.add(xs[i]);
  }
  let data = [Array.from(xVals).sort((a, b) => a - b)];
  let alignedLen = data[0].length;
  let xIdxs = /* @__PURE__ */ new Map();
  for (let i = 0; i < alignedLen; i++)
    xIdxs.set(data[0][i], i);
  for (let ti = 0; ti < tables3.length; ti++) {
    let t = tables3[ti];
    let xs = t[0];
    for (let si = 1; si < t.length; si++) {
      let ys = t[si];
      let yVals = Array(alignedLen).fill(void 0);
      let nullMode = nullModes ? nullModes[ti][si] : NULL_RETAIN;
      let nullIdxs = [];
      for (let i = 0; i < ys.length; i++) {
        let yVal = ys[i];
        let alignedIdx = xIdxs.get(xs[i]);
        if (yVal === null) {
          if (nullMode != NULL_REMOVE) {
            yVals[alignedIdx] = yVal;
            if (nullMode == NULL_EXPAND)
              nullIdxs.push(alignedIdx);
          }
        } else
          yVals[alignedIdx] = yVal;
      }
      nullExpand(yVals, nullIdxs, alignedLen);
      data.push(yVals);
    }
  }
  return data;
}
var microTask = typeof queueMicrotask == "undefined" ? (fn) => Promise.resolve().then(fn) : queueMicrotask;
function sortCols(table) {
  let head3 = table[0];
  let rlen = head3.length;
  let idxs = Array(rlen);
  for (let i = 0; i < idxs.length; i++)
    idxs[i] = i;
  idxs.sort((i0, i1) => head3[i0] - head3[i1]);
  let table2 = [];
  for (let i = 0; i < table.length; i++) {
    let row3 = table[i];
    let row22 = Array(rlen);
    for (let j = 0; j < rlen; j++)
      row22[j] = row3[idxs[j]];
    table2.push(row22);
  }
  return table2;
}
function allHeadersSame(tables3) {
  let vals0 = tables3[0][0];
  let len0 = vals0.length;
  for (let i = 1; i < tables3.length; i++) {
    let vals1 = tables3[i][0];
    if (vals1.length != len0)
      return false;
    if (vals1 != vals0) {
      for (let j = 0; j < len0; j++) {
        if (vals1[j] != vals0[j])
          return false;
      }
    }
  }
  return true;
}
function isAsc(vals, samples = 100) {
  const len = vals.length;
  if (len <= 1)
    return true;
  let firstIdx = 0;
  let lastIdx = len - 1;
  while (firstIdx <= lastIdx && vals[firstIdx] == null)
    firstIdx++;
  while (lastIdx >= firstIdx && vals[lastIdx] == null)
    lastIdx--;
  if (lastIdx <= firstIdx)
    return true;
  const stride = max(1, floor((lastIdx - firstIdx + 1) / samples));
  for (let prevVal = vals[firstIdx], i = firstIdx + stride; i <= lastIdx; i += stride) {
    const v = vals[i];
    if (v != null) {
      if (v <= prevVal)
        return false;
      prevVal = v;
    }
  }
  return true;
}
var months = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December"
];
var days = [
  "Sunday",
  "Monday",
  "Tuesday",
  "Wednesday",
  "Thursday",
  "Friday",
  "Saturday"
];
function slice3(str) {
  return str.slice(0, 3);
}
var days3 = days.map(slice3);
var months3 = months.map(slice3);
var engNames = {
  MMMM: months,
  MMM: months3,
  WWWW: days,
  WWW: days3
};
function zeroPad2(int) {
  return (int < 10 ? "0" : "") + int;
}
function zeroPad3(int) {
  return (int < 10 ? "00" : int < 100 ? "0" : "") + int;
}
var subs = {
  // 2019
  YYYY: (d) => d.getFullYear(),
  // 19
  YY: (d) => (d.getFullYear() + "").slice(2),
  // July
  MMMM: (d, names3) => names3.MMMM[d.getMonth()],
  // Jul
  MMM: (d, names3) => names3.MMM[d.getMonth()],
  // 07
  MM: (d) => zeroPad2(d.getMonth() + 1),
  // 7
  M: (d) => d.getMonth() + 1,
  // 09
  DD: (d) => zeroPad2(d.getDate()),
  // 9
  D: (d) => d.getDate(),
  // Monday
  WWWW: (d, names3) => names3.WWWW[d.getDay()],
  // Mon
  WWW: (d, names3) => names3.WWW[d.getDay()],
  // 03
  HH: (d) => zeroPad2(d.getHours()),
  // 3
  H: (d) => d.getHours(),
  // 9 (12hr, unpadded)
  h: (d) => {
    let h = d.getHours();
    return h == 0 ? 12 : h > 12 ? h - 12 : h;
  },
  // AM
  AA: (d) => d.getHours() >= 12 ? "PM" : "AM",
  // am
  aa: (d) => d.getHours() >= 12 ? "pm" : "am",
  // a
  a: (d) => d.getHours() >= 12 ? "p" : "a",
  // 09
  mm: (d) => zeroPad2(d.getMinutes()),
  // 9
  m: (d) => d.getMinutes(),
  // 09
  ss: (d) => zeroPad2(d.getSeconds()),
  // 9
  s: (d) => d.getSeconds(),
  // 374
  fff: (d) => zeroPad3(d.getMilliseconds())
};
function fmtDate(tpl, names3) {
  names3 = names3 || engNames;
  let parts3 = [];
  let R2 = /\{([a-z]+)\}|[^{]+/gi, m;
  while (m = R2.exec(tpl))
    parts3.push(m[0][0] == "{" ? subs[m[1]] : m[0]);
  return (d) => {
    let out = "";
    for (let i = 0; i < parts3.length; i++)
      out += typeof parts3[i] == "string" ? parts3[i] : parts3[i](d, names3);
    return out;
  };
}
var localTz = new Intl.DateTimeFormat().resolvedOptions().timeZone;
function tzDate(date, tz) {
  let date2;
  if (tz == "UTC" || tz == "Etc/UTC")
    date2 = new Date(+date + date.getTimezoneOffset() * 6e4);
  else if (tz == localTz)
    date2 = date;
  else {
    date2 = new Date(date.toLocaleString("en-US", { timeZone: tz }));
    date2.setMilliseconds(date.getMilliseconds());
  }
  return date2;
}
var onlyWhole = (v) => v % 1 == 0;
var allMults = [1, 2, 2.5, 5];
var decIncrs = genIncrs(10, -32, 0, allMults);
var oneIncrs = genIncrs(10, 0, 32, allMults);
var wholeIncrs = oneIncrs.filter(onlyWhole);
var numIncrs = decIncrs.concat(oneIncrs);
var NL = "\n";
var yyyy = "{YYYY}";
var NLyyyy = NL + yyyy;
var md = "{M}/{D}";
var NLmd = NL + md;
var NLmdyy = NLmd + "/{YY}";
var aa = "{aa}";
var hmm = "{h}:{mm}";
var hmmaa = hmm + aa;
var NLhmmaa = NL + hmmaa;
var ss = ":{ss}";
var _ = null;
function genTimeStuffs(ms) {
  let s = ms * 1e3, m = s * 60, h = m * 60, d = h * 24, mo = d * 30, y = d * 365;
  let subSecIncrs = ms == 1 ? genIncrs(10, 0, 3, allMults).filter(onlyWhole) : genIncrs(10, -3, 0, allMults);
  let timeIncrs = subSecIncrs.concat([
    // minute divisors (# of secs)
    s,
    s * 5,
    s * 10,
    s * 15,
    s * 30,
    // hour divisors (# of mins)
    m,
    m * 5,
    m * 10,
    m * 15,
    m * 30,
    // day divisors (# of hrs)
    h,
    h * 2,
    h * 3,
    h * 4,
    h * 6,
    h * 8,
    h * 12,
    // month divisors TODO: need more?
    d,
    d * 2,
    d * 3,
    d * 4,
    d * 5,
    d * 6,
    d * 7,
    d * 8,
    d * 9,
    d * 10,
    d * 15,
    // year divisors (# months, approx)
    mo,
    mo * 2,
    mo * 3,
    mo * 4,
    mo * 6,
    // century divisors
    y,
    y * 2,
    y * 5,
    y * 10,
    y * 25,
    y * 50,
    y * 100
  ]);
  const _timeAxisStamps = [
    //   tick incr    default          year                    month   day                   hour    min       sec   mode
    [y, yyyy, _, _, _, _, _, _, 1],
    [d * 28, "{MMM}", NLyyyy, _, _, _, _, _, 1],
    [d, md, NLyyyy, _, _, _, _, _, 1],
    [h, "{h}" + aa, NLmdyy, _, NLmd, _, _, _, 1],
    [m, hmmaa, NLmdyy, _, NLmd, _, _, _, 1],
    [s, ss, NLmdyy + " " + hmmaa, _, NLmd + " " + hmmaa, _, NLhmmaa, _, 1],
    [ms, ss + ".{fff}", NLmdyy + " " + hmmaa, _, NLmd + " " + hmmaa, _, NLhmmaa, _, 1]
  ];
  function timeAxisSplits(tzDate2) {
    return (self, axisIdx, scaleMin, scaleMax, foundIncr, foundSpace) => {
      let splits = [];
      let isYr = foundIncr >= y;
      let isMo = foundIncr >= mo && foundIncr < y;
      let minDate = tzDate2(scaleMin);
      let minDateTs = roundDec(minDate * ms, 3);
      let minMin = mkDate(minDate.getFullYear(), isYr ? 0 : minDate.getMonth(), isMo || isYr ? 1 : minDate.getDate());
      let minMinTs = roundDec(minMin * ms, 3);
      if (isMo || isYr) {
        let moIncr = isMo ? foundIncr / mo : 0;
        let yrIncr = isYr ? foundIncr / y : 0;
        let split = minDateTs == minMinTs ? minDateTs : roundDec(mkDate(minMin.getFullYear() + yrIncr, minMin.getMonth() + moIncr, 1) * ms, 3);
        let splitDate = new Date(round2(split / ms));
        let baseYear = splitDate.getFullYear();
        let baseMonth = splitDate.getMonth();
        for (let i = 0; split <= scaleMax; i++) {
          let next3 = mkDate(baseYear + yrIncr * i, baseMonth + moIncr * i, 1);
          let offs = next3 - tzDate2(roundDec(next3 * ms, 3));
          split = roundDec((+next3 + offs) * ms, 3);
          if (split <= scaleMax)
            splits.push(split);
        }
      } else {
        let incr0 = foundIncr >= d ? d : foundIncr;
        let tzOffset = floor(scaleMin) - floor(minDateTs);
        let split = minMinTs + tzOffset + incrRoundUp(minDateTs - minMinTs, incr0);
        splits.push(split);
        let date0 = tzDate2(split);
        let prevHour = date0.getHours() + date0.getMinutes() / m + date0.getSeconds() / h;
        let incrHours = foundIncr / h;
        let minSpace = self.axes[axisIdx]._space;
        let pctSpace = foundSpace / minSpace;
        while (1) {
          split = roundDec(split + foundIncr, ms == 1 ? 0 : 3);
          if (split > scaleMax)
            break;
          if (incrHours > 1) {
            let expectedHour = floor(roundDec(prevHour + incrHours, 6)) % 24;
            let splitDate = tzDate2(split);
            let actualHour = splitDate.getHours();
            let dstShift = actualHour - expectedHour;
            if (dstShift > 1)
              dstShift = -1;
            split -= dstShift * h;
            prevHour = (prevHour + incrHours) % 24;
            let prevSplit = splits[splits.length - 1];
            let pctIncr = roundDec((split - prevSplit) / foundIncr, 3);
            if (pctIncr * pctSpace >= 0.7)
              splits.push(split);
          } else
            splits.push(split);
        }
      }
      return splits;
    };
  }
  return [
    timeIncrs,
    _timeAxisStamps,
    timeAxisSplits
  ];
}
var [timeIncrsMs, _timeAxisStampsMs, timeAxisSplitsMs] = genTimeStuffs(1);
var [timeIncrsS, _timeAxisStampsS, timeAxisSplitsS] = genTimeStuffs(1e-3);
genIncrs(2, -53, 53, [1]);
function timeAxisStamps(stampCfg, fmtDate2) {
  return stampCfg.map((s) => s.map(
    (v, i) => i == 0 || i == 8 || v == null ? v : fmtDate2(i == 1 || s[8] == 0 ? v : s[1] + v)
  ));
}
function timeAxisVals(tzDate2, stamps) {
  return (self, splits, axisIdx, foundSpace, foundIncr) => {
    let s = stamps.find((s2) => foundIncr >= s2[0]) || stamps[stamps.length - 1];
    let prevYear;
    let prevMnth;
    let prevDate;
    let prevHour;
    let prevMins;
    let prevSecs;
    return splits.map((split) => {
      let date = tzDate2(split);
      let newYear = date.getFullYear();
      let newMnth = date.getMonth();
      let newDate = date.getDate();
      let newHour = date.getHours();
      let newMins = date.getMinutes();
      let newSecs = date.getSeconds();
      let stamp2 = newYear != prevYear && s[2] || newMnth != prevMnth && s[3] || newDate != prevDate && s[4] || newHour != prevHour && s[5] || newMins != prevMins && s[6] || newSecs != prevSecs && s[7] || s[1];
      prevYear = newYear;
      prevMnth = newMnth;
      prevDate = newDate;
      prevHour = newHour;
      prevMins = newMins;
      prevSecs = newSecs;
      return stamp2(date);
    });
  };
}
function timeAxisVal(tzDate2, dateTpl) {
  let stamp2 = fmtDate(dateTpl);
  return (self, splits, axisIdx, foundSpace, foundIncr) => splits.map((split) => stamp2(tzDate2(split)));
}
function mkDate(y, m, d) {
  return new Date(y, m, d);
}
function timeSeriesStamp(stampCfg, fmtDate2) {
  return fmtDate2(stampCfg);
}
var _timeSeriesStamp = "{YYYY}-{MM}-{DD} {h}:{mm}{aa}";
function timeSeriesVal(tzDate2, stamp2) {
  return (self, val, seriesIdx, dataIdx) => dataIdx == null ? LEGEND_DISP : stamp2(tzDate2(val));
}
function legendStroke(self, seriesIdx) {
  let s = self.series[seriesIdx];
  return s.width ? s.stroke(self, seriesIdx) : s.points.width ? s.points.stroke(self, seriesIdx) : null;
}
function legendFill(self, seriesIdx) {
  return self.series[seriesIdx].fill(self, seriesIdx);
}
var legendOpts = {
  show: true,
  live: true,
  isolate: false,
  mount: noop,
  markers: {
    show: true,
    width: 2,
    stroke: legendStroke,
    fill: legendFill,
    dash: "solid"
  },
  idx: null,
  idxs: null,
  values: []
};
function cursorPointShow(self, si) {
  let o = self.cursor.points;
  let pt = placeDiv();
  let size2 = o.size(self, si);
  setStylePx(pt, WIDTH, size2);
  setStylePx(pt, HEIGHT, size2);
  let mar = size2 / -2;
  setStylePx(pt, "marginLeft", mar);
  setStylePx(pt, "marginTop", mar);
  let width2 = o.width(self, si, size2);
  width2 && setStylePx(pt, "borderWidth", width2);
  return pt;
}
function cursorPointFill(self, si) {
  let sp = self.series[si].points;
  return sp._fill || sp._stroke;
}
function cursorPointStroke(self, si) {
  let sp = self.series[si].points;
  return sp._stroke || sp._fill;
}
function cursorPointSize(self, si) {
  let sp = self.series[si].points;
  return sp.size;
}
var moveTuple = [0, 0];
function cursorMove(self, mouseLeft1, mouseTop1) {
  moveTuple[0] = mouseLeft1;
  moveTuple[1] = mouseTop1;
  return moveTuple;
}
function filtBtn0(self, targ, handle, onlyTarg = true) {
  return (e) => {
    e.button == 0 && (!onlyTarg || e.target == targ) && handle(e);
  };
}
function filtTarg(self, targ, handle, onlyTarg = true) {
  return (e) => {
    (!onlyTarg || e.target == targ) && handle(e);
  };
}
var cursorOpts = {
  show: true,
  x: true,
  y: true,
  lock: false,
  move: cursorMove,
  points: {
    one: false,
    show: cursorPointShow,
    size: cursorPointSize,
    width: 0,
    stroke: cursorPointStroke,
    fill: cursorPointFill
  },
  bind: {
    mousedown: filtBtn0,
    mouseup: filtBtn0,
    click: filtBtn0,
    // legend clicks, not .u-over clicks
    dblclick: filtBtn0,
    mousemove: filtTarg,
    mouseleave: filtTarg,
    mouseenter: filtTarg
  },
  drag: {
    setScale: true,
    x: true,
    y: false,
    dist: 0,
    uni: null,
    click: (self, e) => {
      e.stopPropagation();
      e.stopImmediatePropagation();
    },
    _x: false,
    _y: false
  },
  focus: {
    dist: (self, seriesIdx, dataIdx, valPos, curPos) => valPos - curPos,
    prox: -1,
    bias: 0
  },
  hover: {
    skip: [void 0],
    prox: null,
    bias: 0
  },
  left: -10,
  top: -10,
  idx: null,
  dataIdx: null,
  idxs: null,
  event: null
};
var axisLines = {
  show: true,
  stroke: "rgba(0,0,0,0.07)",
  width: 2
  //	dash: [],
};
var grid = assign({}, axisLines, {
  filter: retArg1
});
var ticks2 = assign({}, grid, {
  size: 10
});
var border = assign({}, axisLines, {
  show: false
});
var font = '12px system-ui, -apple-system, "Segoe UI", Roboto, "Helvetica Neue", Arial, "Noto Sans", sans-serif, "Apple Color Emoji", "Segoe UI Emoji", "Segoe UI Symbol", "Noto Color Emoji"';
var labelFont = "bold " + font;
var lineGap = 1.5;
var xAxisOpts = {
  show: true,
  scale: "x",
  stroke: hexBlack,
  space: 50,
  gap: 5,
  alignTo: 1,
  size: 50,
  labelGap: 0,
  labelSize: 30,
  labelFont,
  side: 2,
  //	class: "x-vals",
  //	incrs: timeIncrs,
  //	values: timeVals,
  //	filter: retArg1,
  grid,
  ticks: ticks2,
  border,
  font,
  lineGap,
  rotate: 0
};
var numSeriesLabel = "Value";
var timeSeriesLabel = "Time";
var xSeriesOpts = {
  show: true,
  scale: "x",
  auto: false,
  sorted: 1,
  //	label: "Time",
  //	value: v => stamp(new Date(v * 1e3)),
  // internal caches
  min: inf,
  max: -inf,
  idxs: []
};
function numAxisVals(self, splits, axisIdx, foundSpace, foundIncr) {
  return splits.map((v) => v == null ? "" : fmtNum(v));
}
function numAxisSplits(self, axisIdx, scaleMin, scaleMax, foundIncr, foundSpace, forceMin) {
  let splits = [];
  let numDec = fixedDec.get(foundIncr) || 0;
  scaleMin = forceMin ? scaleMin : roundDec(incrRoundUp(scaleMin, foundIncr), numDec);
  for (let val = scaleMin; val <= scaleMax; val = roundDec(val + foundIncr, numDec))
    splits.push(Object.is(val, -0) ? 0 : val);
  return splits;
}
function logAxisSplits(self, axisIdx, scaleMin, scaleMax, foundIncr, foundSpace, forceMin) {
  const splits = [];
  const logBase = self.scales[self.axes[axisIdx].scale].log;
  const logFn = logBase == 10 ? log10 : log2;
  const exp = floor(logFn(scaleMin));
  foundIncr = pow(logBase, exp);
  if (logBase == 10)
    foundIncr = numIncrs[closestIdx(foundIncr, numIncrs)];
  let split = scaleMin;
  let nextMagIncr = foundIncr * logBase;
  if (logBase == 10)
    nextMagIncr = numIncrs[closestIdx(nextMagIncr, numIncrs)];
  do {
    splits.push(split);
    split = split + foundIncr;
    if (logBase == 10 && !fixedDec.has(split))
      split = roundDec(split, fixedDec.get(foundIncr));
    if (split >= nextMagIncr) {
      foundIncr = split;
      nextMagIncr = foundIncr * logBase;
      if (logBase == 10)
        nextMagIncr = numIncrs[closestIdx(nextMagIncr, numIncrs)];
    }
  } while (split <= scaleMax);
  return splits;
}
function asinhAxisSplits(self, axisIdx, scaleMin, scaleMax, foundIncr, foundSpace, forceMin) {
  let sc = self.scales[self.axes[axisIdx].scale];
  let linthresh = sc.asinh;
  let posSplits = scaleMax > linthresh ? logAxisSplits(self, axisIdx, max(linthresh, scaleMin), scaleMax, foundIncr) : [linthresh];
  let zero = scaleMax >= 0 && scaleMin <= 0 ? [0] : [];
  let negSplits = scaleMin < -linthresh ? logAxisSplits(self, axisIdx, max(linthresh, -scaleMax), -scaleMin, foundIncr) : [linthresh];
  return negSplits.reverse().map((v) => -v).concat(zero, posSplits);
}
var RE_ALL = /./;
var RE_12357 = /[12357]/;
var RE_125 = /[125]/;
var RE_1 = /1/;
var _filt = (splits, distr, re, keepMod) => splits.map((v, i) => distr == 4 && v == 0 || i % keepMod == 0 && re.test(v.toExponential()[v < 0 ? 1 : 0]) ? v : null);
function log10AxisValsFilt(self, splits, axisIdx, foundSpace, foundIncr) {
  let axis3 = self.axes[axisIdx];
  let scaleKey = axis3.scale;
  let sc = self.scales[scaleKey];
  let valToPos = self.valToPos;
  let minSpace = axis3._space;
  let _10 = valToPos(10, scaleKey);
  let re = valToPos(9, scaleKey) - _10 >= minSpace ? RE_ALL : valToPos(7, scaleKey) - _10 >= minSpace ? RE_12357 : valToPos(5, scaleKey) - _10 >= minSpace ? RE_125 : RE_1;
  if (re == RE_1) {
    let magSpace = abs(valToPos(1, scaleKey) - _10);
    if (magSpace < minSpace)
      return _filt(splits.slice().reverse(), sc.distr, re, ceil(minSpace / magSpace)).reverse();
  }
  return _filt(splits, sc.distr, re, 1);
}
function log2AxisValsFilt(self, splits, axisIdx, foundSpace, foundIncr) {
  let axis3 = self.axes[axisIdx];
  let scaleKey = axis3.scale;
  let minSpace = axis3._space;
  let valToPos = self.valToPos;
  let magSpace = abs(valToPos(1, scaleKey) - valToPos(2, scaleKey));
  if (magSpace < minSpace)
    return _filt(splits.slice().reverse(), 3, RE_ALL, ceil(minSpace / magSpace)).reverse();
  return splits;
}
function numSeriesVal(self, val, seriesIdx, dataIdx) {
  return dataIdx == null ? LEGEND_DISP : val == null ? "" : fmtNum(val);
}
var yAxisOpts = {
  show: true,
  scale: "y",
  stroke: hexBlack,
  space: 30,
  gap: 5,
  alignTo: 1,
  size: 50,
  labelGap: 0,
  labelSize: 30,
  labelFont,
  side: 3,
  //	class: "y-vals",
  //	incrs: numIncrs,
  //	values: (vals, space) => vals,
  //	filter: retArg1,
  grid,
  ticks: ticks2,
  border,
  font,
  lineGap,
  rotate: 0
};
function ptDia(width2, mult) {
  let dia = 3 + (width2 || 1) * 2;
  return roundDec(dia * mult, 3);
}
function seriesPointsShow(self, si) {
  let { scale: scale2, idxs } = self.series[0];
  let xData = self._data[0];
  let p0 = self.valToPos(xData[idxs[0]], scale2, true);
  let p1 = self.valToPos(xData[idxs[1]], scale2, true);
  let dim = abs(p1 - p0);
  let s = self.series[si];
  let maxPts = dim / (s.points.space * pxRatio);
  return idxs[1] - idxs[0] <= maxPts;
}
var facet = {
  scale: null,
  auto: true,
  sorted: 0,
  // internal caches
  min: inf,
  max: -inf
};
var gaps = (self, seriesIdx, idx0, idx1, nullGaps) => nullGaps;
var xySeriesOpts = {
  show: true,
  auto: true,
  sorted: 0,
  gaps,
  alpha: 1,
  facets: [
    assign({}, facet, { scale: "x" }),
    assign({}, facet, { scale: "y" })
  ]
};
var ySeriesOpts = {
  scale: "y",
  auto: true,
  sorted: 0,
  show: true,
  spanGaps: false,
  gaps,
  alpha: 1,
  points: {
    show: seriesPointsShow,
    filter: null
    //  paths:
    //	stroke: "#000",
    //	fill: "#fff",
    //	width: 1,
    //	size: 10,
  },
  //	label: "Value",
  //	value: v => v,
  values: null,
  // internal caches
  min: inf,
  max: -inf,
  idxs: [],
  path: null,
  clip: null
};
function clampScale(self, val, scaleMin, scaleMax, scaleKey) {
  return scaleMin / 10;
}
var xScaleOpts = {
  time: FEAT_TIME,
  auto: true,
  distr: 1,
  log: 10,
  asinh: 1,
  min: null,
  max: null,
  dir: 1,
  ori: 0
};
var yScaleOpts = assign({}, xScaleOpts, {
  time: false,
  ori: 1
});
var syncs = {};
function _sync(key, opts) {
  let s = syncs[key];
  if (!s) {
    s = {
      key,
      plots: [],
      sub(plot) {
        s.plots.push(plot);
      },
      unsub(plot) {
        s.plots = s.plots.filter((c) => c != plot);
      },
      pub(type, self, x, y, w, h, i) {
        for (let j = 0; j < s.plots.length; j++)
          s.plots[j] != self && s.plots[j].pub(type, self, x, y, w, h, i);
      }
    };
    if (key != null)
      syncs[key] = s;
  }
  return s;
}
var BAND_CLIP_FILL = 1 << 0;
var BAND_CLIP_STROKE = 1 << 1;
function orient(u, seriesIdx, cb) {
  const mode = u.mode;
  const series = u.series[seriesIdx];
  const data = mode == 2 ? u._data[seriesIdx] : u._data;
  const scales = u.scales;
  const bbox = u.bbox;
  let dx = data[0], dy = mode == 2 ? data[1] : data[seriesIdx], sx = mode == 2 ? scales[series.facets[0].scale] : scales[u.series[0].scale], sy = mode == 2 ? scales[series.facets[1].scale] : scales[series.scale], l = bbox.left, t = bbox.top, w = bbox.width, h = bbox.height, H = u.valToPosH, V = u.valToPosV;
  return sx.ori == 0 ? cb(
    series,
    dx,
    dy,
    sx,
    sy,
    H,
    V,
    l,
    t,
    w,
    h,
    moveToH,
    lineToH,
    rectH,
    arcH,
    bezierCurveToH
  ) : cb(
    series,
    dx,
    dy,
    sx,
    sy,
    V,
    H,
    t,
    l,
    h,
    w,
    moveToV,
    lineToV,
    rectV,
    arcV,
    bezierCurveToV
  );
}
function bandFillClipDirs(self, seriesIdx) {
  let fillDir = 0;
  let clipDirs = 0;
  let bands = ifNull(self.bands, EMPTY_ARR);
  for (let i = 0; i < bands.length; i++) {
    let b = bands[i];
    if (b.series[0] == seriesIdx)
      fillDir = b.dir;
    else if (b.series[1] == seriesIdx) {
      if (b.dir == 1)
        clipDirs |= 1;
      else
        clipDirs |= 2;
    }
  }
  return [
    fillDir,
    clipDirs == 1 ? -1 : (
      // neg only
      clipDirs == 2 ? 1 : (
        // pos only
        clipDirs == 3 ? 2 : (
          // both
          0
        )
      )
    )
  ];
}
function seriesFillTo(self, seriesIdx, dataMin, dataMax, bandFillDir) {
  let mode = self.mode;
  let series = self.series[seriesIdx];
  let scaleKey = mode == 2 ? series.facets[1].scale : series.scale;
  let scale2 = self.scales[scaleKey];
  return bandFillDir == -1 ? scale2.min : bandFillDir == 1 ? scale2.max : scale2.distr == 3 ? scale2.dir == 1 ? scale2.min : scale2.max : 0;
}
function clipBandLine(self, seriesIdx, idx0, idx1, strokePath, clipDir) {
  return orient(self, seriesIdx, (series, dataX, dataY, scaleX, scaleY, valToPosX, valToPosY, xOff, yOff, xDim, yDim) => {
    let pxRound = series.pxRound;
    const dir = scaleX.dir * (scaleX.ori == 0 ? 1 : -1);
    const lineTo = scaleX.ori == 0 ? lineToH : lineToV;
    let frIdx, toIdx;
    if (dir == 1) {
      frIdx = idx0;
      toIdx = idx1;
    } else {
      frIdx = idx1;
      toIdx = idx0;
    }
    let x0 = pxRound(valToPosX(dataX[frIdx], scaleX, xDim, xOff));
    let y0 = pxRound(valToPosY(dataY[frIdx], scaleY, yDim, yOff));
    let x1 = pxRound(valToPosX(dataX[toIdx], scaleX, xDim, xOff));
    let yLimit = pxRound(valToPosY(clipDir == 1 ? scaleY.max : scaleY.min, scaleY, yDim, yOff));
    let clip = new Path2D(strokePath);
    lineTo(clip, x1, yLimit);
    lineTo(clip, x0, yLimit);
    lineTo(clip, x0, y0);
    return clip;
  });
}
function clipGaps(gaps2, ori, plotLft, plotTop, plotWid, plotHgt) {
  let clip = null;
  if (gaps2.length > 0) {
    clip = new Path2D();
    const rect2 = ori == 0 ? rectH : rectV;
    let prevGapEnd = plotLft;
    for (let i = 0; i < gaps2.length; i++) {
      let g = gaps2[i];
      if (g[1] > g[0]) {
        let w2 = g[0] - prevGapEnd;
        w2 > 0 && rect2(clip, prevGapEnd, plotTop, w2, plotTop + plotHgt);
        prevGapEnd = g[1];
      }
    }
    let w = plotLft + plotWid - prevGapEnd;
    let maxStrokeWidth = 10;
    w > 0 && rect2(clip, prevGapEnd, plotTop - maxStrokeWidth / 2, w, plotTop + plotHgt + maxStrokeWidth);
  }
  return clip;
}
function addGap(gaps2, fromX, toX) {
  let prevGap = gaps2[gaps2.length - 1];
  if (prevGap && prevGap[0] == fromX)
    prevGap[1] = toX;
  else
    gaps2.push([fromX, toX]);
}
function findGaps(xs, ys, idx0, idx1, dir, pixelForX, align) {
  let gaps2 = [];
  let len = xs.length;
  for (let i = dir == 1 ? idx0 : idx1; i >= idx0 && i <= idx1; i += dir) {
    let yVal = ys[i];
    if (yVal === null) {
      let fr = i, to = i;
      if (dir == 1) {
        while (++i <= idx1 && ys[i] === null)
          to = i;
      } else {
        while (--i >= idx0 && ys[i] === null)
          to = i;
      }
      let frPx = pixelForX(xs[fr]);
      let toPx = to == fr ? frPx : pixelForX(xs[to]);
      let fri2 = fr - dir;
      let frPx2 = align <= 0 && fri2 >= 0 && fri2 < len ? pixelForX(xs[fri2]) : frPx;
      frPx = frPx2;
      let toi2 = to + dir;
      let toPx2 = align >= 0 && toi2 >= 0 && toi2 < len ? pixelForX(xs[toi2]) : toPx;
      toPx = toPx2;
      if (toPx >= frPx)
        gaps2.push([frPx, toPx]);
    }
  }
  return gaps2;
}
function pxRoundGen(pxAlign) {
  return pxAlign == 0 ? retArg0 : pxAlign == 1 ? round2 : (v) => incrRound(v, pxAlign);
}
function rect(ori) {
  let moveTo = ori == 0 ? moveToH : moveToV;
  let arcTo = ori == 0 ? (p, x1, y1, x2, y2, r) => {
    p.arcTo(x1, y1, x2, y2, r);
  } : (p, y1, x1, y2, x2, r) => {
    p.arcTo(x1, y1, x2, y2, r);
  };
  let rect2 = ori == 0 ? (p, x, y, w, h) => {
    p.rect(x, y, w, h);
  } : (p, y, x, h, w) => {
    p.rect(x, y, w, h);
  };
  return (p, x, y, w, h, endRad = 0, baseRad = 0) => {
    if (endRad == 0 && baseRad == 0)
      rect2(p, x, y, w, h);
    else {
      endRad = min(endRad, w / 2, h / 2);
      baseRad = min(baseRad, w / 2, h / 2);
      moveTo(p, x + endRad, y);
      arcTo(p, x + w, y, x + w, y + h, endRad);
      arcTo(p, x + w, y + h, x, y + h, baseRad);
      arcTo(p, x, y + h, x, y, baseRad);
      arcTo(p, x, y, x + w, y, endRad);
      p.closePath();
    }
  };
}
var moveToH = (p, x, y) => {
  p.moveTo(x, y);
};
var moveToV = (p, y, x) => {
  p.moveTo(x, y);
};
var lineToH = (p, x, y) => {
  p.lineTo(x, y);
};
var lineToV = (p, y, x) => {
  p.lineTo(x, y);
};
var rectH = rect(0);
var rectV = rect(1);
var arcH = (p, x, y, r, startAngle, endAngle) => {
  p.arc(x, y, r, startAngle, endAngle);
};
var arcV = (p, y, x, r, startAngle, endAngle) => {
  p.arc(x, y, r, startAngle, endAngle);
};
var bezierCurveToH = (p, bp1x, bp1y, bp2x, bp2y, p2x, p2y) => {
  p.bezierCurveTo(bp1x, bp1y, bp2x, bp2y, p2x, p2y);
};
var bezierCurveToV = (p, bp1y, bp1x, bp2y, bp2x, p2y, p2x) => {
  p.bezierCurveTo(bp1x, bp1y, bp2x, bp2y, p2x, p2y);
};
function points(opts) {
  return (u, seriesIdx, idx0, idx1, filtIdxs) => {
    return orient(u, seriesIdx, (series, dataX, dataY, scaleX, scaleY, valToPosX, valToPosY, xOff, yOff, xDim, yDim) => {
      let { pxRound, points: points2 } = series;
      let moveTo, arc;
      if (scaleX.ori == 0) {
        moveTo = moveToH;
        arc = arcH;
      } else {
        moveTo = moveToV;
        arc = arcV;
      }
      const width2 = roundDec(points2.width * pxRatio, 3);
      let rad = (points2.size - points2.width) / 2 * pxRatio;
      let dia = roundDec(rad * 2, 3);
      let fill3 = new Path2D();
      let clip = new Path2D();
      let { left: lft, top, width: wid, height: hgt } = u.bbox;
      rectH(
        clip,
        lft - dia,
        top - dia,
        wid + dia * 2,
        hgt + dia * 2
      );
      const drawPoint = (pi) => {
        if (dataY[pi] != null) {
          let x = pxRound(valToPosX(dataX[pi], scaleX, xDim, xOff));
          let y = pxRound(valToPosY(dataY[pi], scaleY, yDim, yOff));
          moveTo(fill3, x + rad, y);
          arc(fill3, x, y, rad, 0, PI * 2);
        }
      };
      if (filtIdxs)
        filtIdxs.forEach(drawPoint);
      else {
        for (let pi = idx0; pi <= idx1; pi++)
          drawPoint(pi);
      }
      return {
        stroke: width2 > 0 ? fill3 : null,
        fill: fill3,
        clip,
        flags: BAND_CLIP_FILL | BAND_CLIP_STROKE
      };
    });
  };
}
function _drawAcc(lineTo) {
  return (stroke, accX, minY, maxY, inY, outY) => {
    if (minY != maxY) {
      if (inY != minY && outY != minY)
        lineTo(stroke, accX, minY);
      if (inY != maxY && outY != maxY)
        lineTo(stroke, accX, maxY);
      lineTo(stroke, accX, outY);
    }
  };
}
var drawAccH = _drawAcc(lineToH);
var drawAccV = _drawAcc(lineToV);
function linear(opts) {
  const alignGaps = ifNull(opts?.alignGaps, 0);
  return (u, seriesIdx, idx0, idx1) => {
    return orient(u, seriesIdx, (series, dataX, dataY, scaleX, scaleY, valToPosX, valToPosY, xOff, yOff, xDim, yDim) => {
      [idx0, idx1] = nonNullIdxs(dataY, idx0, idx1);
      let pxRound = series.pxRound;
      let pixelForX = (val) => pxRound(valToPosX(val, scaleX, xDim, xOff));
      let pixelForY = (val) => pxRound(valToPosY(val, scaleY, yDim, yOff));
      let lineTo, drawAcc;
      if (scaleX.ori == 0) {
        lineTo = lineToH;
        drawAcc = drawAccH;
      } else {
        lineTo = lineToV;
        drawAcc = drawAccV;
      }
      const dir = scaleX.dir * (scaleX.ori == 0 ? 1 : -1);
      const _paths = { stroke: new Path2D(), fill: null, clip: null, band: null, gaps: null, flags: BAND_CLIP_FILL };
      const stroke = _paths.stroke;
      let hasGap = false;
      const decimate = idx1 - idx0 >= xDim * 4;
      if (decimate) {
        let xForPixel = (pos) => u.posToVal(pos, scaleX.key, true);
        let minY = null, maxY = null, inY, outY, drawnAtX;
        let accX = pixelForX(dataX[dir == 1 ? idx0 : idx1]);
        let idx0px = pixelForX(dataX[idx0]);
        let idx1px = pixelForX(dataX[idx1]);
        let nextAccXVal = xForPixel(dir == 1 ? idx0px + 1 : idx1px - 1);
        for (let i = dir == 1 ? idx0 : idx1; i >= idx0 && i <= idx1; i += dir) {
          let xVal = dataX[i];
          let reuseAccX = dir == 1 ? xVal < nextAccXVal : xVal > nextAccXVal;
          let x = reuseAccX ? accX : pixelForX(xVal);
          let yVal = dataY[i];
          if (x == accX) {
            if (yVal != null) {
              outY = yVal;
              if (minY == null) {
                lineTo(stroke, x, pixelForY(outY));
                inY = minY = maxY = outY;
              } else {
                if (outY < minY)
                  minY = outY;
                else if (outY > maxY)
                  maxY = outY;
              }
            } else {
              if (yVal === null)
                hasGap = true;
            }
          } else {
            if (minY != null)
              drawAcc(stroke, accX, pixelForY(minY), pixelForY(maxY), pixelForY(inY), pixelForY(outY));
            if (yVal != null) {
              outY = yVal;
              lineTo(stroke, x, pixelForY(outY));
              minY = maxY = inY = outY;
            } else {
              minY = maxY = null;
              if (yVal === null)
                hasGap = true;
            }
            accX = x;
            nextAccXVal = xForPixel(accX + dir);
          }
        }
        if (minY != null && minY != maxY && drawnAtX != accX)
          drawAcc(stroke, accX, pixelForY(minY), pixelForY(maxY), pixelForY(inY), pixelForY(outY));
      } else {
        for (let i = dir == 1 ? idx0 : idx1; i >= idx0 && i <= idx1; i += dir) {
          let yVal = dataY[i];
          if (yVal === null)
            hasGap = true;
          else if (yVal != null)
            lineTo(stroke, pixelForX(dataX[i]), pixelForY(yVal));
        }
      }
      let [bandFillDir, bandClipDir] = bandFillClipDirs(u, seriesIdx);
      if (series.fill != null || bandFillDir != 0) {
        let fill3 = _paths.fill = new Path2D(stroke);
        let fillToVal = series.fillTo(u, seriesIdx, series.min, series.max, bandFillDir);
        let fillToY = pixelForY(fillToVal);
        let frX = pixelForX(dataX[idx0]);
        let toX = pixelForX(dataX[idx1]);
        if (dir == -1)
          [toX, frX] = [frX, toX];
        lineTo(fill3, toX, fillToY);
        lineTo(fill3, frX, fillToY);
      }
      if (!series.spanGaps) {
        let gaps2 = [];
        hasGap && gaps2.push(...findGaps(dataX, dataY, idx0, idx1, dir, pixelForX, alignGaps));
        _paths.gaps = gaps2 = series.gaps(u, seriesIdx, idx0, idx1, gaps2);
        _paths.clip = clipGaps(gaps2, scaleX.ori, xOff, yOff, xDim, yDim);
      }
      if (bandClipDir != 0) {
        _paths.band = bandClipDir == 2 ? [
          clipBandLine(u, seriesIdx, idx0, idx1, stroke, -1),
          clipBandLine(u, seriesIdx, idx0, idx1, stroke, 1)
        ] : clipBandLine(u, seriesIdx, idx0, idx1, stroke, bandClipDir);
      }
      return _paths;
    });
  };
}
function stepped(opts) {
  const align = ifNull(opts.align, 1);
  const ascDesc = ifNull(opts.ascDesc, false);
  const alignGaps = ifNull(opts.alignGaps, 0);
  const extend = ifNull(opts.extend, false);
  return (u, seriesIdx, idx0, idx1) => {
    return orient(u, seriesIdx, (series, dataX, dataY, scaleX, scaleY, valToPosX, valToPosY, xOff, yOff, xDim, yDim) => {
      [idx0, idx1] = nonNullIdxs(dataY, idx0, idx1);
      let pxRound = series.pxRound;
      let { left: left2, width: width2 } = u.bbox;
      let pixelForX = (val) => pxRound(valToPosX(val, scaleX, xDim, xOff));
      let pixelForY = (val) => pxRound(valToPosY(val, scaleY, yDim, yOff));
      let lineTo = scaleX.ori == 0 ? lineToH : lineToV;
      const _paths = { stroke: new Path2D(), fill: null, clip: null, band: null, gaps: null, flags: BAND_CLIP_FILL };
      const stroke = _paths.stroke;
      const dir = scaleX.dir * (scaleX.ori == 0 ? 1 : -1);
      let prevYPos = pixelForY(dataY[dir == 1 ? idx0 : idx1]);
      let firstXPos = pixelForX(dataX[dir == 1 ? idx0 : idx1]);
      let prevXPos = firstXPos;
      let firstXPosExt = firstXPos;
      if (extend && align == -1) {
        firstXPosExt = left2;
        lineTo(stroke, firstXPosExt, prevYPos);
      }
      lineTo(stroke, firstXPos, prevYPos);
      for (let i = dir == 1 ? idx0 : idx1; i >= idx0 && i <= idx1; i += dir) {
        let yVal1 = dataY[i];
        if (yVal1 == null)
          continue;
        let x1 = pixelForX(dataX[i]);
        let y1 = pixelForY(yVal1);
        if (align == 1)
          lineTo(stroke, x1, prevYPos);
        else
          lineTo(stroke, prevXPos, y1);
        lineTo(stroke, x1, y1);
        prevYPos = y1;
        prevXPos = x1;
      }
      let prevXPosExt = prevXPos;
      if (extend && align == 1) {
        prevXPosExt = left2 + width2;
        lineTo(stroke, prevXPosExt, prevYPos);
      }
      let [bandFillDir, bandClipDir] = bandFillClipDirs(u, seriesIdx);
      if (series.fill != null || bandFillDir != 0) {
        let fill3 = _paths.fill = new Path2D(stroke);
        let fillTo = series.fillTo(u, seriesIdx, series.min, series.max, bandFillDir);
        let fillToY = pixelForY(fillTo);
        lineTo(fill3, prevXPosExt, fillToY);
        lineTo(fill3, firstXPosExt, fillToY);
      }
      if (!series.spanGaps) {
        let gaps2 = [];
        gaps2.push(...findGaps(dataX, dataY, idx0, idx1, dir, pixelForX, alignGaps));
        let halfStroke = series.width * pxRatio / 2;
        let startsOffset = ascDesc || align == 1 ? halfStroke : -halfStroke;
        let endsOffset = ascDesc || align == -1 ? -halfStroke : halfStroke;
        gaps2.forEach((g) => {
          g[0] += startsOffset;
          g[1] += endsOffset;
        });
        _paths.gaps = gaps2 = series.gaps(u, seriesIdx, idx0, idx1, gaps2);
        _paths.clip = clipGaps(gaps2, scaleX.ori, xOff, yOff, xDim, yDim);
      }
      if (bandClipDir != 0) {
        _paths.band = bandClipDir == 2 ? [
          clipBandLine(u, seriesIdx, idx0, idx1, stroke, -1),
          clipBandLine(u, seriesIdx, idx0, idx1, stroke, 1)
        ] : clipBandLine(u, seriesIdx, idx0, idx1, stroke, bandClipDir);
      }
      return _paths;
    });
  };
}
function findColWidth(dataX, dataY, valToPosX, scaleX, xDim, xOff, colWid = inf) {
  if (dataX.length > 1) {
    let prevIdx = null;
    for (let i = 0, minDelta = Infinity; i < dataX.length; i++) {
      if (dataY[i] !== void 0) {
        if (prevIdx != null) {
          let delta = abs(dataX[i] - dataX[prevIdx]);
          if (delta < minDelta) {
            minDelta = delta;
            colWid = abs(valToPosX(dataX[i], scaleX, xDim, xOff) - valToPosX(dataX[prevIdx], scaleX, xDim, xOff));
          }
        }
        prevIdx = i;
      }
    }
  }
  return colWid;
}
function bars(opts) {
  opts = opts || EMPTY_OBJ;
  const size2 = ifNull(opts.size, [0.6, inf, 1]);
  const align = opts.align || 0;
  const _extraGap = opts.gap || 0;
  let ro = opts.radius;
  ro = // [valueRadius, baselineRadius]
  ro == null ? [0, 0] : typeof ro == "number" ? [ro, 0] : ro;
  const radiusFn = fnOrSelf(ro);
  const gapFactor = 1 - size2[0];
  const _maxWidth = ifNull(size2[1], inf);
  const _minWidth = ifNull(size2[2], 1);
  const disp = ifNull(opts.disp, EMPTY_OBJ);
  const _each = ifNull(opts.each, (_2) => {
  });
  const { fill: dispFills, stroke: dispStrokes } = disp;
  return (u, seriesIdx, idx0, idx1) => {
    return orient(u, seriesIdx, (series, dataX, dataY, scaleX, scaleY, valToPosX, valToPosY, xOff, yOff, xDim, yDim) => {
      let pxRound = series.pxRound;
      let _align = align;
      let extraGap = _extraGap * pxRatio;
      let maxWidth = _maxWidth * pxRatio;
      let minWidth = _minWidth * pxRatio;
      let valRadius, baseRadius;
      if (scaleX.ori == 0)
        [valRadius, baseRadius] = radiusFn(u, seriesIdx);
      else
        [baseRadius, valRadius] = radiusFn(u, seriesIdx);
      const _dirX = scaleX.dir * (scaleX.ori == 0 ? 1 : -1);
      let rect2 = scaleX.ori == 0 ? rectH : rectV;
      let each = scaleX.ori == 0 ? _each : (u2, seriesIdx2, i, top, lft, hgt, wid) => {
        _each(u2, seriesIdx2, i, lft, top, wid, hgt);
      };
      let band = ifNull(u.bands, EMPTY_ARR).find((b) => b.series[0] == seriesIdx);
      let fillDir = band != null ? band.dir : 0;
      let fillTo = series.fillTo(u, seriesIdx, series.min, series.max, fillDir);
      let fillToY = pxRound(valToPosY(fillTo, scaleY, yDim, yOff));
      let xShift, barWid, fullGap, colWid = xDim;
      let strokeWidth = pxRound(series.width * pxRatio);
      let multiPath = false;
      let fillColors = null;
      let fillPaths = null;
      let strokeColors = null;
      let strokePaths = null;
      if (dispFills != null && (strokeWidth == 0 || dispStrokes != null)) {
        multiPath = true;
        fillColors = dispFills.values(u, seriesIdx, idx0, idx1);
        fillPaths = /* @__PURE__ */ new Map();
        new Set(fillColors).forEach((color) => {
          if (color != null)
            fillPaths.set(color, new Path2D());
        });
        if (strokeWidth > 0) {
          strokeColors = dispStrokes.values(u, seriesIdx, idx0, idx1);
          strokePaths = /* @__PURE__ */ new Map();
          new Set(strokeColors).forEach((color) => {
            if (color != null)
              strokePaths.set(color, new Path2D());
          });
        }
      }
      let { x0, size: size3 } = disp;
      if (x0 != null && size3 != null) {
        _align = 1;
        dataX = x0.values(u, seriesIdx, idx0, idx1);
        if (x0.unit == 2)
          dataX = dataX.map((pct) => u.posToVal(xOff + pct * xDim, scaleX.key, true));
        let sizes = size3.values(u, seriesIdx, idx0, idx1);
        if (size3.unit == 2)
          barWid = sizes[0] * xDim;
        else
          barWid = valToPosX(sizes[0], scaleX, xDim, xOff) - valToPosX(0, scaleX, xDim, xOff);
        colWid = findColWidth(dataX, dataY, valToPosX, scaleX, xDim, xOff, colWid);
        let gapWid = colWid - barWid;
        fullGap = gapWid + extraGap;
      } else {
        colWid = findColWidth(dataX, dataY, valToPosX, scaleX, xDim, xOff, colWid);
        let gapWid = colWid * gapFactor;
        fullGap = gapWid + extraGap;
        barWid = colWid - fullGap;
      }
      if (fullGap < 1)
        fullGap = 0;
      if (strokeWidth >= barWid / 2)
        strokeWidth = 0;
      if (fullGap < 5)
        pxRound = retArg0;
      let insetStroke = fullGap > 0;
      let rawBarWid = colWid - fullGap - (insetStroke ? strokeWidth : 0);
      barWid = pxRound(clamp(rawBarWid, minWidth, maxWidth));
      xShift = (_align == 0 ? barWid / 2 : _align == _dirX ? 0 : barWid) - _align * _dirX * ((_align == 0 ? extraGap / 2 : 0) + (insetStroke ? strokeWidth / 2 : 0));
      const _paths = { stroke: null, fill: null, clip: null, band: null, gaps: null, flags: 0 };
      const stroke = multiPath ? null : new Path2D();
      let dataY0 = null;
      if (band != null)
        dataY0 = u.data[band.series[1]];
      else {
        let { y0, y1 } = disp;
        if (y0 != null && y1 != null) {
          dataY = y1.values(u, seriesIdx, idx0, idx1);
          dataY0 = y0.values(u, seriesIdx, idx0, idx1);
        }
      }
      let radVal = valRadius * barWid;
      let radBase = baseRadius * barWid;
      for (let i = _dirX == 1 ? idx0 : idx1; i >= idx0 && i <= idx1; i += _dirX) {
        let yVal = dataY[i];
        if (yVal == null)
          continue;
        if (dataY0 != null) {
          let yVal0 = dataY0[i] ?? 0;
          if (yVal - yVal0 == 0)
            continue;
          fillToY = valToPosY(yVal0, scaleY, yDim, yOff);
        }
        let xVal = scaleX.distr != 2 || disp != null ? dataX[i] : i;
        let xPos = valToPosX(xVal, scaleX, xDim, xOff);
        let yPos = valToPosY(ifNull(yVal, fillTo), scaleY, yDim, yOff);
        let lft = pxRound(xPos - xShift);
        let btm = pxRound(max(yPos, fillToY));
        let top = pxRound(min(yPos, fillToY));
        let barHgt = btm - top;
        if (yVal != null) {
          let rv = yVal < 0 ? radBase : radVal;
          let rb = yVal < 0 ? radVal : radBase;
          if (multiPath) {
            if (strokeWidth > 0 && strokeColors[i] != null)
              rect2(strokePaths.get(strokeColors[i]), lft, top + floor(strokeWidth / 2), barWid, max(0, barHgt - strokeWidth), rv, rb);
            if (fillColors[i] != null)
              rect2(fillPaths.get(fillColors[i]), lft, top + floor(strokeWidth / 2), barWid, max(0, barHgt - strokeWidth), rv, rb);
          } else
            rect2(stroke, lft, top + floor(strokeWidth / 2), barWid, max(0, barHgt - strokeWidth), rv, rb);
          each(
            u,
            seriesIdx,
            i,
            lft - strokeWidth / 2,
            top,
            barWid + strokeWidth,
            barHgt
          );
        }
      }
      if (strokeWidth > 0)
        _paths.stroke = multiPath ? strokePaths : stroke;
      else if (!multiPath) {
        _paths._fill = series.width == 0 ? series._fill : series._stroke ?? series._fill;
        _paths.width = 0;
      }
      _paths.fill = multiPath ? fillPaths : stroke;
      return _paths;
    });
  };
}
function splineInterp(interp, opts) {
  const alignGaps = ifNull(opts?.alignGaps, 0);
  return (u, seriesIdx, idx0, idx1) => {
    return orient(u, seriesIdx, (series, dataX, dataY, scaleX, scaleY, valToPosX, valToPosY, xOff, yOff, xDim, yDim) => {
      [idx0, idx1] = nonNullIdxs(dataY, idx0, idx1);
      let pxRound = series.pxRound;
      let pixelForX = (val) => pxRound(valToPosX(val, scaleX, xDim, xOff));
      let pixelForY = (val) => pxRound(valToPosY(val, scaleY, yDim, yOff));
      let moveTo, bezierCurveTo, lineTo;
      if (scaleX.ori == 0) {
        moveTo = moveToH;
        lineTo = lineToH;
        bezierCurveTo = bezierCurveToH;
      } else {
        moveTo = moveToV;
        lineTo = lineToV;
        bezierCurveTo = bezierCurveToV;
      }
      const dir = scaleX.dir * (scaleX.ori == 0 ? 1 : -1);
      let firstXPos = pixelForX(dataX[dir == 1 ? idx0 : idx1]);
      let prevXPos = firstXPos;
      let xCoords = [];
      let yCoords = [];
      for (let i = dir == 1 ? idx0 : idx1; i >= idx0 && i <= idx1; i += dir) {
        let yVal = dataY[i];
        if (yVal != null) {
          let xVal = dataX[i];
          let xPos = pixelForX(xVal);
          xCoords.push(prevXPos = xPos);
          yCoords.push(pixelForY(dataY[i]));
        }
      }
      const _paths = { stroke: interp(xCoords, yCoords, moveTo, lineTo, bezierCurveTo, pxRound), fill: null, clip: null, band: null, gaps: null, flags: BAND_CLIP_FILL };
      const stroke = _paths.stroke;
      let [bandFillDir, bandClipDir] = bandFillClipDirs(u, seriesIdx);
      if (series.fill != null || bandFillDir != 0) {
        let fill3 = _paths.fill = new Path2D(stroke);
        let fillTo = series.fillTo(u, seriesIdx, series.min, series.max, bandFillDir);
        let fillToY = pixelForY(fillTo);
        lineTo(fill3, prevXPos, fillToY);
        lineTo(fill3, firstXPos, fillToY);
      }
      if (!series.spanGaps) {
        let gaps2 = [];
        gaps2.push(...findGaps(dataX, dataY, idx0, idx1, dir, pixelForX, alignGaps));
        _paths.gaps = gaps2 = series.gaps(u, seriesIdx, idx0, idx1, gaps2);
        _paths.clip = clipGaps(gaps2, scaleX.ori, xOff, yOff, xDim, yDim);
      }
      if (bandClipDir != 0) {
        _paths.band = bandClipDir == 2 ? [
          clipBandLine(u, seriesIdx, idx0, idx1, stroke, -1),
          clipBandLine(u, seriesIdx, idx0, idx1, stroke, 1)
        ] : clipBandLine(u, seriesIdx, idx0, idx1, stroke, bandClipDir);
      }
      return _paths;
    });
  };
}
function monotoneCubic(opts) {
  return splineInterp(_monotoneCubic, opts);
}
function _monotoneCubic(xs, ys, moveTo, lineTo, bezierCurveTo, pxRound) {
  const n = xs.length;
  if (n < 2)
    return null;
  const path2 = new Path2D();
  moveTo(path2, xs[0], ys[0]);
  if (n == 2)
    lineTo(path2, xs[1], ys[1]);
  else {
    let ms = Array(n), ds = Array(n - 1), dys = Array(n - 1), dxs = Array(n - 1);
    for (let i = 0; i < n - 1; i++) {
      dys[i] = ys[i + 1] - ys[i];
      dxs[i] = xs[i + 1] - xs[i];
      ds[i] = dys[i] / dxs[i];
    }
    ms[0] = ds[0];
    for (let i = 1; i < n - 1; i++) {
      if (ds[i] === 0 || ds[i - 1] === 0 || ds[i - 1] > 0 !== ds[i] > 0)
        ms[i] = 0;
      else {
        ms[i] = 3 * (dxs[i - 1] + dxs[i]) / ((2 * dxs[i] + dxs[i - 1]) / ds[i - 1] + (dxs[i] + 2 * dxs[i - 1]) / ds[i]);
        if (!isFinite(ms[i]))
          ms[i] = 0;
      }
    }
    ms[n - 1] = ds[n - 2];
    for (let i = 0; i < n - 1; i++) {
      bezierCurveTo(
        path2,
        xs[i] + dxs[i] / 3,
        ys[i] + ms[i] * dxs[i] / 3,
        xs[i + 1] - dxs[i] / 3,
        ys[i + 1] - ms[i + 1] * dxs[i] / 3,
        xs[i + 1],
        ys[i + 1]
      );
    }
  }
  return path2;
}
var cursorPlots = /* @__PURE__ */ new Set();
function invalidateRects() {
  for (let u of cursorPlots)
    u.syncRect(true);
}
if (domEnv) {
  on3(resize, win, invalidateRects);
  on3(scroll, win, invalidateRects, true);
  on3(dppxchange, win, () => {
    uPlot.pxRatio = pxRatio;
  });
}
var linearPath = linear();
var pointsPath = points();
function setDefaults(d, xo, yo, initY) {
  let d2 = initY ? [d[0], d[1]].concat(d.slice(2)) : [d[0]].concat(d.slice(1));
  return d2.map((o, i) => setDefault(o, i, xo, yo));
}
function setDefaults2(d, xyo) {
  return d.map((o, i) => i == 0 ? {} : assign({}, xyo, o));
}
function setDefault(o, i, xo, yo) {
  return assign({}, i == 0 ? xo : yo, o);
}
function snapNumX(self, dataMin, dataMax) {
  return dataMin == null ? nullNullTuple : [dataMin, dataMax];
}
var snapTimeX = snapNumX;
function snapNumY(self, dataMin, dataMax) {
  return dataMin == null ? nullNullTuple : rangeNum(dataMin, dataMax, rangePad, true);
}
function snapLogY(self, dataMin, dataMax, scale2) {
  return dataMin == null ? nullNullTuple : rangeLog(dataMin, dataMax, self.scales[scale2].log, false);
}
var snapLogX = snapLogY;
function snapAsinhY(self, dataMin, dataMax, scale2) {
  return dataMin == null ? nullNullTuple : rangeAsinh(dataMin, dataMax, self.scales[scale2].log, false);
}
var snapAsinhX = snapAsinhY;
function findIncr(minVal, maxVal, incrs, dim, minSpace) {
  let intDigits = max(numIntDigits(minVal), numIntDigits(maxVal));
  let delta = maxVal - minVal;
  let incrIdx = closestIdx(minSpace / dim * delta, incrs);
  do {
    let foundIncr = incrs[incrIdx];
    let foundSpace = dim * foundIncr / delta;
    if (foundSpace >= minSpace && intDigits + (foundIncr < 5 ? fixedDec.get(foundIncr) : 0) <= 17)
      return [foundIncr, foundSpace];
  } while (++incrIdx < incrs.length);
  return [0, 0];
}
function pxRatioFont(font2) {
  let fontSize, fontSizeCss;
  font2 = font2.replace(/(\d+)px/, (m, p1) => (fontSize = round2((fontSizeCss = +p1) * pxRatio)) + "px");
  return [font2, fontSize, fontSizeCss];
}
function syncFontSize(axis3) {
  if (axis3.show) {
    [axis3.font, axis3.labelFont].forEach((f) => {
      let size2 = roundDec(f[2] * pxRatio, 1);
      f[0] = f[0].replace(/[0-9.]+px/, size2 + "px");
      f[1] = size2;
    });
  }
}
function uPlot(opts, data, then) {
  const self = {
    mode: ifNull(opts.mode, 1)
  };
  const mode = self.mode;
  function getHPos(val, scale2, dim, off4) {
    let pct = scale2.valToPct(val);
    return off4 + dim * (scale2.dir == -1 ? 1 - pct : pct);
  }
  function getVPos(val, scale2, dim, off4) {
    let pct = scale2.valToPct(val);
    return off4 + dim * (scale2.dir == -1 ? pct : 1 - pct);
  }
  function getPos(val, scale2, dim, off4) {
    return scale2.ori == 0 ? getHPos(val, scale2, dim, off4) : getVPos(val, scale2, dim, off4);
  }
  self.valToPosH = getHPos;
  self.valToPosV = getVPos;
  let ready = false;
  self.status = 0;
  const root = self.root = placeDiv(UPLOT);
  if (opts.id != null)
    root.id = opts.id;
  addClass(root, opts.class);
  if (opts.title) {
    let title = placeDiv(TITLE, root);
    title.textContent = opts.title;
  }
  const can = placeTag("canvas");
  const ctx2 = self.ctx = can.getContext("2d");
  const wrap2 = placeDiv(WRAP, root);
  on3("click", wrap2, (e) => {
    if (e.target === over5) {
      let didDrag = mouseLeft1 != mouseLeft0 || mouseTop1 != mouseTop0;
      didDrag && drag.click(self, e);
    }
  }, true);
  const under6 = self.under = placeDiv(UNDER, wrap2);
  wrap2.appendChild(can);
  const over5 = self.over = placeDiv(OVER, wrap2);
  opts = copy(opts);
  const pxAlign = +ifNull(opts.pxAlign, 1);
  const pxRound = pxRoundGen(pxAlign);
  (opts.plugins || []).forEach((p) => {
    if (p.opts)
      opts = p.opts(self, opts) || opts;
  });
  const ms = opts.ms || 1e-3;
  const series = self.series = mode == 1 ? setDefaults(opts.series || [], xSeriesOpts, ySeriesOpts, false) : setDefaults2(opts.series || [null], xySeriesOpts);
  const axes2 = self.axes = setDefaults(opts.axes || [], xAxisOpts, yAxisOpts, true);
  const scales = self.scales = {};
  const bands = self.bands = opts.bands || [];
  bands.forEach((b) => {
    b.fill = fnOrSelf(b.fill || null);
    b.dir = ifNull(b.dir, -1);
  });
  const xScaleKey = mode == 2 ? series[1].facets[0].scale : series[0].scale;
  const drawOrderMap = {
    axes: drawAxesGrid,
    series: drawSeries
  };
  const drawOrder = (opts.drawOrder || ["axes", "series"]).map((key2) => drawOrderMap[key2]);
  function initValToPct(sc) {
    const getVal = sc.distr == 3 ? (val) => log10(val > 0 ? val : sc.clamp(self, val, sc.min, sc.max, sc.key)) : sc.distr == 4 ? (val) => asinh(val, sc.asinh) : sc.distr == 100 ? (val) => sc.fwd(val) : (val) => val;
    return (val) => {
      let _val = getVal(val);
      let { _min, _max } = sc;
      let delta = _max - _min;
      return (_val - _min) / delta;
    };
  }
  function initScale(scaleKey) {
    let sc = scales[scaleKey];
    if (sc == null) {
      let scaleOpts = (opts.scales || EMPTY_OBJ)[scaleKey] || EMPTY_OBJ;
      if (scaleOpts.from != null) {
        initScale(scaleOpts.from);
        let sc2 = assign({}, scales[scaleOpts.from], scaleOpts, { key: scaleKey });
        sc2.valToPct = initValToPct(sc2);
        scales[scaleKey] = sc2;
      } else {
        sc = scales[scaleKey] = assign({}, scaleKey == xScaleKey ? xScaleOpts : yScaleOpts, scaleOpts);
        sc.key = scaleKey;
        let isTime = sc.time;
        let rn = sc.range;
        let rangeIsArr = isArr(rn);
        if (scaleKey != xScaleKey || mode == 2 && !isTime) {
          if (rangeIsArr && (rn[0] == null || rn[1] == null)) {
            rn = {
              min: rn[0] == null ? autoRangePart : {
                mode: 1,
                hard: rn[0],
                soft: rn[0]
              },
              max: rn[1] == null ? autoRangePart : {
                mode: 1,
                hard: rn[1],
                soft: rn[1]
              }
            };
            rangeIsArr = false;
          }
          if (!rangeIsArr && isObj(rn)) {
            let cfg = rn;
            rn = (self2, dataMin, dataMax) => dataMin == null ? nullNullTuple : rangeNum(dataMin, dataMax, cfg);
          }
        }
        sc.range = fnOrSelf(rn || (isTime ? snapTimeX : scaleKey == xScaleKey ? sc.distr == 3 ? snapLogX : sc.distr == 4 ? snapAsinhX : snapNumX : sc.distr == 3 ? snapLogY : sc.distr == 4 ? snapAsinhY : snapNumY));
        sc.auto = fnOrSelf(rangeIsArr ? false : sc.auto);
        sc.clamp = fnOrSelf(sc.clamp || clampScale);
        sc._min = sc._max = null;
        sc.valToPct = initValToPct(sc);
      }
    }
  }
  initScale("x");
  initScale("y");
  if (mode == 1) {
    series.forEach((s) => {
      initScale(s.scale);
    });
  }
  axes2.forEach((a) => {
    initScale(a.scale);
  });
  for (let k in opts.scales)
    initScale(k);
  const scaleX = scales[xScaleKey];
  const xScaleDistr = scaleX.distr;
  let valToPosX, valToPosY;
  if (scaleX.ori == 0) {
    addClass(root, ORI_HZ);
    valToPosX = getHPos;
    valToPosY = getVPos;
  } else {
    addClass(root, ORI_VT);
    valToPosX = getVPos;
    valToPosY = getHPos;
  }
  const pendScales = {};
  for (let k in scales) {
    let sc = scales[k];
    if (sc.min != null || sc.max != null) {
      pendScales[k] = { min: sc.min, max: sc.max };
      sc.min = sc.max = null;
    }
  }
  const _tzDate = opts.tzDate || ((ts) => new Date(round2(ts / ms)));
  const _fmtDate = opts.fmtDate || fmtDate;
  const _timeAxisSplits = ms == 1 ? timeAxisSplitsMs(_tzDate) : timeAxisSplitsS(_tzDate);
  const _timeAxisVals = timeAxisVals(_tzDate, timeAxisStamps(ms == 1 ? _timeAxisStampsMs : _timeAxisStampsS, _fmtDate));
  const _timeSeriesVal = timeSeriesVal(_tzDate, timeSeriesStamp(_timeSeriesStamp, _fmtDate));
  const activeIdxs = [];
  const legend = self.legend = assign({}, legendOpts, opts.legend);
  const cursor = self.cursor = assign({}, cursorOpts, { drag: { y: mode == 2 } }, opts.cursor);
  const showLegend = legend.show;
  const showCursor = cursor.show;
  const markers = legend.markers;
  {
    legend.idxs = activeIdxs;
    markers.width = fnOrSelf(markers.width);
    markers.dash = fnOrSelf(markers.dash);
    markers.stroke = fnOrSelf(markers.stroke);
    markers.fill = fnOrSelf(markers.fill);
  }
  let legendTable;
  let legendHead;
  let legendBody;
  let legendRows = [];
  let legendCells = [];
  let legendCols;
  let multiValLegend = false;
  let NULL_LEGEND_VALUES = {};
  if (legend.live) {
    const getMultiVals = series[1] ? series[1].values : null;
    multiValLegend = getMultiVals != null;
    legendCols = multiValLegend ? getMultiVals(self, 1, 0) : { _: 0 };
    for (let k in legendCols)
      NULL_LEGEND_VALUES[k] = LEGEND_DISP;
  }
  if (showLegend) {
    legendTable = placeTag("table", LEGEND, root);
    legendBody = placeTag("tbody", null, legendTable);
    legend.mount(self, legendTable);
    if (multiValLegend) {
      legendHead = placeTag("thead", null, legendTable, legendBody);
      let head3 = placeTag("tr", null, legendHead);
      placeTag("th", null, head3);
      for (var key in legendCols)
        placeTag("th", LEGEND_LABEL, head3).textContent = key;
    } else {
      addClass(legendTable, LEGEND_INLINE);
      legend.live && addClass(legendTable, LEGEND_LIVE);
    }
  }
  const son = { show: true };
  const soff = { show: false };
  function initLegendRow(s, i) {
    if (i == 0 && (multiValLegend || !legend.live || mode == 2))
      return nullNullTuple;
    let cells = [];
    let row3 = placeTag("tr", LEGEND_SERIES, legendBody, legendBody.childNodes[i]);
    addClass(row3, s.class);
    if (!s.show)
      addClass(row3, OFF);
    let label = placeTag("th", null, row3);
    if (markers.show) {
      let indic = placeDiv(LEGEND_MARKER, label);
      if (i > 0) {
        let width2 = markers.width(self, i);
        if (width2)
          indic.style.border = width2 + "px " + markers.dash(self, i) + " " + markers.stroke(self, i);
        indic.style.background = markers.fill(self, i);
      }
    }
    let text = placeDiv(LEGEND_LABEL, label);
    if (s.label instanceof HTMLElement)
      text.appendChild(s.label);
    else
      text.textContent = s.label;
    if (i > 0) {
      if (!markers.show)
        text.style.color = s.width > 0 ? markers.stroke(self, i) : markers.fill(self, i);
      onMouse("click", label, (e) => {
        if (cursor._lock)
          return;
        setCursorEvent(e);
        let seriesIdx = series.indexOf(s);
        if ((e.ctrlKey || e.metaKey) != legend.isolate) {
          let isolate = series.some((s2, i2) => i2 > 0 && i2 != seriesIdx && s2.show);
          series.forEach((s2, i2) => {
            i2 > 0 && setSeries(i2, isolate ? i2 == seriesIdx ? son : soff : son, true, syncOpts.setSeries);
          });
        } else
          setSeries(seriesIdx, { show: !s.show }, true, syncOpts.setSeries);
      }, false);
      if (cursorFocus) {
        onMouse(mouseenter, label, (e) => {
          if (cursor._lock)
            return;
          setCursorEvent(e);
          setSeries(series.indexOf(s), FOCUS_TRUE, true, syncOpts.setSeries);
        }, false);
      }
    }
    for (var key2 in legendCols) {
      let v = placeTag("td", LEGEND_VALUE, row3);
      v.textContent = "--";
      cells.push(v);
    }
    return [row3, cells];
  }
  const mouseListeners = /* @__PURE__ */ new Map();
  function onMouse(ev, targ, fn, onlyTarg = true) {
    const targListeners = mouseListeners.get(targ) || {};
    const listener = cursor.bind[ev](self, targ, fn, onlyTarg);
    if (listener) {
      on3(ev, targ, targListeners[ev] = listener);
      mouseListeners.set(targ, targListeners);
    }
  }
  function offMouse(ev, targ, fn) {
    const targListeners = mouseListeners.get(targ) || {};
    for (let k in targListeners) {
      if (ev == null || k == ev) {
        off(k, targ, targListeners[k]);
        delete targListeners[k];
      }
    }
    if (ev == null)
      mouseListeners.delete(targ);
  }
  let fullWidCss = 0;
  let fullHgtCss = 0;
  let plotWidCss = 0;
  let plotHgtCss = 0;
  let plotLftCss = 0;
  let plotTopCss = 0;
  let _plotLftCss = plotLftCss;
  let _plotTopCss = plotTopCss;
  let _plotWidCss = plotWidCss;
  let _plotHgtCss = plotHgtCss;
  let plotLft = 0;
  let plotTop = 0;
  let plotWid = 0;
  let plotHgt = 0;
  self.bbox = {};
  let shouldSetScales = false;
  let shouldSetSize = false;
  let shouldConvergeSize = false;
  let shouldSetCursor = false;
  let shouldSetSelect = false;
  let shouldSetLegend = false;
  function _setSize(width2, height, force) {
    if (force || (width2 != self.width || height != self.height))
      calcSize(width2, height);
    resetYSeries(false);
    shouldConvergeSize = true;
    shouldSetSize = true;
    commit();
  }
  function calcSize(width2, height) {
    self.width = fullWidCss = plotWidCss = width2;
    self.height = fullHgtCss = plotHgtCss = height;
    plotLftCss = plotTopCss = 0;
    calcPlotRect();
    calcAxesRects();
    let bb = self.bbox;
    plotLft = bb.left = incrRound(plotLftCss * pxRatio, 0.5);
    plotTop = bb.top = incrRound(plotTopCss * pxRatio, 0.5);
    plotWid = bb.width = incrRound(plotWidCss * pxRatio, 0.5);
    plotHgt = bb.height = incrRound(plotHgtCss * pxRatio, 0.5);
  }
  const CYCLE_LIMIT = 3;
  function convergeSize() {
    let converged = false;
    let cycleNum = 0;
    while (!converged) {
      cycleNum++;
      let axesConverged = axesCalc(cycleNum);
      let paddingConverged = paddingCalc(cycleNum);
      converged = cycleNum == CYCLE_LIMIT || axesConverged && paddingConverged;
      if (!converged) {
        calcSize(self.width, self.height);
        shouldSetSize = true;
      }
    }
  }
  function setSize({ width: width2, height }) {
    _setSize(width2, height);
  }
  self.setSize = setSize;
  function calcPlotRect() {
    let hasTopAxis = false;
    let hasBtmAxis = false;
    let hasRgtAxis = false;
    let hasLftAxis = false;
    axes2.forEach((axis3, i) => {
      if (axis3.show && axis3._show) {
        let { side: side2, _size } = axis3;
        let isVt = side2 % 2;
        let labelSize = axis3.label != null ? axis3.labelSize : 0;
        let fullSize = _size + labelSize;
        if (fullSize > 0) {
          if (isVt) {
            plotWidCss -= fullSize;
            if (side2 == 3) {
              plotLftCss += fullSize;
              hasLftAxis = true;
            } else
              hasRgtAxis = true;
          } else {
            plotHgtCss -= fullSize;
            if (side2 == 0) {
              plotTopCss += fullSize;
              hasTopAxis = true;
            } else
              hasBtmAxis = true;
          }
        }
      }
    });
    sidesWithAxes[0] = hasTopAxis;
    sidesWithAxes[1] = hasRgtAxis;
    sidesWithAxes[2] = hasBtmAxis;
    sidesWithAxes[3] = hasLftAxis;
    plotWidCss -= _padding[1] + _padding[3];
    plotLftCss += _padding[3];
    plotHgtCss -= _padding[2] + _padding[0];
    plotTopCss += _padding[0];
  }
  function calcAxesRects() {
    let off1 = plotLftCss + plotWidCss;
    let off22 = plotTopCss + plotHgtCss;
    let off32 = plotLftCss;
    let off0 = plotTopCss;
    function incrOffset(side2, size2) {
      switch (side2) {
        case 1:
          off1 += size2;
          return off1 - size2;
        case 2:
          off22 += size2;
          return off22 - size2;
        case 3:
          off32 -= size2;
          return off32 + size2;
        case 0:
          off0 -= size2;
          return off0 + size2;
      }
    }
    axes2.forEach((axis3, i) => {
      if (axis3.show && axis3._show) {
        let side2 = axis3.side;
        axis3._pos = incrOffset(side2, axis3._size);
        if (axis3.label != null)
          axis3._lpos = incrOffset(side2, axis3.labelSize);
      }
    });
  }
  if (cursor.dataIdx == null) {
    let hov = cursor.hover;
    let skip = hov.skip = new Set(hov.skip ?? []);
    skip.add(void 0);
    let prox = hov.prox = fnOrSelf(hov.prox);
    let bias = hov.bias ??= 0;
    cursor.dataIdx = (self2, seriesIdx, cursorIdx, valAtPosX) => {
      if (seriesIdx == 0)
        return cursorIdx;
      let idx2 = cursorIdx;
      let _prox = prox(self2, seriesIdx, cursorIdx, valAtPosX) ?? inf;
      let withProx = _prox >= 0 && _prox < inf;
      let xDim = scaleX.ori == 0 ? plotWidCss : plotHgtCss;
      let cursorLft = cursor.left;
      let xValues = data[0];
      let yValues = data[seriesIdx];
      if (skip.has(yValues[cursorIdx])) {
        idx2 = null;
        let nonNullLft = null, nonNullRgt = null, j;
        if (bias == 0 || bias == -1) {
          j = cursorIdx;
          while (nonNullLft == null && j-- > 0) {
            if (!skip.has(yValues[j]))
              nonNullLft = j;
          }
        }
        if (bias == 0 || bias == 1) {
          j = cursorIdx;
          while (nonNullRgt == null && j++ < yValues.length) {
            if (!skip.has(yValues[j]))
              nonNullRgt = j;
          }
        }
        if (nonNullLft != null || nonNullRgt != null) {
          if (withProx) {
            let lftPos = nonNullLft == null ? -Infinity : valToPosX(xValues[nonNullLft], scaleX, xDim, 0);
            let rgtPos = nonNullRgt == null ? Infinity : valToPosX(xValues[nonNullRgt], scaleX, xDim, 0);
            let lftDelta = cursorLft - lftPos;
            let rgtDelta = rgtPos - cursorLft;
            if (lftDelta <= rgtDelta) {
              if (lftDelta <= _prox)
                idx2 = nonNullLft;
            } else {
              if (rgtDelta <= _prox)
                idx2 = nonNullRgt;
            }
          } else {
            idx2 = nonNullRgt == null ? nonNullLft : nonNullLft == null ? nonNullRgt : cursorIdx - nonNullLft <= nonNullRgt - cursorIdx ? nonNullLft : nonNullRgt;
          }
        }
      } else if (withProx) {
        let dist = abs(cursorLft - valToPosX(xValues[cursorIdx], scaleX, xDim, 0));
        if (dist > _prox)
          idx2 = null;
      }
      return idx2;
    };
  }
  const setCursorEvent = (e) => {
    cursor.event = e;
  };
  cursor.idxs = activeIdxs;
  cursor._lock = false;
  let points2 = cursor.points;
  points2.show = fnOrSelf(points2.show);
  points2.size = fnOrSelf(points2.size);
  points2.stroke = fnOrSelf(points2.stroke);
  points2.width = fnOrSelf(points2.width);
  points2.fill = fnOrSelf(points2.fill);
  const focus = self.focus = assign({}, opts.focus || { alpha: 0.3 }, cursor.focus);
  const cursorFocus = focus.prox >= 0;
  const cursorOnePt = cursorFocus && points2.one;
  let cursorPts = [];
  let cursorPtsLft = [];
  let cursorPtsTop = [];
  function initCursorPt(s, si) {
    let pt = points2.show(self, si);
    if (pt instanceof HTMLElement) {
      addClass(pt, CURSOR_PT);
      addClass(pt, s.class);
      elTrans(pt, -10, -10, plotWidCss, plotHgtCss);
      over5.insertBefore(pt, cursorPts[si]);
      return pt;
    }
  }
  function initSeries(s, i) {
    if (mode == 1 || i > 0) {
      let isTime = mode == 1 && scales[s.scale].time;
      let sv = s.value;
      s.value = isTime ? isStr(sv) ? timeSeriesVal(_tzDate, timeSeriesStamp(sv, _fmtDate)) : sv || _timeSeriesVal : sv || numSeriesVal;
      s.label = s.label || (isTime ? timeSeriesLabel : numSeriesLabel);
    }
    if (cursorOnePt || i > 0) {
      s.width = s.width == null ? 1 : s.width;
      s.paths = s.paths || linearPath || retNull;
      s.fillTo = fnOrSelf(s.fillTo || seriesFillTo);
      s.pxAlign = +ifNull(s.pxAlign, pxAlign);
      s.pxRound = pxRoundGen(s.pxAlign);
      s.stroke = fnOrSelf(s.stroke || null);
      s.fill = fnOrSelf(s.fill || null);
      s._stroke = s._fill = s._paths = s._focus = null;
      let _ptDia = ptDia(max(1, s.width), 1);
      let points3 = s.points = assign({}, {
        size: _ptDia,
        width: max(1, _ptDia * 0.2),
        stroke: s.stroke,
        space: _ptDia * 2,
        paths: pointsPath,
        _stroke: null,
        _fill: null
      }, s.points);
      points3.show = fnOrSelf(points3.show);
      points3.filter = fnOrSelf(points3.filter);
      points3.fill = fnOrSelf(points3.fill);
      points3.stroke = fnOrSelf(points3.stroke);
      points3.paths = fnOrSelf(points3.paths);
      points3.pxAlign = s.pxAlign;
    }
    if (showLegend) {
      let rowCells = initLegendRow(s, i);
      legendRows.splice(i, 0, rowCells[0]);
      legendCells.splice(i, 0, rowCells[1]);
      legend.values.push(null);
    }
    if (showCursor) {
      activeIdxs.splice(i, 0, null);
      let pt = null;
      if (cursorOnePt) {
        if (i == 0)
          pt = initCursorPt(s, i);
      } else if (i > 0)
        pt = initCursorPt(s, i);
      cursorPts.splice(i, 0, pt);
      cursorPtsLft.splice(i, 0, 0);
      cursorPtsTop.splice(i, 0, 0);
    }
    fire("addSeries", i);
  }
  function addSeries(opts2, si) {
    si = si == null ? series.length : si;
    opts2 = mode == 1 ? setDefault(opts2, si, xSeriesOpts, ySeriesOpts) : setDefault(opts2, si, {}, xySeriesOpts);
    series.splice(si, 0, opts2);
    initSeries(series[si], si);
  }
  self.addSeries = addSeries;
  function delSeries(i) {
    series.splice(i, 1);
    if (showLegend) {
      legend.values.splice(i, 1);
      legendCells.splice(i, 1);
      let tr = legendRows.splice(i, 1)[0];
      offMouse(null, tr.firstChild);
      tr.remove();
    }
    if (showCursor) {
      activeIdxs.splice(i, 1);
      cursorPts.splice(i, 1)[0].remove();
      cursorPtsLft.splice(i, 1);
      cursorPtsTop.splice(i, 1);
    }
    fire("delSeries", i);
  }
  self.delSeries = delSeries;
  const sidesWithAxes = [false, false, false, false];
  function initAxis(axis3, i) {
    axis3._show = axis3.show;
    if (axis3.show) {
      let isVt = axis3.side % 2;
      let sc = scales[axis3.scale];
      if (sc == null) {
        axis3.scale = isVt ? series[1].scale : xScaleKey;
        sc = scales[axis3.scale];
      }
      let isTime = sc.time;
      axis3.size = fnOrSelf(axis3.size);
      axis3.space = fnOrSelf(axis3.space);
      axis3.rotate = fnOrSelf(axis3.rotate);
      if (isArr(axis3.incrs)) {
        axis3.incrs.forEach((incr) => {
          !fixedDec.has(incr) && fixedDec.set(incr, guessDec(incr));
        });
      }
      axis3.incrs = fnOrSelf(axis3.incrs || (sc.distr == 2 ? wholeIncrs : isTime ? ms == 1 ? timeIncrsMs : timeIncrsS : numIncrs));
      axis3.splits = fnOrSelf(axis3.splits || (isTime && sc.distr == 1 ? _timeAxisSplits : sc.distr == 3 ? logAxisSplits : sc.distr == 4 ? asinhAxisSplits : numAxisSplits));
      axis3.stroke = fnOrSelf(axis3.stroke);
      axis3.grid.stroke = fnOrSelf(axis3.grid.stroke);
      axis3.ticks.stroke = fnOrSelf(axis3.ticks.stroke);
      axis3.border.stroke = fnOrSelf(axis3.border.stroke);
      let av = axis3.values;
      axis3.values = // static array of tick values
      isArr(av) && !isArr(av[0]) ? fnOrSelf(av) : (
        // temporal
        isTime ? (
          // config array of fmtDate string tpls
          isArr(av) ? timeAxisVals(_tzDate, timeAxisStamps(av, _fmtDate)) : (
            // fmtDate string tpl
            isStr(av) ? timeAxisVal(_tzDate, av) : av || _timeAxisVals
          )
        ) : av || numAxisVals
      );
      axis3.filter = fnOrSelf(axis3.filter || (sc.distr >= 3 && sc.log == 10 ? log10AxisValsFilt : sc.distr == 3 && sc.log == 2 ? log2AxisValsFilt : retArg1));
      axis3.font = pxRatioFont(axis3.font);
      axis3.labelFont = pxRatioFont(axis3.labelFont);
      axis3._size = axis3.size(self, null, i, 0);
      axis3._space = axis3._rotate = axis3._incrs = axis3._found = // foundIncrSpace
      axis3._splits = axis3._values = null;
      if (axis3._size > 0) {
        sidesWithAxes[i] = true;
        axis3._el = placeDiv(AXIS, wrap2);
      }
    }
  }
  function autoPadSide(self2, side2, sidesWithAxes2, cycleNum) {
    let [hasTopAxis, hasRgtAxis, hasBtmAxis, hasLftAxis] = sidesWithAxes2;
    let ori = side2 % 2;
    let size2 = 0;
    if (ori == 0 && (hasLftAxis || hasRgtAxis))
      size2 = side2 == 0 && !hasTopAxis || side2 == 2 && !hasBtmAxis ? round2(xAxisOpts.size / 3) : 0;
    if (ori == 1 && (hasTopAxis || hasBtmAxis))
      size2 = side2 == 1 && !hasRgtAxis || side2 == 3 && !hasLftAxis ? round2(yAxisOpts.size / 2) : 0;
    return size2;
  }
  const padding = self.padding = (opts.padding || [autoPadSide, autoPadSide, autoPadSide, autoPadSide]).map((p) => fnOrSelf(ifNull(p, autoPadSide)));
  const _padding = self._padding = padding.map((p, i) => p(self, i, sidesWithAxes, 0));
  let dataLen;
  let i0 = null;
  let i1 = null;
  const idxs = mode == 1 ? series[0].idxs : null;
  let data0 = null;
  let viaAutoScaleX = false;
  function setData(_data, _resetScales) {
    data = _data == null ? [] : _data;
    self.data = self._data = data;
    if (mode == 2) {
      dataLen = 0;
      for (let i = 1; i < series.length; i++)
        dataLen += data[i][0].length;
    } else {
      if (data.length == 0)
        self.data = self._data = data = [[]];
      data0 = data[0];
      dataLen = data0.length;
      let scaleData = data;
      if (xScaleDistr == 2) {
        scaleData = data.slice();
        let _data0 = scaleData[0] = Array(dataLen);
        for (let i = 0; i < dataLen; i++)
          _data0[i] = i;
      }
      self._data = data = scaleData;
    }
    resetYSeries(true);
    fire("setData");
    if (xScaleDistr == 2) {
      shouldConvergeSize = true;
    }
    if (_resetScales !== false) {
      let xsc = scaleX;
      if (xsc.auto(self, viaAutoScaleX))
        autoScaleX();
      else
        _setScale(xScaleKey, xsc.min, xsc.max);
      shouldSetCursor = shouldSetCursor || cursor.left >= 0;
      shouldSetLegend = true;
      commit();
    }
  }
  self.setData = setData;
  function autoScaleX() {
    viaAutoScaleX = true;
    let _min, _max;
    if (mode == 1) {
      if (dataLen > 0) {
        i0 = idxs[0] = 0;
        i1 = idxs[1] = dataLen - 1;
        _min = data[0][i0];
        _max = data[0][i1];
        if (xScaleDistr == 2) {
          _min = i0;
          _max = i1;
        } else if (_min == _max) {
          if (xScaleDistr == 3)
            [_min, _max] = rangeLog(_min, _min, scaleX.log, false);
          else if (xScaleDistr == 4)
            [_min, _max] = rangeAsinh(_min, _min, scaleX.log, false);
          else if (scaleX.time)
            _max = _min + round2(86400 / ms);
          else
            [_min, _max] = rangeNum(_min, _max, rangePad, true);
        }
      } else {
        i0 = idxs[0] = _min = null;
        i1 = idxs[1] = _max = null;
      }
    }
    _setScale(xScaleKey, _min, _max);
  }
  let ctxStroke, ctxFill, ctxWidth, ctxDash, ctxJoin, ctxCap, ctxFont, ctxAlign, ctxBaseline;
  let ctxAlpha;
  function setCtxStyle(stroke, width2, dash, cap, fill3, join2) {
    stroke ??= transparent;
    dash ??= EMPTY_ARR;
    cap ??= "butt";
    fill3 ??= transparent;
    join2 ??= "round";
    if (stroke != ctxStroke)
      ctx2.strokeStyle = ctxStroke = stroke;
    if (fill3 != ctxFill)
      ctx2.fillStyle = ctxFill = fill3;
    if (width2 != ctxWidth)
      ctx2.lineWidth = ctxWidth = width2;
    if (join2 != ctxJoin)
      ctx2.lineJoin = ctxJoin = join2;
    if (cap != ctxCap)
      ctx2.lineCap = ctxCap = cap;
    if (dash != ctxDash)
      ctx2.setLineDash(ctxDash = dash);
  }
  function setFontStyle(font2, fill3, align, baseline) {
    if (fill3 != ctxFill)
      ctx2.fillStyle = ctxFill = fill3;
    if (font2 != ctxFont)
      ctx2.font = ctxFont = font2;
    if (align != ctxAlign)
      ctx2.textAlign = ctxAlign = align;
    if (baseline != ctxBaseline)
      ctx2.textBaseline = ctxBaseline = baseline;
  }
  function accScale(wsc, psc, facet2, data2, sorted = 0) {
    if (data2.length > 0 && wsc.auto(self, viaAutoScaleX) && (psc == null || psc.min == null)) {
      let _i0 = ifNull(i0, 0);
      let _i1 = ifNull(i1, data2.length - 1);
      let minMax = facet2.min == null ? getMinMax(data2, _i0, _i1, sorted, wsc.distr == 3) : [facet2.min, facet2.max];
      wsc.min = min(wsc.min, facet2.min = minMax[0]);
      wsc.max = max(wsc.max, facet2.max = minMax[1]);
    }
  }
  const AUTOSCALE = { min: null, max: null };
  function setScales() {
    for (let k in scales) {
      let sc = scales[k];
      if (pendScales[k] == null && // scales that have never been set (on init)
      (sc.min == null || // or auto scales when the x scale was explicitly set
      pendScales[xScaleKey] != null && sc.auto(self, viaAutoScaleX))) {
        pendScales[k] = AUTOSCALE;
      }
    }
    for (let k in scales) {
      let sc = scales[k];
      if (pendScales[k] == null && sc.from != null && pendScales[sc.from] != null)
        pendScales[k] = AUTOSCALE;
    }
    if (pendScales[xScaleKey] != null)
      resetYSeries(true);
    let wipScales = {};
    for (let k in pendScales) {
      let psc = pendScales[k];
      if (psc != null) {
        let wsc = wipScales[k] = copy(scales[k], fastIsObj);
        if (psc.min != null)
          assign(wsc, psc);
        else if (k != xScaleKey || mode == 2) {
          if (dataLen == 0 && wsc.from == null) {
            let minMax = wsc.range(self, null, null, k);
            wsc.min = minMax[0];
            wsc.max = minMax[1];
          } else {
            wsc.min = inf;
            wsc.max = -inf;
          }
        }
      }
    }
    if (dataLen > 0) {
      series.forEach((s, i) => {
        if (mode == 1) {
          let k = s.scale;
          let psc = pendScales[k];
          if (psc == null)
            return;
          let wsc = wipScales[k];
          if (i == 0) {
            let minMax = wsc.range(self, wsc.min, wsc.max, k);
            wsc.min = minMax[0];
            wsc.max = minMax[1];
            i0 = closestIdx(wsc.min, data[0]);
            i1 = closestIdx(wsc.max, data[0]);
            if (i1 - i0 > 1) {
              if (data[0][i0] < wsc.min)
                i0++;
              if (data[0][i1] > wsc.max)
                i1--;
            }
            s.min = data0[i0];
            s.max = data0[i1];
          } else if (s.show && s.auto)
            accScale(wsc, psc, s, data[i], s.sorted);
          s.idxs[0] = i0;
          s.idxs[1] = i1;
        } else {
          if (i > 0) {
            if (s.show && s.auto) {
              let [xFacet, yFacet] = s.facets;
              let xScaleKey2 = xFacet.scale;
              let yScaleKey = yFacet.scale;
              let [xData, yData] = data[i];
              let wscx = wipScales[xScaleKey2];
              let wscy = wipScales[yScaleKey];
              wscx != null && accScale(wscx, pendScales[xScaleKey2], xFacet, xData, xFacet.sorted);
              wscy != null && accScale(wscy, pendScales[yScaleKey], yFacet, yData, yFacet.sorted);
              s.min = yFacet.min;
              s.max = yFacet.max;
            }
          }
        }
      });
      for (let k in wipScales) {
        let wsc = wipScales[k];
        let psc = pendScales[k];
        if (wsc.from == null && (psc == null || psc.min == null)) {
          let minMax = wsc.range(
            self,
            wsc.min == inf ? null : wsc.min,
            wsc.max == -inf ? null : wsc.max,
            k
          );
          wsc.min = minMax[0];
          wsc.max = minMax[1];
        }
      }
    }
    for (let k in wipScales) {
      let wsc = wipScales[k];
      if (wsc.from != null) {
        let base = wipScales[wsc.from];
        if (base.min == null)
          wsc.min = wsc.max = null;
        else {
          let minMax = wsc.range(self, base.min, base.max, k);
          wsc.min = minMax[0];
          wsc.max = minMax[1];
        }
      }
    }
    let changed2 = {};
    let anyChanged = false;
    for (let k in wipScales) {
      let wsc = wipScales[k];
      let sc = scales[k];
      if (sc.min != wsc.min || sc.max != wsc.max) {
        sc.min = wsc.min;
        sc.max = wsc.max;
        let distr = sc.distr;
        sc._min = distr == 3 ? log10(sc.min) : distr == 4 ? asinh(sc.min, sc.asinh) : distr == 100 ? sc.fwd(sc.min) : sc.min;
        sc._max = distr == 3 ? log10(sc.max) : distr == 4 ? asinh(sc.max, sc.asinh) : distr == 100 ? sc.fwd(sc.max) : sc.max;
        changed2[k] = anyChanged = true;
      }
    }
    if (anyChanged) {
      series.forEach((s, i) => {
        if (mode == 2) {
          if (i > 0 && changed2.y)
            s._paths = null;
        } else {
          if (changed2[s.scale])
            s._paths = null;
        }
      });
      for (let k in changed2) {
        shouldConvergeSize = true;
        fire("setScale", k);
      }
      if (showCursor && cursor.left >= 0)
        shouldSetCursor = shouldSetLegend = true;
    }
    for (let k in pendScales)
      pendScales[k] = null;
  }
  function getOuterIdxs(ydata) {
    let _i0 = clamp(i0 - 1, 0, dataLen - 1);
    let _i1 = clamp(i1 + 1, 0, dataLen - 1);
    while (ydata[_i0] == null && _i0 > 0)
      _i0--;
    while (ydata[_i1] == null && _i1 < dataLen - 1)
      _i1++;
    return [_i0, _i1];
  }
  function drawSeries() {
    if (dataLen > 0) {
      let shouldAlpha = series.some((s) => s._focus) && ctxAlpha != focus.alpha;
      if (shouldAlpha)
        ctx2.globalAlpha = ctxAlpha = focus.alpha;
      series.forEach((s, i) => {
        if (i > 0 && s.show) {
          cacheStrokeFill(i, false);
          cacheStrokeFill(i, true);
          if (s._paths == null) {
            let _ctxAlpha = ctxAlpha;
            if (ctxAlpha != s.alpha)
              ctx2.globalAlpha = ctxAlpha = s.alpha;
            let _idxs = mode == 2 ? [0, data[i][0].length - 1] : getOuterIdxs(data[i]);
            s._paths = s.paths(self, i, _idxs[0], _idxs[1]);
            if (ctxAlpha != _ctxAlpha)
              ctx2.globalAlpha = ctxAlpha = _ctxAlpha;
          }
        }
      });
      series.forEach((s, i) => {
        if (i > 0 && s.show) {
          let _ctxAlpha = ctxAlpha;
          if (ctxAlpha != s.alpha)
            ctx2.globalAlpha = ctxAlpha = s.alpha;
          s._paths != null && drawPath(i, false);
          {
            let _gaps = s._paths != null ? s._paths.gaps : null;
            let show17 = s.points.show(self, i, i0, i1, _gaps);
            let idxs2 = s.points.filter(self, i, show17, _gaps);
            if (show17 || idxs2) {
              s.points._paths = s.points.paths(self, i, i0, i1, idxs2);
              drawPath(i, true);
            }
          }
          if (ctxAlpha != _ctxAlpha)
            ctx2.globalAlpha = ctxAlpha = _ctxAlpha;
          fire("drawSeries", i);
        }
      });
      if (shouldAlpha)
        ctx2.globalAlpha = ctxAlpha = 1;
    }
  }
  function cacheStrokeFill(si, _points) {
    let s = _points ? series[si].points : series[si];
    s._stroke = s.stroke(self, si);
    s._fill = s.fill(self, si);
  }
  function drawPath(si, _points) {
    let s = _points ? series[si].points : series[si];
    let {
      stroke,
      fill: fill3,
      clip: gapsClip,
      flags,
      _stroke: strokeStyle = s._stroke,
      _fill: fillStyle = s._fill,
      _width: width2 = s.width
    } = s._paths;
    width2 = roundDec(width2 * pxRatio, 3);
    let boundsClip = null;
    let offset = width2 % 2 / 2;
    if (_points && fillStyle == null)
      fillStyle = width2 > 0 ? "#fff" : strokeStyle;
    let _pxAlign = s.pxAlign == 1 && offset > 0;
    _pxAlign && ctx2.translate(offset, offset);
    if (!_points) {
      let lft = plotLft - width2 / 2, top = plotTop - width2 / 2, wid = plotWid + width2, hgt = plotHgt + width2;
      boundsClip = new Path2D();
      boundsClip.rect(lft, top, wid, hgt);
    }
    if (_points)
      strokeFill(strokeStyle, width2, s.dash, s.cap, fillStyle, stroke, fill3, flags, gapsClip);
    else
      fillStroke(si, strokeStyle, width2, s.dash, s.cap, fillStyle, stroke, fill3, flags, boundsClip, gapsClip);
    _pxAlign && ctx2.translate(-offset, -offset);
  }
  function fillStroke(si, strokeStyle, lineWidth, lineDash, lineCap, fillStyle, strokePath, fillPath, flags, boundsClip, gapsClip) {
    let didStrokeFill = false;
    flags != 0 && bands.forEach((b, bi) => {
      if (b.series[0] == si) {
        let lowerEdge = series[b.series[1]];
        let lowerData = data[b.series[1]];
        let bandClip = (lowerEdge._paths || EMPTY_OBJ).band;
        if (isArr(bandClip))
          bandClip = b.dir == 1 ? bandClip[0] : bandClip[1];
        let gapsClip2;
        let _fillStyle = null;
        if (lowerEdge.show && bandClip && hasData(lowerData, i0, i1)) {
          _fillStyle = b.fill(self, bi) || fillStyle;
          gapsClip2 = lowerEdge._paths.clip;
        } else
          bandClip = null;
        strokeFill(strokeStyle, lineWidth, lineDash, lineCap, _fillStyle, strokePath, fillPath, flags, boundsClip, gapsClip, gapsClip2, bandClip);
        didStrokeFill = true;
      }
    });
    if (!didStrokeFill)
      strokeFill(strokeStyle, lineWidth, lineDash, lineCap, fillStyle, strokePath, fillPath, flags, boundsClip, gapsClip);
  }
  const CLIP_FILL_STROKE = BAND_CLIP_FILL | BAND_CLIP_STROKE;
  function strokeFill(strokeStyle, lineWidth, lineDash, lineCap, fillStyle, strokePath, fillPath, flags, boundsClip, gapsClip, gapsClip2, bandClip) {
    setCtxStyle(strokeStyle, lineWidth, lineDash, lineCap, fillStyle);
    if (boundsClip || gapsClip || bandClip) {
      ctx2.save();
      boundsClip && ctx2.clip(boundsClip);
      gapsClip && ctx2.clip(gapsClip);
    }
    if (bandClip) {
      if ((flags & CLIP_FILL_STROKE) == CLIP_FILL_STROKE) {
        ctx2.clip(bandClip);
        gapsClip2 && ctx2.clip(gapsClip2);
        doFill(fillStyle, fillPath);
        doStroke(strokeStyle, strokePath, lineWidth);
      } else if (flags & BAND_CLIP_STROKE) {
        doFill(fillStyle, fillPath);
        ctx2.clip(bandClip);
        doStroke(strokeStyle, strokePath, lineWidth);
      } else if (flags & BAND_CLIP_FILL) {
        ctx2.save();
        ctx2.clip(bandClip);
        gapsClip2 && ctx2.clip(gapsClip2);
        doFill(fillStyle, fillPath);
        ctx2.restore();
        doStroke(strokeStyle, strokePath, lineWidth);
      }
    } else {
      doFill(fillStyle, fillPath);
      doStroke(strokeStyle, strokePath, lineWidth);
    }
    if (boundsClip || gapsClip || bandClip)
      ctx2.restore();
  }
  function doStroke(strokeStyle, strokePath, lineWidth) {
    if (lineWidth > 0) {
      if (strokePath instanceof Map) {
        strokePath.forEach((strokePath2, strokeStyle2) => {
          ctx2.strokeStyle = ctxStroke = strokeStyle2;
          ctx2.stroke(strokePath2);
        });
      } else
        strokePath != null && strokeStyle && ctx2.stroke(strokePath);
    }
  }
  function doFill(fillStyle, fillPath) {
    if (fillPath instanceof Map) {
      fillPath.forEach((fillPath2, fillStyle2) => {
        ctx2.fillStyle = ctxFill = fillStyle2;
        ctx2.fill(fillPath2);
      });
    } else
      fillPath != null && fillStyle && ctx2.fill(fillPath);
  }
  function getIncrSpace(axisIdx, min2, max2, fullDim) {
    let axis3 = axes2[axisIdx];
    let incrSpace;
    if (fullDim <= 0)
      incrSpace = [0, 0];
    else {
      let minSpace = axis3._space = axis3.space(self, axisIdx, min2, max2, fullDim);
      let incrs = axis3._incrs = axis3.incrs(self, axisIdx, min2, max2, fullDim, minSpace);
      incrSpace = findIncr(min2, max2, incrs, fullDim, minSpace);
    }
    return axis3._found = incrSpace;
  }
  function drawOrthoLines(offs, filts, ori, side2, pos0, len, width2, stroke, dash, cap) {
    let offset = width2 % 2 / 2;
    pxAlign == 1 && ctx2.translate(offset, offset);
    setCtxStyle(stroke, width2, dash, cap, stroke);
    ctx2.beginPath();
    let x0, y0, x1, y1, pos1 = pos0 + (side2 == 0 || side2 == 3 ? -len : len);
    if (ori == 0) {
      y0 = pos0;
      y1 = pos1;
    } else {
      x0 = pos0;
      x1 = pos1;
    }
    for (let i = 0; i < offs.length; i++) {
      if (filts[i] != null) {
        if (ori == 0)
          x0 = x1 = offs[i];
        else
          y0 = y1 = offs[i];
        ctx2.moveTo(x0, y0);
        ctx2.lineTo(x1, y1);
      }
    }
    ctx2.stroke();
    pxAlign == 1 && ctx2.translate(-offset, -offset);
  }
  function axesCalc(cycleNum) {
    let converged = true;
    axes2.forEach((axis3, i) => {
      if (!axis3.show)
        return;
      let scale2 = scales[axis3.scale];
      if (scale2.min == null) {
        if (axis3._show) {
          converged = false;
          axis3._show = false;
          resetYSeries(false);
        }
        return;
      } else {
        if (!axis3._show) {
          converged = false;
          axis3._show = true;
          resetYSeries(false);
        }
      }
      let side2 = axis3.side;
      let ori = side2 % 2;
      let { min: min2, max: max2 } = scale2;
      let [_incr, _space] = getIncrSpace(i, min2, max2, ori == 0 ? plotWidCss : plotHgtCss);
      if (_space == 0)
        return;
      let forceMin = scale2.distr == 2;
      let _splits = axis3._splits = axis3.splits(self, i, min2, max2, _incr, _space, forceMin);
      let splits = scale2.distr == 2 ? _splits.map((i2) => data0[i2]) : _splits;
      let incr = scale2.distr == 2 ? data0[_splits[1]] - data0[_splits[0]] : _incr;
      let values = axis3._values = axis3.values(self, axis3.filter(self, splits, i, _space, incr), i, _space, incr);
      axis3._rotate = side2 == 2 ? axis3.rotate(self, values, i, _space) : 0;
      let oldSize = axis3._size;
      axis3._size = ceil(axis3.size(self, values, i, cycleNum));
      if (oldSize != null && axis3._size != oldSize)
        converged = false;
    });
    return converged;
  }
  function paddingCalc(cycleNum) {
    let converged = true;
    padding.forEach((p, i) => {
      let _p = p(self, i, sidesWithAxes, cycleNum);
      if (_p != _padding[i])
        converged = false;
      _padding[i] = _p;
    });
    return converged;
  }
  function drawAxesGrid() {
    for (let i = 0; i < axes2.length; i++) {
      let axis3 = axes2[i];
      if (!axis3.show || !axis3._show)
        continue;
      let side2 = axis3.side;
      let ori = side2 % 2;
      let x, y;
      let fillStyle = axis3.stroke(self, i);
      let shiftDir = side2 == 0 || side2 == 3 ? -1 : 1;
      let [_incr, _space] = axis3._found;
      if (axis3.label != null) {
        let shiftAmt2 = axis3.labelGap * shiftDir;
        let baseLpos = round2((axis3._lpos + shiftAmt2) * pxRatio);
        setFontStyle(axis3.labelFont[0], fillStyle, "center", side2 == 2 ? TOP : BOTTOM);
        ctx2.save();
        if (ori == 1) {
          x = y = 0;
          ctx2.translate(
            baseLpos,
            round2(plotTop + plotHgt / 2)
          );
          ctx2.rotate((side2 == 3 ? -PI : PI) / 2);
        } else {
          x = round2(plotLft + plotWid / 2);
          y = baseLpos;
        }
        let _label = isFn(axis3.label) ? axis3.label(self, i, _incr, _space) : axis3.label;
        ctx2.fillText(_label, x, y);
        ctx2.restore();
      }
      if (_space == 0)
        continue;
      let scale2 = scales[axis3.scale];
      let plotDim = ori == 0 ? plotWid : plotHgt;
      let plotOff = ori == 0 ? plotLft : plotTop;
      let _splits = axis3._splits;
      let splits = scale2.distr == 2 ? _splits.map((i2) => data0[i2]) : _splits;
      let incr = scale2.distr == 2 ? data0[_splits[1]] - data0[_splits[0]] : _incr;
      let ticks3 = axis3.ticks;
      let border2 = axis3.border;
      let _tickSize = ticks3.show ? ticks3.size : 0;
      let tickSize = round2(_tickSize * pxRatio);
      let axisGap = round2((axis3.alignTo == 2 ? axis3._size - _tickSize - axis3.gap : axis3.gap) * pxRatio);
      let angle = axis3._rotate * -PI / 180;
      let basePos = pxRound(axis3._pos * pxRatio);
      let shiftAmt = (tickSize + axisGap) * shiftDir;
      let finalPos = basePos + shiftAmt;
      y = ori == 0 ? finalPos : 0;
      x = ori == 1 ? finalPos : 0;
      let font2 = axis3.font[0];
      let textAlign = axis3.align == 1 ? LEFT : axis3.align == 2 ? RIGHT : angle > 0 ? LEFT : angle < 0 ? RIGHT : ori == 0 ? "center" : side2 == 3 ? RIGHT : LEFT;
      let textBaseline = angle || ori == 1 ? "middle" : side2 == 2 ? TOP : BOTTOM;
      setFontStyle(font2, fillStyle, textAlign, textBaseline);
      let lineHeight = axis3.font[1] * axis3.lineGap;
      let canOffs = _splits.map((val) => pxRound(getPos(val, scale2, plotDim, plotOff)));
      let _values = axis3._values;
      for (let i2 = 0; i2 < _values.length; i2++) {
        let val = _values[i2];
        if (val != null) {
          if (ori == 0)
            x = canOffs[i2];
          else
            y = canOffs[i2];
          val = "" + val;
          let _parts = val.indexOf("\n") == -1 ? [val] : val.split(/\n/gm);
          for (let j = 0; j < _parts.length; j++) {
            let text = _parts[j];
            if (angle) {
              ctx2.save();
              ctx2.translate(x, y + j * lineHeight);
              ctx2.rotate(angle);
              ctx2.fillText(text, 0, 0);
              ctx2.restore();
            } else
              ctx2.fillText(text, x, y + j * lineHeight);
          }
        }
      }
      if (ticks3.show) {
        drawOrthoLines(
          canOffs,
          ticks3.filter(self, splits, i, _space, incr),
          ori,
          side2,
          basePos,
          tickSize,
          roundDec(ticks3.width * pxRatio, 3),
          ticks3.stroke(self, i),
          ticks3.dash,
          ticks3.cap
        );
      }
      let grid2 = axis3.grid;
      if (grid2.show) {
        drawOrthoLines(
          canOffs,
          grid2.filter(self, splits, i, _space, incr),
          ori,
          ori == 0 ? 2 : 1,
          ori == 0 ? plotTop : plotLft,
          ori == 0 ? plotHgt : plotWid,
          roundDec(grid2.width * pxRatio, 3),
          grid2.stroke(self, i),
          grid2.dash,
          grid2.cap
        );
      }
      if (border2.show) {
        drawOrthoLines(
          [basePos],
          [1],
          ori == 0 ? 1 : 0,
          ori == 0 ? 1 : 2,
          ori == 1 ? plotTop : plotLft,
          ori == 1 ? plotHgt : plotWid,
          roundDec(border2.width * pxRatio, 3),
          border2.stroke(self, i),
          border2.dash,
          border2.cap
        );
      }
    }
    fire("drawAxes");
  }
  function resetYSeries(minMax) {
    series.forEach((s, i) => {
      if (i > 0) {
        s._paths = null;
        if (minMax) {
          if (mode == 1) {
            s.min = null;
            s.max = null;
          } else {
            s.facets.forEach((f) => {
              f.min = null;
              f.max = null;
            });
          }
        }
      }
    });
  }
  let queuedCommit = false;
  let deferHooks = false;
  let hooksQueue = [];
  function flushHooks() {
    deferHooks = false;
    for (let i = 0; i < hooksQueue.length; i++)
      fire(...hooksQueue[i]);
    hooksQueue.length = 0;
  }
  function commit() {
    if (!queuedCommit) {
      microTask(_commit);
      queuedCommit = true;
    }
  }
  function batch(fn, _deferHooks = false) {
    queuedCommit = true;
    deferHooks = _deferHooks;
    fn(self);
    _commit();
    if (_deferHooks && hooksQueue.length > 0)
      queueMicrotask(flushHooks);
  }
  self.batch = batch;
  function _commit() {
    if (shouldSetScales) {
      setScales();
      shouldSetScales = false;
    }
    if (shouldConvergeSize) {
      convergeSize();
      shouldConvergeSize = false;
    }
    if (shouldSetSize) {
      setStylePx(under6, LEFT, plotLftCss);
      setStylePx(under6, TOP, plotTopCss);
      setStylePx(under6, WIDTH, plotWidCss);
      setStylePx(under6, HEIGHT, plotHgtCss);
      setStylePx(over5, LEFT, plotLftCss);
      setStylePx(over5, TOP, plotTopCss);
      setStylePx(over5, WIDTH, plotWidCss);
      setStylePx(over5, HEIGHT, plotHgtCss);
      setStylePx(wrap2, WIDTH, fullWidCss);
      setStylePx(wrap2, HEIGHT, fullHgtCss);
      can.width = round2(fullWidCss * pxRatio);
      can.height = round2(fullHgtCss * pxRatio);
      axes2.forEach(({ _el, _show, _size, _pos, side: side2 }) => {
        if (_el != null) {
          if (_show) {
            let posOffset = side2 === 3 || side2 === 0 ? _size : 0;
            let isVt = side2 % 2 == 1;
            setStylePx(_el, isVt ? "left" : "top", _pos - posOffset);
            setStylePx(_el, isVt ? "width" : "height", _size);
            setStylePx(_el, isVt ? "top" : "left", isVt ? plotTopCss : plotLftCss);
            setStylePx(_el, isVt ? "height" : "width", isVt ? plotHgtCss : plotWidCss);
            remClass(_el, OFF);
          } else
            addClass(_el, OFF);
        }
      });
      ctxStroke = ctxFill = ctxWidth = ctxJoin = ctxCap = ctxFont = ctxAlign = ctxBaseline = ctxDash = null;
      ctxAlpha = 1;
      syncRect(true);
      if (plotLftCss != _plotLftCss || plotTopCss != _plotTopCss || plotWidCss != _plotWidCss || plotHgtCss != _plotHgtCss) {
        resetYSeries(false);
        let pctWid = plotWidCss / _plotWidCss;
        let pctHgt = plotHgtCss / _plotHgtCss;
        if (showCursor && !shouldSetCursor && cursor.left >= 0) {
          cursor.left *= pctWid;
          cursor.top *= pctHgt;
          vCursor && elTrans(vCursor, round2(cursor.left), 0, plotWidCss, plotHgtCss);
          hCursor && elTrans(hCursor, 0, round2(cursor.top), plotWidCss, plotHgtCss);
          for (let i = 0; i < cursorPts.length; i++) {
            let pt = cursorPts[i];
            if (pt != null) {
              cursorPtsLft[i] *= pctWid;
              cursorPtsTop[i] *= pctHgt;
              elTrans(pt, ceil(cursorPtsLft[i]), ceil(cursorPtsTop[i]), plotWidCss, plotHgtCss);
            }
          }
        }
        if (select.show && !shouldSetSelect && select.left >= 0 && select.width > 0) {
          select.left *= pctWid;
          select.width *= pctWid;
          select.top *= pctHgt;
          select.height *= pctHgt;
          for (let prop in _hideProps)
            setStylePx(selectDiv, prop, select[prop]);
        }
        _plotLftCss = plotLftCss;
        _plotTopCss = plotTopCss;
        _plotWidCss = plotWidCss;
        _plotHgtCss = plotHgtCss;
      }
      fire("setSize");
      shouldSetSize = false;
    }
    if (fullWidCss > 0 && fullHgtCss > 0) {
      ctx2.clearRect(0, 0, can.width, can.height);
      fire("drawClear");
      drawOrder.forEach((fn) => fn());
      fire("draw");
    }
    if (select.show && shouldSetSelect) {
      setSelect(select);
      shouldSetSelect = false;
    }
    if (showCursor && shouldSetCursor) {
      updateCursor(null, true, false);
      shouldSetCursor = false;
    }
    if (legend.show && legend.live && shouldSetLegend) {
      setLegend();
      shouldSetLegend = false;
    }
    if (!ready) {
      ready = true;
      self.status = 1;
      fire("ready");
    }
    viaAutoScaleX = false;
    queuedCommit = false;
  }
  self.redraw = (rebuildPaths, recalcAxes) => {
    shouldConvergeSize = recalcAxes || false;
    if (rebuildPaths !== false)
      _setScale(xScaleKey, scaleX.min, scaleX.max);
    else
      commit();
  };
  function setScale(key2, opts2) {
    let sc = scales[key2];
    if (sc.from == null) {
      if (dataLen == 0) {
        let minMax = sc.range(self, opts2.min, opts2.max, key2);
        opts2.min = minMax[0];
        opts2.max = minMax[1];
      }
      if (opts2.min > opts2.max) {
        let _min = opts2.min;
        opts2.min = opts2.max;
        opts2.max = _min;
      }
      if (dataLen > 1 && opts2.min != null && opts2.max != null && opts2.max - opts2.min < 1e-16)
        return;
      if (key2 == xScaleKey) {
        if (sc.distr == 2 && dataLen > 0) {
          opts2.min = closestIdx(opts2.min, data[0]);
          opts2.max = closestIdx(opts2.max, data[0]);
          if (opts2.min == opts2.max)
            opts2.max++;
        }
      }
      pendScales[key2] = opts2;
      shouldSetScales = true;
      commit();
    }
  }
  self.setScale = setScale;
  let xCursor;
  let yCursor;
  let vCursor;
  let hCursor;
  let rawMouseLeft0;
  let rawMouseTop0;
  let mouseLeft0;
  let mouseTop0;
  let rawMouseLeft1;
  let rawMouseTop1;
  let mouseLeft1;
  let mouseTop1;
  let dragging = false;
  const drag = cursor.drag;
  let dragX = drag.x;
  let dragY = drag.y;
  if (showCursor) {
    if (cursor.x)
      xCursor = placeDiv(CURSOR_X, over5);
    if (cursor.y)
      yCursor = placeDiv(CURSOR_Y, over5);
    if (scaleX.ori == 0) {
      vCursor = xCursor;
      hCursor = yCursor;
    } else {
      vCursor = yCursor;
      hCursor = xCursor;
    }
    mouseLeft1 = cursor.left;
    mouseTop1 = cursor.top;
  }
  const select = self.select = assign({
    show: true,
    over: true,
    left: 0,
    width: 0,
    top: 0,
    height: 0
  }, opts.select);
  const selectDiv = select.show ? placeDiv(SELECT, select.over ? over5 : under6) : null;
  function setSelect(opts2, _fire) {
    if (select.show) {
      for (let prop in opts2) {
        select[prop] = opts2[prop];
        if (prop in _hideProps)
          setStylePx(selectDiv, prop, opts2[prop]);
      }
      _fire !== false && fire("setSelect");
    }
  }
  self.setSelect = setSelect;
  function toggleDOM(i) {
    let s = series[i];
    if (s.show)
      showLegend && remClass(legendRows[i], OFF);
    else {
      showLegend && addClass(legendRows[i], OFF);
      if (showCursor) {
        let pt = cursorOnePt ? cursorPts[0] : cursorPts[i];
        pt != null && elTrans(pt, -10, -10, plotWidCss, plotHgtCss);
      }
    }
  }
  function _setScale(key2, min2, max2) {
    setScale(key2, { min: min2, max: max2 });
  }
  function setSeries(i, opts2, _fire, _pub) {
    if (opts2.focus != null)
      setFocus(i);
    if (opts2.show != null) {
      series.forEach((s, si) => {
        if (si > 0 && (i == si || i == null)) {
          s.show = opts2.show;
          toggleDOM(si);
          if (mode == 2) {
            _setScale(s.facets[0].scale, null, null);
            _setScale(s.facets[1].scale, null, null);
          } else
            _setScale(s.scale, null, null);
          commit();
        }
      });
    }
    _fire !== false && fire("setSeries", i, opts2);
    _pub && pubSync("setSeries", self, i, opts2);
  }
  self.setSeries = setSeries;
  function setBand(bi, opts2) {
    assign(bands[bi], opts2);
  }
  function addBand(opts2, bi) {
    opts2.fill = fnOrSelf(opts2.fill || null);
    opts2.dir = ifNull(opts2.dir, -1);
    bi = bi == null ? bands.length : bi;
    bands.splice(bi, 0, opts2);
  }
  function delBand(bi) {
    if (bi == null)
      bands.length = 0;
    else
      bands.splice(bi, 1);
  }
  self.addBand = addBand;
  self.setBand = setBand;
  self.delBand = delBand;
  function setAlpha(i, value) {
    series[i].alpha = value;
    if (showCursor && cursorPts[i] != null)
      cursorPts[i].style.opacity = value;
    if (showLegend && legendRows[i])
      legendRows[i].style.opacity = value;
  }
  let closestDist;
  let closestSeries;
  let focusedSeries;
  const FOCUS_TRUE = { focus: true };
  function setFocus(i) {
    if (i != focusedSeries) {
      let allFocused = i == null;
      let _setAlpha = focus.alpha != 1;
      series.forEach((s, i2) => {
        if (mode == 1 || i2 > 0) {
          let isFocused = allFocused || i2 == 0 || i2 == i;
          s._focus = allFocused ? null : isFocused;
          _setAlpha && setAlpha(i2, isFocused ? 1 : focus.alpha);
        }
      });
      focusedSeries = i;
      _setAlpha && commit();
    }
  }
  if (showLegend && cursorFocus) {
    onMouse(mouseleave, legendTable, (e) => {
      if (cursor._lock)
        return;
      setCursorEvent(e);
      if (focusedSeries != null)
        setSeries(null, FOCUS_TRUE, true, syncOpts.setSeries);
    });
  }
  function posToVal(pos, scale2, can2) {
    let sc = scales[scale2];
    if (can2)
      pos = pos / pxRatio - (sc.ori == 1 ? plotTopCss : plotLftCss);
    let dim = plotWidCss;
    if (sc.ori == 1) {
      dim = plotHgtCss;
      pos = dim - pos;
    }
    if (sc.dir == -1)
      pos = dim - pos;
    let _min = sc._min, _max = sc._max, pct = pos / dim;
    let sv = _min + (_max - _min) * pct;
    let distr = sc.distr;
    return distr == 3 ? pow(10, sv) : distr == 4 ? sinh(sv, sc.asinh) : distr == 100 ? sc.bwd(sv) : sv;
  }
  function closestIdxFromXpos(pos, can2) {
    let v = posToVal(pos, xScaleKey, can2);
    return closestIdx(v, data[0], i0, i1);
  }
  self.valToIdx = (val) => closestIdx(val, data[0]);
  self.posToIdx = closestIdxFromXpos;
  self.posToVal = posToVal;
  self.valToPos = (val, scale2, can2) => scales[scale2].ori == 0 ? getHPos(
    val,
    scales[scale2],
    can2 ? plotWid : plotWidCss,
    can2 ? plotLft : 0
  ) : getVPos(
    val,
    scales[scale2],
    can2 ? plotHgt : plotHgtCss,
    can2 ? plotTop : 0
  );
  self.setCursor = (opts2, _fire, _pub) => {
    mouseLeft1 = opts2.left;
    mouseTop1 = opts2.top;
    updateCursor(null, _fire, _pub);
  };
  function setSelH(off4, dim) {
    setStylePx(selectDiv, LEFT, select.left = off4);
    setStylePx(selectDiv, WIDTH, select.width = dim);
  }
  function setSelV(off4, dim) {
    setStylePx(selectDiv, TOP, select.top = off4);
    setStylePx(selectDiv, HEIGHT, select.height = dim);
  }
  let setSelX = scaleX.ori == 0 ? setSelH : setSelV;
  let setSelY = scaleX.ori == 1 ? setSelH : setSelV;
  function syncLegend() {
    if (showLegend && legend.live) {
      for (let i = mode == 2 ? 1 : 0; i < series.length; i++) {
        if (i == 0 && multiValLegend)
          continue;
        let vals = legend.values[i];
        let j = 0;
        for (let k in vals)
          legendCells[i][j++].firstChild.nodeValue = vals[k];
      }
    }
  }
  function setLegend(opts2, _fire) {
    if (opts2 != null) {
      if (opts2.idxs) {
        opts2.idxs.forEach((didx, sidx) => {
          activeIdxs[sidx] = didx;
        });
      } else if (!isUndef(opts2.idx))
        activeIdxs.fill(opts2.idx);
      legend.idx = activeIdxs[0];
    }
    if (showLegend && legend.live) {
      for (let sidx = 0; sidx < series.length; sidx++) {
        if (sidx > 0 || mode == 1 && !multiValLegend)
          setLegendValues(sidx, activeIdxs[sidx]);
      }
      syncLegend();
    }
    shouldSetLegend = false;
    _fire !== false && fire("setLegend");
  }
  self.setLegend = setLegend;
  function setLegendValues(sidx, idx) {
    let s = series[sidx];
    let src = sidx == 0 && xScaleDistr == 2 ? data0 : data[sidx];
    let val;
    if (multiValLegend)
      val = s.values(self, sidx, idx) ?? NULL_LEGEND_VALUES;
    else {
      val = s.value(self, idx == null ? null : src[idx], sidx, idx);
      val = val == null ? NULL_LEGEND_VALUES : { _: val };
    }
    legend.values[sidx] = val;
  }
  function updateCursor(src, _fire, _pub) {
    rawMouseLeft1 = mouseLeft1;
    rawMouseTop1 = mouseTop1;
    [mouseLeft1, mouseTop1] = cursor.move(self, mouseLeft1, mouseTop1);
    cursor.left = mouseLeft1;
    cursor.top = mouseTop1;
    if (showCursor) {
      vCursor && elTrans(vCursor, round2(mouseLeft1), 0, plotWidCss, plotHgtCss);
      hCursor && elTrans(hCursor, 0, round2(mouseTop1), plotWidCss, plotHgtCss);
    }
    let idx;
    let noDataInRange = i0 > i1;
    closestDist = inf;
    closestSeries = null;
    let xDim = scaleX.ori == 0 ? plotWidCss : plotHgtCss;
    let yDim = scaleX.ori == 1 ? plotWidCss : plotHgtCss;
    if (mouseLeft1 < 0 || dataLen == 0 || noDataInRange) {
      idx = cursor.idx = null;
      for (let i = 0; i < series.length; i++) {
        let pt = cursorPts[i];
        pt != null && elTrans(pt, -10, -10, plotWidCss, plotHgtCss);
      }
      if (cursorFocus)
        setSeries(null, FOCUS_TRUE, true, src == null && syncOpts.setSeries);
      if (legend.live) {
        activeIdxs.fill(idx);
        shouldSetLegend = true;
      }
    } else {
      let mouseXPos, valAtPosX, xPos;
      if (mode == 1) {
        mouseXPos = scaleX.ori == 0 ? mouseLeft1 : mouseTop1;
        valAtPosX = posToVal(mouseXPos, xScaleKey);
        idx = cursor.idx = closestIdx(valAtPosX, data[0], i0, i1);
        xPos = valToPosX(data[0][idx], scaleX, xDim, 0);
      }
      let _ptLft = -10;
      let _ptTop = -10;
      let _ptWid = 0;
      let _ptHgt = 0;
      let _centered = true;
      let _ptFill = "";
      let _ptStroke = "";
      for (let i = mode == 2 ? 1 : 0; i < series.length; i++) {
        let s = series[i];
        let idx1 = activeIdxs[i];
        let yVal1 = idx1 == null ? null : mode == 1 ? data[i][idx1] : data[i][1][idx1];
        let idx2 = cursor.dataIdx(self, i, idx, valAtPosX);
        let yVal2 = idx2 == null ? null : mode == 1 ? data[i][idx2] : data[i][1][idx2];
        shouldSetLegend = shouldSetLegend || yVal2 != yVal1 || idx2 != idx1;
        activeIdxs[i] = idx2;
        if (i > 0 && s.show) {
          let xPos2 = idx2 == null ? -10 : idx2 == idx ? xPos : valToPosX(mode == 1 ? data[0][idx2] : data[i][0][idx2], scaleX, xDim, 0);
          let yPos = yVal2 == null ? -10 : valToPosY(yVal2, mode == 1 ? scales[s.scale] : scales[s.facets[1].scale], yDim, 0);
          if (cursorFocus && yVal2 != null) {
            let mouseYPos = scaleX.ori == 1 ? mouseLeft1 : mouseTop1;
            let dist = abs(focus.dist(self, i, idx2, yPos, mouseYPos));
            if (dist < closestDist) {
              let bias = focus.bias;
              if (bias != 0) {
                let mouseYVal = posToVal(mouseYPos, s.scale);
                let seriesYValSign = yVal2 >= 0 ? 1 : -1;
                let mouseYValSign = mouseYVal >= 0 ? 1 : -1;
                if (mouseYValSign == seriesYValSign && (mouseYValSign == 1 ? bias == 1 ? yVal2 >= mouseYVal : yVal2 <= mouseYVal : (
                  // >= 0
                  bias == 1 ? yVal2 <= mouseYVal : yVal2 >= mouseYVal
                ))) {
                  closestDist = dist;
                  closestSeries = i;
                }
              } else {
                closestDist = dist;
                closestSeries = i;
              }
            }
          }
          if (shouldSetLegend || cursorOnePt) {
            let hPos, vPos;
            if (scaleX.ori == 0) {
              hPos = xPos2;
              vPos = yPos;
            } else {
              hPos = yPos;
              vPos = xPos2;
            }
            let ptWid, ptHgt, ptLft, ptTop, ptStroke, ptFill, centered = true, getBBox = points2.bbox;
            if (getBBox != null) {
              centered = false;
              let bbox = getBBox(self, i);
              ptLft = bbox.left;
              ptTop = bbox.top;
              ptWid = bbox.width;
              ptHgt = bbox.height;
            } else {
              ptLft = hPos;
              ptTop = vPos;
              ptWid = ptHgt = points2.size(self, i);
            }
            ptFill = points2.fill(self, i);
            ptStroke = points2.stroke(self, i);
            if (cursorOnePt) {
              if (i == closestSeries && closestDist <= focus.prox) {
                _ptLft = ptLft;
                _ptTop = ptTop;
                _ptWid = ptWid;
                _ptHgt = ptHgt;
                _centered = centered;
                _ptFill = ptFill;
                _ptStroke = ptStroke;
              }
            } else {
              let pt = cursorPts[i];
              if (pt != null) {
                cursorPtsLft[i] = ptLft;
                cursorPtsTop[i] = ptTop;
                elSize(pt, ptWid, ptHgt, centered);
                elColor(pt, ptFill, ptStroke);
                elTrans(pt, ceil(ptLft), ceil(ptTop), plotWidCss, plotHgtCss);
              }
            }
          }
        }
      }
      if (cursorOnePt) {
        let p = focus.prox;
        let focusChanged = focusedSeries == null ? closestDist <= p : closestDist > p || closestSeries != focusedSeries;
        if (shouldSetLegend || focusChanged) {
          let pt = cursorPts[0];
          if (pt != null) {
            cursorPtsLft[0] = _ptLft;
            cursorPtsTop[0] = _ptTop;
            elSize(pt, _ptWid, _ptHgt, _centered);
            elColor(pt, _ptFill, _ptStroke);
            elTrans(pt, ceil(_ptLft), ceil(_ptTop), plotWidCss, plotHgtCss);
          }
        }
      }
    }
    if (select.show && dragging) {
      if (src != null) {
        let [xKey, yKey] = syncOpts.scales;
        let [matchXKeys, matchYKeys] = syncOpts.match;
        let [xKeySrc, yKeySrc] = src.cursor.sync.scales;
        let sdrag = src.cursor.drag;
        dragX = sdrag._x;
        dragY = sdrag._y;
        if (dragX || dragY) {
          let { left: left2, top, width: width2, height } = src.select;
          let sori = src.scales[xKeySrc].ori;
          let sPosToVal = src.posToVal;
          let sOff, sDim, sc, a, b;
          let matchingX = xKey != null && matchXKeys(xKey, xKeySrc);
          let matchingY = yKey != null && matchYKeys(yKey, yKeySrc);
          if (matchingX && dragX) {
            if (sori == 0) {
              sOff = left2;
              sDim = width2;
            } else {
              sOff = top;
              sDim = height;
            }
            sc = scales[xKey];
            a = valToPosX(sPosToVal(sOff, xKeySrc), sc, xDim, 0);
            b = valToPosX(sPosToVal(sOff + sDim, xKeySrc), sc, xDim, 0);
            setSelX(min(a, b), abs(b - a));
          } else
            setSelX(0, xDim);
          if (matchingY && dragY) {
            if (sori == 1) {
              sOff = left2;
              sDim = width2;
            } else {
              sOff = top;
              sDim = height;
            }
            sc = scales[yKey];
            a = valToPosY(sPosToVal(sOff, yKeySrc), sc, yDim, 0);
            b = valToPosY(sPosToVal(sOff + sDim, yKeySrc), sc, yDim, 0);
            setSelY(min(a, b), abs(b - a));
          } else
            setSelY(0, yDim);
        } else
          hideSelect();
      } else {
        let rawDX = abs(rawMouseLeft1 - rawMouseLeft0);
        let rawDY = abs(rawMouseTop1 - rawMouseTop0);
        if (scaleX.ori == 1) {
          let _rawDX = rawDX;
          rawDX = rawDY;
          rawDY = _rawDX;
        }
        dragX = drag.x && rawDX >= drag.dist;
        dragY = drag.y && rawDY >= drag.dist;
        let uni = drag.uni;
        if (uni != null) {
          if (dragX && dragY) {
            dragX = rawDX >= uni;
            dragY = rawDY >= uni;
            if (!dragX && !dragY) {
              if (rawDY > rawDX)
                dragY = true;
              else
                dragX = true;
            }
          }
        } else if (drag.x && drag.y && (dragX || dragY))
          dragX = dragY = true;
        let p0, p1;
        if (dragX) {
          if (scaleX.ori == 0) {
            p0 = mouseLeft0;
            p1 = mouseLeft1;
          } else {
            p0 = mouseTop0;
            p1 = mouseTop1;
          }
          setSelX(min(p0, p1), abs(p1 - p0));
          if (!dragY)
            setSelY(0, yDim);
        }
        if (dragY) {
          if (scaleX.ori == 1) {
            p0 = mouseLeft0;
            p1 = mouseLeft1;
          } else {
            p0 = mouseTop0;
            p1 = mouseTop1;
          }
          setSelY(min(p0, p1), abs(p1 - p0));
          if (!dragX)
            setSelX(0, xDim);
        }
        if (!dragX && !dragY) {
          setSelX(0, 0);
          setSelY(0, 0);
        }
      }
    }
    drag._x = dragX;
    drag._y = dragY;
    if (src == null) {
      if (_pub) {
        if (syncKey != null) {
          let [xSyncKey, ySyncKey] = syncOpts.scales;
          syncOpts.values[0] = xSyncKey != null ? posToVal(scaleX.ori == 0 ? mouseLeft1 : mouseTop1, xSyncKey) : null;
          syncOpts.values[1] = ySyncKey != null ? posToVal(scaleX.ori == 1 ? mouseLeft1 : mouseTop1, ySyncKey) : null;
        }
        pubSync(mousemove, self, mouseLeft1, mouseTop1, plotWidCss, plotHgtCss, idx);
      }
      if (cursorFocus) {
        let shouldPub = _pub && syncOpts.setSeries;
        let p = focus.prox;
        if (focusedSeries == null) {
          if (closestDist <= p)
            setSeries(closestSeries, FOCUS_TRUE, true, shouldPub);
        } else {
          if (closestDist > p)
            setSeries(null, FOCUS_TRUE, true, shouldPub);
          else if (closestSeries != focusedSeries)
            setSeries(closestSeries, FOCUS_TRUE, true, shouldPub);
        }
      }
    }
    if (shouldSetLegend) {
      legend.idx = idx;
      setLegend();
    }
    _fire !== false && fire("setCursor");
  }
  let rect2 = null;
  Object.defineProperty(self, "rect", {
    get() {
      if (rect2 == null)
        syncRect(false);
      return rect2;
    }
  });
  function syncRect(defer = false) {
    if (defer)
      rect2 = null;
    else {
      rect2 = over5.getBoundingClientRect();
      fire("syncRect", rect2);
    }
  }
  function mouseMove(e, src, _l, _t, _w, _h, _i) {
    if (cursor._lock)
      return;
    if (dragging && e != null && e.movementX == 0 && e.movementY == 0)
      return;
    cacheMouse(e, src, _l, _t, _w, _h, _i, false, e != null);
    if (e != null)
      updateCursor(null, true, true);
    else
      updateCursor(src, true, false);
  }
  function cacheMouse(e, src, _l, _t, _w, _h, _i, initial, snap) {
    if (rect2 == null)
      syncRect(false);
    setCursorEvent(e);
    if (e != null) {
      _l = e.clientX - rect2.left;
      _t = e.clientY - rect2.top;
    } else {
      if (_l < 0 || _t < 0) {
        mouseLeft1 = -10;
        mouseTop1 = -10;
        return;
      }
      let [xKey, yKey] = syncOpts.scales;
      let syncOptsSrc = src.cursor.sync;
      let [xValSrc, yValSrc] = syncOptsSrc.values;
      let [xKeySrc, yKeySrc] = syncOptsSrc.scales;
      let [matchXKeys, matchYKeys] = syncOpts.match;
      let rotSrc = src.axes[0].side % 2 == 1;
      let xDim = scaleX.ori == 0 ? plotWidCss : plotHgtCss, yDim = scaleX.ori == 1 ? plotWidCss : plotHgtCss, _xDim = rotSrc ? _h : _w, _yDim = rotSrc ? _w : _h, _xPos = rotSrc ? _t : _l, _yPos = rotSrc ? _l : _t;
      if (xKeySrc != null)
        _l = matchXKeys(xKey, xKeySrc) ? getPos(xValSrc, scales[xKey], xDim, 0) : -10;
      else
        _l = xDim * (_xPos / _xDim);
      if (yKeySrc != null)
        _t = matchYKeys(yKey, yKeySrc) ? getPos(yValSrc, scales[yKey], yDim, 0) : -10;
      else
        _t = yDim * (_yPos / _yDim);
      if (scaleX.ori == 1) {
        let __l = _l;
        _l = _t;
        _t = __l;
      }
    }
    if (snap && (src == null || src.cursor.event.type == mousemove)) {
      if (_l <= 1 || _l >= plotWidCss - 1)
        _l = incrRound(_l, plotWidCss);
      if (_t <= 1 || _t >= plotHgtCss - 1)
        _t = incrRound(_t, plotHgtCss);
    }
    if (initial) {
      rawMouseLeft0 = _l;
      rawMouseTop0 = _t;
      [mouseLeft0, mouseTop0] = cursor.move(self, _l, _t);
    } else {
      mouseLeft1 = _l;
      mouseTop1 = _t;
    }
  }
  const _hideProps = {
    width: 0,
    height: 0,
    left: 0,
    top: 0
  };
  function hideSelect() {
    setSelect(_hideProps, false);
  }
  let downSelectLeft;
  let downSelectTop;
  let downSelectWidth;
  let downSelectHeight;
  function mouseDown(e, src, _l, _t, _w, _h, _i) {
    dragging = true;
    dragX = dragY = drag._x = drag._y = false;
    cacheMouse(e, src, _l, _t, _w, _h, _i, true, false);
    if (e != null) {
      onMouse(mouseup, doc, mouseUp, false);
      pubSync(mousedown, self, mouseLeft0, mouseTop0, plotWidCss, plotHgtCss, null);
    }
    let { left: left2, top, width: width2, height } = select;
    downSelectLeft = left2;
    downSelectTop = top;
    downSelectWidth = width2;
    downSelectHeight = height;
  }
  function mouseUp(e, src, _l, _t, _w, _h, _i) {
    dragging = drag._x = drag._y = false;
    cacheMouse(e, src, _l, _t, _w, _h, _i, false, true);
    let { left: left2, top, width: width2, height } = select;
    let hasSelect = width2 > 0 || height > 0;
    let chgSelect = downSelectLeft != left2 || downSelectTop != top || downSelectWidth != width2 || downSelectHeight != height;
    hasSelect && chgSelect && setSelect(select);
    if (drag.setScale && hasSelect && chgSelect) {
      let xOff = left2, xDim = width2, yOff = top, yDim = height;
      if (scaleX.ori == 1) {
        xOff = top, xDim = height, yOff = left2, yDim = width2;
      }
      if (dragX) {
        _setScale(
          xScaleKey,
          posToVal(xOff, xScaleKey),
          posToVal(xOff + xDim, xScaleKey)
        );
      }
      if (dragY) {
        for (let k in scales) {
          let sc = scales[k];
          if (k != xScaleKey && sc.from == null && sc.min != inf) {
            _setScale(
              k,
              posToVal(yOff + yDim, k),
              posToVal(yOff, k)
            );
          }
        }
      }
      hideSelect();
    } else if (cursor.lock) {
      cursor._lock = !cursor._lock;
      updateCursor(src, true, e != null);
    }
    if (e != null) {
      offMouse(mouseup, doc);
      pubSync(mouseup, self, mouseLeft1, mouseTop1, plotWidCss, plotHgtCss, null);
    }
  }
  function mouseLeave(e, src, _l, _t, _w, _h, _i) {
    if (cursor._lock)
      return;
    setCursorEvent(e);
    let _dragging = dragging;
    if (dragging) {
      let snapH = true;
      let snapV = true;
      let snapProx = 10;
      let dragH, dragV;
      if (scaleX.ori == 0) {
        dragH = dragX;
        dragV = dragY;
      } else {
        dragH = dragY;
        dragV = dragX;
      }
      if (dragH && dragV) {
        snapH = mouseLeft1 <= snapProx || mouseLeft1 >= plotWidCss - snapProx;
        snapV = mouseTop1 <= snapProx || mouseTop1 >= plotHgtCss - snapProx;
      }
      if (dragH && snapH)
        mouseLeft1 = mouseLeft1 < mouseLeft0 ? 0 : plotWidCss;
      if (dragV && snapV)
        mouseTop1 = mouseTop1 < mouseTop0 ? 0 : plotHgtCss;
      updateCursor(null, true, true);
      dragging = false;
    }
    mouseLeft1 = -10;
    mouseTop1 = -10;
    activeIdxs.fill(null);
    updateCursor(null, true, true);
    if (_dragging)
      dragging = _dragging;
  }
  function dblClick(e, src, _l, _t, _w, _h, _i) {
    if (cursor._lock)
      return;
    setCursorEvent(e);
    autoScaleX();
    hideSelect();
    if (e != null)
      pubSync(dblclick, self, mouseLeft1, mouseTop1, plotWidCss, plotHgtCss, null);
  }
  function syncPxRatio() {
    axes2.forEach(syncFontSize);
    _setSize(self.width, self.height, true);
  }
  on3(dppxchange, win, syncPxRatio);
  const events = {};
  events.mousedown = mouseDown;
  events.mousemove = mouseMove;
  events.mouseup = mouseUp;
  events.dblclick = dblClick;
  events["setSeries"] = (e, src, idx, opts2) => {
    let seriesIdxMatcher2 = syncOpts.match[2];
    idx = seriesIdxMatcher2(self, src, idx);
    idx != -1 && setSeries(idx, opts2, true, false);
  };
  if (showCursor) {
    onMouse(mousedown, over5, mouseDown);
    onMouse(mousemove, over5, mouseMove);
    onMouse(mouseenter, over5, (e) => {
      setCursorEvent(e);
      syncRect(false);
    });
    onMouse(mouseleave, over5, mouseLeave);
    onMouse(dblclick, over5, dblClick);
    cursorPlots.add(self);
    self.syncRect = syncRect;
  }
  const hooks = self.hooks = opts.hooks || {};
  function fire(evName, a1, a2) {
    if (deferHooks)
      hooksQueue.push([evName, a1, a2]);
    else {
      if (evName in hooks) {
        hooks[evName].forEach((fn) => {
          fn.call(null, self, a1, a2);
        });
      }
    }
  }
  (opts.plugins || []).forEach((p) => {
    for (let evName in p.hooks)
      hooks[evName] = (hooks[evName] || []).concat(p.hooks[evName]);
  });
  const seriesIdxMatcher = (self2, src, srcSeriesIdx) => srcSeriesIdx;
  const syncOpts = assign({
    key: null,
    setSeries: false,
    filters: {
      pub: retTrue,
      sub: retTrue
    },
    scales: [xScaleKey, series[1] ? series[1].scale : null],
    match: [retEq, retEq, seriesIdxMatcher],
    values: [null, null]
  }, cursor.sync);
  if (syncOpts.match.length == 2)
    syncOpts.match.push(seriesIdxMatcher);
  cursor.sync = syncOpts;
  const syncKey = syncOpts.key;
  const sync = _sync(syncKey);
  function pubSync(type, src, x, y, w, h, i) {
    if (syncOpts.filters.pub(type, src, x, y, w, h, i))
      sync.pub(type, src, x, y, w, h, i);
  }
  sync.sub(self);
  function pub(type, src, x, y, w, h, i) {
    if (syncOpts.filters.sub(type, src, x, y, w, h, i))
      events[type](null, src, x, y, w, h, i);
  }
  self.pub = pub;
  function destroy() {
    sync.unsub(self);
    cursorPlots.delete(self);
    mouseListeners.clear();
    off(dppxchange, win, syncPxRatio);
    root.remove();
    legendTable?.remove();
    fire("destroy");
  }
  self.destroy = destroy;
  function _init() {
    fire("init", opts, data);
    setData(data || opts.data, false);
    if (pendScales[xScaleKey])
      setScale(xScaleKey, pendScales[xScaleKey]);
    else
      autoScaleX();
    shouldSetSelect = select.show && (select.width > 0 || select.height > 0);
    shouldSetCursor = shouldSetLegend = true;
    _setSize(opts.width, opts.height);
  }
  series.forEach(initSeries);
  axes2.forEach(initAxis);
  if (then) {
    if (then instanceof HTMLElement) {
      then.appendChild(root);
      _init();
    } else
      then(self, _init);
  } else
    _init();
  return self;
}
uPlot.assign = assign;
uPlot.fmtNum = fmtNum;
uPlot.rangeNum = rangeNum;
uPlot.rangeLog = rangeLog;
uPlot.rangeAsinh = rangeAsinh;
uPlot.orient = orient;
uPlot.pxRatio = pxRatio;
{
  uPlot.join = join;
}
{
  uPlot.fmtDate = fmtDate;
  uPlot.tzDate = tzDate;
}
uPlot.sync = _sync;
{
  uPlot.addGap = addGap;
  uPlot.clipGaps = clipGaps;
  let paths = uPlot.paths = {
    points
  };
  paths.linear = linear;
  paths.stepped = stepped;
  paths.bars = bars;
  paths.spline = monotoneCubic;
}

// script/course.js
var AIR2 = 0.14;
var LEAST2 = 1;
function where(axis3, frame2, frames2) {
  if (frame2 < 0) return position(axis3, frame2 + frames2) - turned(axis3);
  if (frame2 > frames2) return position(axis3, frame2 - frames2) + turned(axis3);
  return position(axis3, frame2);
}
function course(axis3, { frames: frames2, every }) {
  const side2 = Math.max(1, Math.round(beside() / every)) * every;
  const [x, own3, others] = [[], [], []];
  const put4 = (frame2, a, b) => (x.push(frame2), own3.push(a), others.push(b));
  for (let f = -side2; f < 0; f += every) put4(f, null, where(axis3, f, frames2));
  axis3.pos.forEach((p, i) => put4(Math.min(i * every, frames2), p, i === 0 || i === axis3.pos.length - 1 ? p : null));
  for (let f = frames2 + every; f <= frames2 + side2; f += every) put4(f, null, where(axis3, f, frames2));
  return [x, own3, others];
}
function extent2(axis3) {
  let low = Infinity, high2 = -Infinity;
  const hold4 = (pos) => (low = Math.min(low, pos), high2 = Math.max(high2, pos));
  axis3.pos.forEach(hold4);
  for (const h of axis3.handles) hold4(h.pos);
  const air = Math.max((high2 - low) * AIR2, LEAST2 / 2);
  return [low - air, high2 + air];
}

// script/addkey.js
var adding = (axis3) => shot.view.adds.find((a) => a.path === `axis.${axis3.name}.keys`);
function addKey(axis3, frame2, pos) {
  const add2 = adding(axis3);
  if (!add2) return say(without(axis3), "fair");
  const { frames: frames2 } = shot.view;
  const rounds = Math.floor(frame2 / frames2);
  const at2 = frame2 - rounds * frames2;
  const edit = { do: "add", path: add2.path, frame: at2, pos: pos === void 0 ? position(axis3, at2) : pos - rounds * turned(axis3) };
  return change([edit], { label: `${axis3.name}, another key` });
}
function without(axis3) {
  if (axis3.speedLimit === void 0) return `${axis3.name} turns by itself and has no keys.`;
  return `${axis3.name} has no keys: its move is ${axis3.move}. Choose the move keys for it in Moves; then a double click puts one on its curve.`;
}
async function removeKey(e, h) {
  const remove = shot.view.removes.find((r) => r.what === "key" && r.path === h.path);
  if (!remove) return;
  e.preventDefault();
  e.stopPropagation();
  const all4 = (
    /** @type {HTMLElement[]} */
    [...document.querySelectorAll(".handle.key")]
  );
  const mine2 = all4.indexOf(
    /** @type {HTMLElement} */
    e.currentTarget
  );
  const next3 = (all4[mine2 - 1] ?? all4[mine2 + 1])?.dataset.path;
  await change([{ do: "remove", path: remove.path }], { label: `${h.label}, taken away` });
  const left2 = next3 && document.querySelector(`.handle[data-path="${CSS.escape(next3)}"]`);
  if (left2 instanceof HTMLElement) left2.focus({ preventScroll: true });
}

// script/nearest.js
var REACH = { touch: 24, pen: 18, mouse: 14 };
function nearest(list4, x, y, reach) {
  let best = null;
  let least = reach;
  for (const one of list4) {
    const away2 = Math.hypot(one.x - x, one.y - y);
    if (away2 < least || away2 === least && !best) best = one, least = away2;
  }
  return best;
}
var ARROWS = /* @__PURE__ */ new Map([["ArrowUp", [0, 1]], ["ArrowDown", [0, -1]], ["ArrowLeft", [-1, 0]], ["ArrowRight", [1, 0]]]);
function arrow(e, steps) {
  const way3 = ARROWS.get(e.key);
  if (!way3 || e.ctrlKey || e.metaKey) return null;
  return { right: way3[0], up: way3[1], by: e.shiftKey ? steps.coarse : e.altKey ? steps.fine : steps.plain };
}
var reachOf = (e) => REACH[
  /** @type {keyof typeof REACH} */
  e.pointerType ?? "touch"
] ?? REACH.mouse;

// script/gestures.js
var SLIDE = 8;
var TWICE = 400;
var NEARBY = 28;
var ON_CURVE = 16;
var WHEEL = 25e-4;
var APART = 24;
var Gestures = class {
  byTouch = false;
  /** @param {import("./curves.js").Chart} chart */
  constructor(chart) {
    this.chart = chart;
    this.u = /** @type {import("../vendor/uplot/uPlot.esm.js").default} */
    chart.u;
    this.over = this.u.over;
    this.fingers = /* @__PURE__ */ new Map();
    this.pinch = null;
    this.began = null;
    this.tapped = { time: -Infinity, x: 0, y: 0 };
    const { plot } = chart;
    plot.addEventListener("touchstart", (e) => this.claim(e), { passive: false });
    plot.addEventListener("touchmove", (e) => (this.pinch || this.handles.dragging) && e.preventDefault(), { passive: false });
    plot.addEventListener("pointerdown", (e) => this.down(e));
    plot.addEventListener("pointermove", (e) => this.move(e));
    plot.addEventListener("pointerup", (e) => this.up(e));
    plot.addEventListener("pointercancel", (e) => this.gone(e));
    plot.addEventListener("dblclick", (e) => !this.byTouch && this.twice(e));
    plot.addEventListener("wheel", (e) => this.wheel(e), { passive: false });
    this.strip(
      /** @type {HTMLElement} */
      plot.querySelector(".u-axis")
    );
  }
  get handles() {
    return (
      /** @type {import("./handles.js").Handles} */
      this.chart.handles
    );
  }
  /** @param {{ clientX: number, clientY: number }} e */
  at(e) {
    const box2 = this.over.getBoundingClientRect();
    return { x: e.clientX - box2.left, y: e.clientY - box2.top };
  }
  /** A touch that takes a handle or zooms is ours before the browser makes a swipe of it. @param {TouchEvent} e */
  claim(e) {
    if (e.touches.length > 1 || this.handles.near(this.at(e.touches[0]), reachOf({ pointerType: "touch" }))) e.preventDefault();
  }
  /** @param {PointerEvent} e */
  down(e) {
    if (e.button > 0) return;
    const at2 = this.at(e);
    this.byTouch = e.pointerType === "touch";
    if (this.byTouch) {
      this.fingers.set(e.pointerId, at2);
      if (this.fingers.size === 2) return this.beginPinch();
    }
    if (this.handles.dragging || this.pinch) return;
    this.began = { ...at2, id: e.pointerId, scrubs: false };
    const b = this.handles.near(at2, reachOf(e));
    if (!b && !this.over.contains(
      /** @type {Node} */
      e.target
    )) return void (this.began = null);
    this.over.setPointerCapture(e.pointerId);
    if (b) this.handles.grip(e, b);
    else if (!this.byTouch) this.scrub(at2);
  }
  /** @param {PointerEvent} e */
  move(e) {
    const at2 = this.at(e);
    if (this.fingers.has(e.pointerId)) this.fingers.set(e.pointerId, at2);
    if (this.pinch) return this.pull(this.pinch);
    if (this.handles.dragging) return e.pointerId === this.began?.id && this.handles.pull(e);
    const { began: began3 } = this;
    if (!began3 || began3.id !== e.pointerId) return this.handles.hover(e, at2);
    if (began3.scrubs || Math.abs(at2.x - began3.x) > SLIDE) this.scrub(at2);
  }
  /** @param {PointerEvent} e */
  up(e) {
    const { began: began3 } = this;
    const tap = began3 && began3.id === e.pointerId && !began3.scrubs && !this.pinch;
    const held7 = this.handles.dragging;
    this.gone(e);
    if (!this.byTouch || !tap || held7?.moved) return;
    const { time, x, y } = this.tapped;
    const at2 = this.at(e);
    const again2 = e.timeStamp - time < TWICE && Math.hypot(at2.x - x, at2.y - y) < NEARBY;
    this.tapped = again2 ? { time: -Infinity, x: 0, y: 0 } : { time: e.timeStamp, ...at2 };
    if (again2) this.twice(e);
    else if (!held7 && this.over.contains(
      /** @type {Node} */
      e.target
    )) this.scrub(at2);
  }
  /** @param {PointerEvent} e */
  gone(e) {
    this.fingers.delete(e.pointerId);
    if (this.fingers.size < 2) this.pinch = null;
    if (this.began?.id !== e.pointerId) return;
    this.handles.leave(e);
    this.began = null;
  }
  /** @param {Spot} at */
  scrub(at2) {
    if (!shot.view) return;
    if (this.began) this.began.scrubs = true;
    pause();
    const frame2 = this.u.posToVal(at2.x, "x");
    goTo(Math.min(Math.max(frameOf(frame2), 0), shot.view.frames - 1));
  }
  /** A key is put where it is pressed; near to the curve, on it. @param {PointerEvent | MouseEvent} e */
  twice(e) {
    const at2 = this.at(e);
    const { u, chart: { axis: axis3 } } = this;
    if (!this.over.contains(
      /** @type {Node} */
      e.target
    ) || this.handles.near(at2, reachOf(
      /** @type {PointerEvent} */
      e
    ))) return;
    const frame2 = u.posToVal(at2.x, "x");
    const away2 = Math.abs(u.valToPos(this.chart.where(frame2), "y") - at2.y);
    void addKey(axis3, frame2, away2 < ON_CURVE ? this.chart.where(frame2) : u.posToVal(at2.y, "y"));
  }
  beginPinch() {
    this.handles.abandon();
    this.began = null;
    this.pinch = [...this.fingers].map(([id2, p]) => ({ id: id2, frame: this.u.posToVal(p.x, "x") }));
  }
  /** What was under each finger stays under it. @param {{ id: number, frame: number }[]} pinch */
  pull(pinch) {
    const [a, b] = pinch.map((p) => ({ ...p, x: this.fingers.get(p.id)?.x ?? 0 }));
    if (Math.abs(b.x - a.x) < APART) return;
    const worth = Math.abs((b.frame - a.frame) / (b.x - a.x));
    const from2 = (a.frame + b.frame) / 2 - (a.x + b.x) / 2 * worth;
    showSpan(from2, from2 + this.handles.wide * worth);
  }
  /** @param {WheelEvent} e */
  wheel(e) {
    if (e.ctrlKey) {
      e.preventDefault();
      return zoomAt(this.u.posToVal(this.at(e).x, "x"), Math.exp(-e.deltaY * WHEEL));
    }
    if (seesAll() || Math.abs(e.deltaX) <= Math.abs(e.deltaY)) return;
    e.preventDefault();
    this.along(-e.deltaX);
  }
  /** Takes what is seen along with a hand, by pixels. @param {number} px */
  along(px) {
    const [from2, to] = span();
    panBy(-px * (to - from2) / this.handles.wide);
  }
  /** The strip with the frames' numbers is what the window is dragged along by. @param {HTMLElement} el */
  strip(el) {
    el.classList.add("strip-of-time");
    let x = 0;
    el.addEventListener("pointerdown", (e) => {
      if (this.handles.near(this.at(e), reachOf(e))) return;
      el.setPointerCapture(e.pointerId);
      x = e.clientX;
    });
    el.addEventListener("pointermove", (e) => {
      if (!el.hasPointerCapture(e.pointerId)) return;
      this.along(e.clientX - x);
      x = e.clientX;
    });
  }
};

// script/look.js
var known = null;
var look = () => known ??= read();
function read() {
  const style = getComputedStyle(document.documentElement);
  const of2 = (name2) => style.getPropertyValue("--" + name2).trim();
  return {
    ink: of2("soft"),
    faint: of2("line"),
    beside: of2("sunk"),
    seam: of2("seam"),
    limit: of2("bad"),
    font: "13px " + style.fontFamily,
    axes: [
      { stroke: of2("axis-1") },
      { stroke: of2("axis-2"), dash: [12, 4] },
      { stroke: of2("axis-3"), dash: [3, 4] },
      { stroke: of2("axis-4"), dash: [12, 4, 3, 4] }
    ]
  };
}

// script/ground.js
function ground(u, travel) {
  const { ctx: ctx2, bbox } = u;
  const { beside: beside4, seam: seam2, limit } = look();
  const px = devicePixelRatio || 1;
  const [a, b] = [0, shot.view.frames].map((f) => u.valToPos(f, "x", true));
  ctx2.save();
  ctx2.fillStyle = beside4;
  ctx2.fillRect(bbox.left, bbox.top, Math.max(a - bbox.left, 0), bbox.height);
  ctx2.fillRect(b, bbox.top, Math.max(bbox.left + bbox.width - b, 0), bbox.height);
  ctx2.beginPath();
  ctx2.rect(bbox.left, bbox.top, bbox.width, bbox.height);
  ctx2.clip();
  for (const x of [a, b]) stitch(ctx2, x, bbox, px, seam2);
  for (const end of travel ?? []) line(ctx2, u.valToPos(end, "y", true), bbox, px, limit);
  ctx2.restore();
}
function stitch(ctx2, x, box2, px, colour) {
  ctx2.strokeStyle = colour;
  ctx2.lineWidth = 2 * px;
  ctx2.setLineDash([]);
  ctx2.beginPath();
  for (let y = box2.top + 6 * px; y < box2.top + box2.height; y += 12 * px) {
    ctx2.moveTo(x - 5 * px, y + 2 * px);
    ctx2.lineTo(x + 5 * px, y - 2 * px);
  }
  ctx2.stroke();
}
function line(ctx2, y, box2, px, colour) {
  ctx2.strokeStyle = colour;
  ctx2.lineWidth = 3 * px;
  ctx2.setLineDash([2 * px, 4 * px]);
  ctx2.beginPath();
  ctx2.moveTo(box2.left, y);
  ctx2.lineTo(box2.left + box2.width, y);
  ctx2.stroke();
  ctx2.setLineDash([]);
}

// script/handle.js
var STEPS = { fine: 0.1, plain: 1, coarse: 10 };
function edited({ path: path2, vary }, frame2, pos) {
  return { path: path2, ...vary !== "pos" && { frame: Math.max(frame2, 0) }, ...vary !== "time" && { pos } };
}
function pressed(h, e, view) {
  const to = arrow(e, STEPS);
  if (!to || h.vary === "pos" && to.up === 0) return null;
  const along3 = h.vary === "time" ? to.right || to.up : to.right;
  const frame2 = h.frame + along3 * Math.max(to.by, STEPS.plain) / timelinePerFrame(view);
  return edited(h, frame2, h.pos + to.up * (h.step || to.by));
}
function telling(h, { frames: frames2, timelineFrames, loopScreenSeconds }) {
  const share2 = h.frame / frames2;
  const parts3 = h.vary === "time" ? [] : [`${number(h.pos, 1)} ${h.unit}`];
  return [...parts3, `${number(share2 * loopScreenSeconds, 2)} s on screen`, `frame ${Math.round(share2 * timelineFrames)}`].join(", ");
}

// script/handles.js
var LOOP_TOP = 9;
var BESIDE3 = 24;
var EDGE = 8;
var Handles = class {
  /** @param {import("./curves.js").Chart} chart @param {import("../vendor/uplot/uPlot.esm.js").default} u */
  constructor(chart, u) {
    this.chart = chart;
    this.u = u;
    this.buttons = /* @__PURE__ */ new Map();
    this.dragging = null;
    this.over = null;
  }
  /** The height of the plot, px, as the chart knows it: to ask the page would have it laid out anew for each handle. */
  get tall() {
    return this.u.bbox.height / devicePixelRatio;
  }
  get wide() {
    return this.u.bbox.width / devicePixelRatio;
  }
  list() {
    const own3 = this.chart.axis.handles;
    return this.chart.index === 0 && shot.view.loop ? [...own3, shot.view.loop] : own3;
  }
  show() {
    const list4 = this.list();
    const paths = new Set(list4.map((h) => h.path));
    for (const [path2, b] of this.buttons) if (!paths.has(path2)) b.el.remove(), this.buttons.delete(path2);
    for (const h of list4) this.put(h, list4);
  }
  /** @param {Wire.Handle} h @param {Wire.Handle[]} list */
  put(h, list4) {
    const b = this.buttons.get(h.path) ?? this.made(h);
    b.handle = h;
    const { u } = this;
    const top = h.kind === "loop" ? LOOP_TOP : u.valToPos(h.pos, "y") + this.aside(h, list4);
    const left2 = u.valToPos(h.frame, "x");
    b.beyond = left2 < -EDGE || left2 > this.wide + EDGE;
    mark(b.el, "class", `handle ${h.kind}${b.beyond ? " beyond" : ""}${this.dragging?.b === b ? " held" : ""}`);
    this.move(b, Math.min(Math.max(left2, 0), this.wide), Math.min(Math.max(top, 0), this.tall));
    this.tell(b, h);
  }
  /** @param {Point} b @param {number} x @param {number} y */
  move(b, x, y) {
    if (b.x === x && b.y === y) return;
    Object.assign(b, { x, y });
    b.el.style.left = x + "px";
    b.el.style.top = y + "px";
  }
  /** @param {Point} b @param {Wire.Handle} h */
  tell(b, h) {
    const told6 = telling(h, shot.view);
    const [now2, least, most] = h.vary === "time" ? [h.frame, 0, Math.max(shot.view.frames * 4, h.frame)] : [h.pos, h.min ?? -1e6, h.max ?? 1e6];
    for (const [name2, as] of Object.entries({ label: h.label, valuetext: told6, valuenow: now2, valuemin: least, valuemax: most })) mark(b.el, "aria-" + name2, as);
    if (this.dragging?.b === b) this.chart.tip.tell(told6);
  }
  /**
   * A rest of no length ends where the carriage arrives: its handle hangs beside that one, inwards.
   * @param {Wire.Handle} h
   * @param {Wire.Handle[]} list
   */
  aside(h, list4) {
    const { u } = this;
    const x = u.valToPos(h.frame, "x");
    const met = h.kind === "dwell" && list4.some((o) => o.kind === "end" && o.pos === h.pos && Math.abs(u.valToPos(o.frame, "x") - x) < BESIDE3);
    if (!met) return 0;
    return u.valToPos(h.pos, "y") < this.tall / 2 ? BESIDE3 : -BESIDE3;
  }
  /** @param {Wire.Handle} handle @returns {Point} */
  made(handle) {
    const el = make("div", {
      role: "slider",
      tabindex: "0",
      "data-path": handle.path,
      onkeydown: (e) => this.press(e, b.handle),
      onfocus: () => b.beyond && reveal(b.handle.frame)
    });
    const b = { el, handle, x: NaN, y: NaN, beyond: false };
    this.buttons.set(handle.path, b);
    this.u.over.append(el);
    return b;
  }
  /** The handle that a press at a place of the plot is meant for: the nearest, never a neighbour. @param {Spot} at @param {number} reach */
  near(at2, reach) {
    return nearest([...this.buttons.values()].filter((b) => !b.beyond), at2.x, at2.y, reach);
  }
  /** Names the handle under a pointer that presses nothing. @param {PointerEvent} e @param {Spot} at */
  hover(e, at2) {
    const b = this.near(at2, reachOf(e));
    const { over: over5 } = this.u;
    if (b === this.over) return;
    this.over?.el.classList.remove("near");
    this.over = b;
    b?.el.classList.add("near");
    over5.dataset.grab = b?.handle.kind ?? "";
    over5.title = b ? `${b.handle.label}: ${telling(b.handle, shot.view)}` : "";
  }
  /** @param {PointerEvent} e @param {Point} b */
  grip(e, b) {
    e.preventDefault();
    b.el.focus({ preventScroll: true });
    const { u } = this;
    const each = (key, px) => Math.abs(u.posToVal(px, key) - u.posToVal(0, key)) / px;
    const worth = { frame: each("x", this.wide), pos: each("y", this.tall) };
    this.dragging = { b, text: shot.text, moved: false, x: e.clientX, y: e.clientY, handle: b.handle, worth };
    holdSpan(true);
    b.el.classList.add("held");
    this.chart.tip.show(e, telling(b.handle, shot.view));
  }
  /** @param {PointerEvent} e @param {NonNullable<Handles["dragging"]>} was */
  edit(e, { handle, x, y, worth }) {
    return edited(handle, handle.frame + (e.clientX - x) * worth.frame, handle.pos - (e.clientY - y) * worth.pos);
  }
  /** @param {PointerEvent} e */
  pull(e) {
    const was2 = this.dragging;
    if (!was2) return;
    if (!was2.moved && e.clientX === was2.x && e.clientY === was2.y) return;
    was2.moved = true;
    this.chart.tip.show(e, telling(was2.b.handle, shot.view));
    void change([this.edit(e, was2)], { text: was2.text, before: was2.text, last: false });
  }
  /** @param {PointerEvent} e */
  leave(e) {
    const was2 = this.dragging;
    if (!was2) return;
    const edit = this.edit(e, was2);
    this.dragging = null;
    was2.b.el.classList.remove("held");
    this.chart.tip.hide();
    holdSpan(false);
    this.chart.settle();
    if (was2.moved) void change([edit], { text: was2.text, before: was2.text, label: was2.handle.label });
  }
  /** Lets go of what is dragged, which goes back to where it was. */
  abandon() {
    const was2 = this.dragging;
    if (!was2) return;
    this.dragging = null;
    was2.b.el.classList.remove("held");
    this.chart.tip.hide();
    holdSpan(false);
    if (was2.moved) void change([], { text: was2.text, before: was2.text });
  }
  /** The window follows what is dragged, once a plan says where that is. */
  follow() {
    const h = this.dragging?.b.handle;
    if (!h) return;
    if (h.vary !== "time") this.chart.reach(h.pos);
    if (h.kind !== "loop" && h.vary !== "pos") include(h.frame);
  }
  /** @param {KeyboardEvent} e @param {Wire.Handle} h */
  press(e, h) {
    if (e.key === "Delete" || e.key === "Backspace") return removeKey(e, h);
    const edit = pressed(h, e, shot.view);
    if (!edit) return;
    e.preventDefault();
    e.stopPropagation();
    void change([edit], { label: h.label });
  }
};

// script/tip.js
var GAP = { touch: 34, pen: 20, mouse: 16 };
var Tip = class {
  /** @param {HTMLElement} home what it stays within */
  constructor(home) {
    this.last = null;
    this.home = home;
    this.el = make("div.tip", { hidden: true, "aria-hidden": "true" });
    home.append(this.el);
    this.text = "";
    this.coming = 0;
  }
  /**
   * Shows a text beside a pointer.
   * @param {PointerEvent} e
   * @param {string} text
   */
  show(e, text) {
    this.last = e;
    this.text = text;
    this.coming ||= requestAnimationFrame(() => this.place());
  }
  /** Where it is, and how large, is asked once a frame, after all else was drawn: each time the page is laid out. */
  place() {
    const e = this.last;
    this.coming = 0;
    if (!e) return;
    words(this.el, this.text);
    this.el.hidden = false;
    const box2 = this.home.getBoundingClientRect();
    const gap = GAP[
      /** @type {keyof typeof GAP} */
      e.pointerType
    ] ?? GAP.mouse;
    const x = e.clientX - box2.left, y = e.clientY - box2.top;
    this.el.style.maxWidth = Math.max(box2.width - x - gap, x - gap) + "px";
    const { offsetWidth: wide2, offsetHeight: high2 } = this.el;
    const left2 = x + gap + wide2 <= box2.width ? x + gap : x - gap - wide2;
    const top = Math.min(Math.max(y - high2 / 2, 0), Math.max(box2.height - high2, 0));
    this.el.style.translate = `${Math.min(Math.max(left2, 0), Math.max(box2.width - wide2, 0))}px ${top}px`;
  }
  /** Changes the text where it is shown. @param {string} text */
  tell(text) {
    if (this.last) this.show(this.last, text);
  }
  hide() {
    this.last = null;
    this.el.hidden = true;
  }
};

// script/curves.js
var NEAR = 0.06;
var charts = [];
var drawn = () => [...shot.view.axes, ...shot.view.stands.map((s) => ({ ...s, unit: "deg", handles: [], travel: null, moveKeys: [] }))];
var Chart = class {
  at = { frame: 0 };
  /** @type {uPlot | undefined} */
  u;
  /** @type {Handles | undefined} */
  handles;
  /** @param {number} index */
  constructor(index) {
    this.index = index;
    this.name = make("span.axis-name", {});
    this.value = make("output.axis-value", {});
    this.limits = make("span.axis-limits", {});
    this.plot = make("div.plot", { tabindex: "0", role: "group", "aria-keyshortcuts": "Insert Enter + - 0" });
    this.add = button("Add a key", () => addKey(this.axis, playhead.frame), { class: "add-key", hidden: true, title: "Adds a key at the playhead; a double click on the curve adds one there" });
    this.head = make("div.playhead", {});
    this.dot = make("div.rig-dot", { hidden: true });
    this.el = make("section.curve", {}, make("header", {}, this.name, this.value, this.add, this.limits), this.plot);
    this.plot.addEventListener("keydown", (e) => this.press(e));
    this.ys = new Glide(() => this.u?.setScale("y", { min: this.ys.now[0], max: this.ys.now[1] }));
    this.tip = new Tip(this.plot);
    this.drawn = [];
    at("curves").append(this.el);
  }
  get axis() {
    return drawn()[this.index];
  }
  build() {
    const { ink, faint, font: font2 } = look();
    const grid2 = { stroke: faint, width: 1 };
    const text = { stroke: ink, font: font2, grid: grid2, ticks: grid2 };
    const line5 = look().axes[this.index % look().axes.length];
    this.u = new uPlot({
      width: Math.max(this.plot.clientWidth, 200),
      height: Math.max(this.plot.clientHeight, 90),
      legend: { show: false },
      cursor: { show: false },
      padding: [8, 8, 0, 0],
      scales: { x: { time: false, range: () => span() }, y: { range: () => this.ys.now } },
      axes: [{ ...text, size: 30, space: 60, values: (u, s) => s.map((f) => f < 0 || f > shot.view.frames ? "" : String(f)) }, { ...text, size: 54, space: 28 }],
      series: [{}, { stroke: line5.stroke, width: 2.5, dash: line5.dash, pxAlign: 0, points: { show: false } }, { stroke: faint, width: 2, dash: [3, 5], points: { show: false }, pxAlign: 0 }],
      hooks: { drawClear: [(u) => ground(u, this.axis.travel)], draw: [() => this.place()] }
    }, course(this.axis, shot.view), this.plot);
    this.u.over.append(this.head, this.dot);
    this.handles = new Handles(this, this.u);
    this.gestures = new Gestures(this);
    new ResizeObserver(() => this.fit()).observe(this.plot);
  }
  fit() {
    const { clientWidth: width2, clientHeight: height } = this.plot;
    if (this.u && width2 > 0 && height > 0 && (width2 !== this.u.width || height !== this.u.height)) this.u.setSize({ width: width2, height });
  }
  /** Draws a plan. While something is dragged the window only grows, to hold it. */
  show() {
    const { axis: axis3 } = this;
    words(this.name, axis3.name);
    words(this.limits, limitsOf(axis3));
    this.add.hidden = !adding(axis3);
    this.plot.setAttribute("aria-label", `Curve of ${axis3.name}`);
    if (!this.handles?.dragging) this.settle();
    const as = [shot.view.frames, shot.view.every, ...axis3.travel ?? [], ...axis3.pos];
    const same = as.length === this.drawn.length && as.every((x, i) => x === this.drawn[i]);
    this.drawn = as;
    if (!this.u) this.build();
    else if (same) this.place();
    else this.u.setData(course(axis3, shot.view));
  }
  /** Lets the window be what the curve asks for. */
  settle() {
    this.ys.to(extent2(this.axis));
  }
  /** Grows the window where a place comes near to its edge or beyond. @param {number} pos */
  reach(pos) {
    const [low, high2] = this.ys.goal;
    const air = (high2 - low) * NEAR;
    if (pos - air < low || pos + air > high2) this.ys.to([Math.min(low, pos - 2 * air), Math.max(high2, pos + 2 * air)]);
  }
  /** Shows another part of the round. */
  spanned() {
    const [min2, max2] = span();
    this.u?.setScale("x", { min: min2, max: max2 });
  }
  /** Where the axis is, in the round and in those beside it. @param {number} frame */
  where(frame2) {
    return where(this.axis, frame2, shot.view.frames);
  }
  /** @param {KeyboardEvent} e */
  press(e) {
    if (e.target !== this.plot || e.ctrlKey || e.metaKey || e.altKey || e.key !== "Insert" && e.key !== "Enter") return;
    e.preventDefault();
    void addKey(this.axis, playhead.frame);
  }
  place() {
    if (!this.u || !this.handles) return;
    this.handles.show();
    this.handles.follow();
    this.follow();
  }
  follow(p = this.at) {
    this.at = p;
    if (!this.u) return;
    const [from2, to] = span();
    this.head.hidden = p.frame < from2 || p.frame > to;
    this.head.style.transform = `translateX(${this.u.valToPos(p.frame, "x")}px)`;
    words(this.value, `${number(position(this.axis, p.frame), 2)} ${this.axis.unit}`);
  }
  /** Where the rig is, against the curve of the plan that it runs. @param {Wire.DriveState} rig */
  rig(rig2) {
    const i = rig2?.axes.findIndex((a) => a.name === this.axis.name) ?? -1;
    const [from2, to] = span();
    const seen3 = i >= 0 ? onCurve(rig2, shot.view.plan) : null;
    const { u } = this;
    const on4 = u && seen3 && seen3.frame >= from2 && seen3.frame <= to;
    this.dot.hidden = !on4;
    if (on4) this.dot.style.transform = `translate(${u.valToPos(seen3.frame, "x")}px, ${u.valToPos(seen3.inRound[i], "y")}px)`;
  }
  close() {
    this.u?.destroy();
    this.el.remove();
  }
};
function limitsOf(axis3) {
  if (axis3.speedLimit === void 0) return `turns by itself; comes round ${number(axis3.off, 3)} deg off, ${number(axis3.bound, 3)} allowed`;
  const ends = axis3.travel ? `travel ${number(axis3.travel[0], 0)} to ${number(axis3.travel[1], 0)} ${axis3.unit}` : "turns without end";
  return axis3.speedLimit > 0 ? `${ends}, at most ${number(axis3.speedLimit, 0)} ${axis3.unit}/s` : ends;
}
on("view", () => {
  const names3 = drawn().map((a) => a.name).join("\n");
  if (names3 !== at("curves").dataset.axes) {
    for (const c of charts) c.close();
    at("curves").dataset.axes = names3;
    charts = drawn().map((_2, i) => new Chart(i));
  }
  for (const c of charts) c.show();
});
onSpan(() => charts.forEach((c) => c.spanned()));
on("drive", () => charts.forEach((c) => shot.view && c.rig(rig)));
follow((p) => charts.forEach((c) => shot.view && c.follow(p)));

// script/grips.js
var STEPS2 = { fine: 1, plain: 10, coarse: 50 };
var GRIP = 12;
var BESIDE4 = 30;
var SIGNS = { lamp: "M-6-6L6 6M6-6L-6 6", product: "M0-7V7M-7 0H7", hole: "M-7-3V3M7-3V3", dark: "M-7 0H7" };
var sign2 = (d, aside) => d.kind === "carriage" ? aside < 0 ? "M-6-5V5M-6 0H30" : "M6-5V5M6 0H-30" : SIGNS[d.kind] ?? "";
var Grips = class {
  /** @param {SVGSVGElement} svg @param {SVGElement} home */
  constructor(svg2, home) {
    this.svg = svg2;
    this.home = home;
    this.buttons = /* @__PURE__ */ new Map();
    this.dragging = null;
    this.over = null;
    this.tip = new Tip(
      /** @type {HTMLElement} */
      svg2.parentElement
    );
    svg2.addEventListener("touchstart", (e) => this.near({ clientX: e.touches[0].clientX, clientY: e.touches[0].clientY }) && e.preventDefault(), { passive: false });
    svg2.addEventListener("pointerdown", (e) => this.take(e));
    svg2.addEventListener("pointermove", (e) => this.pull(e));
    svg2.addEventListener("pointerup", (e) => this.leave(e));
    svg2.addEventListener("pointercancel", (e) => this.leave(e));
  }
  /** Shows what can be moved, a pixel being so many mm. @param {Wire.Drag[]} drags @param {number} mm */
  show(drags, mm2) {
    for (const d of drags) this.put(d, mm2);
    for (const [p, g] of this.buttons) if (!drags.some((d) => d.path === p)) g.el.remove(), this.buttons.delete(p);
    const held7 = this.dragging && this.buttons.get(this.dragging.drag.path);
    if (held7) this.tip.tell(held7.drag.told);
  }
  /** @param {Wire.Drag} d @param {number} mm */
  put(d, mm2) {
    const g = this.buttons.get(d.path) ?? this.made(d);
    g.drag = d;
    const aside = d.kind === "carriage" ? (d.path.endsWith("[1]") ? -1 : 1) * BESIDE4 : 0;
    g.el.setAttribute("transform", `translate(${d.x} ${-d.y}) scale(${mm2})`);
    g.el.setAttribute("aria-label", `${d.label}: ${d.told}; the arrow keys move it`);
    for (const part6 of [g.target, g.mark]) part6.setAttribute("transform", `translate(${aside} 0)`);
    g.mark.setAttribute("d", sign2(d, aside));
  }
  /** @param {Wire.Drag} d @returns {Grip} */
  made(d) {
    const target = draw("circle.target", { r: GRIP }), mark3 = draw("path.sign", {});
    const el = draw("g.grip." + d.kind, { role: "button", tabindex: "0", "aria-roledescription": "movable point", "data-path": d.path }, target, mark3, draw("title", {}));
    const g = { el, target, mark: mark3, drag: d };
    el.addEventListener("keydown", (e) => this.press(e, g.drag));
    this.buttons.set(d.path, g);
    this.home.append(el);
    return g;
  }
  /** The grip that a press is meant for, the nearest within a fingertip. @param {Press} e */
  near(e) {
    const list4 = [...this.buttons.values()].map((g) => {
      const box2 = g.target.getBoundingClientRect();
      return { g, x: box2.x + box2.width / 2, y: box2.y + box2.height / 2 };
    });
    return nearest(list4, e.clientX, e.clientY, reachOf(e))?.g ?? null;
  }
  /** @param {PointerEvent} e */
  take(e) {
    if (e.button > 0 || this.dragging) return;
    const g = this.near(e);
    if (!g) return;
    e.preventDefault();
    g.el.focus({ preventScroll: true });
    this.svg.setPointerCapture(e.pointerId);
    const toDrawing = (
      /** @type {DOMMatrix} */
      this.svg.getScreenCTM().inverse()
    );
    this.dragging = { g, text: shot.text, drag: { ...g.drag }, toDrawing, id: e.pointerId, x: e.clientX, y: e.clientY, moved: false };
    g.el.classList.add("held");
    this.tip.show(e, g.drag.told);
  }
  /**
   * Where the finger has taken it, in mm of the drawing as it was when it was taken.
   * @param {PointerEvent} e
   * @param {NonNullable<Grips["dragging"]>} was
   */
  place(e, was2) {
    const { drag, toDrawing, x, y } = was2;
    const from2 = new DOMPoint(x, y).matrixTransform(toDrawing);
    const to = new DOMPoint(e.clientX, e.clientY).matrixTransform(toDrawing);
    return { path: drag.path, x: drag.x + to.x - from2.x, y: drag.y - (to.y - from2.y) };
  }
  /** @param {PointerEvent} e */
  pull(e) {
    const was2 = this.dragging;
    if (!was2) return this.hover(e);
    if (e.pointerId !== was2.id || !was2.moved && e.clientX === was2.x && e.clientY === was2.y) return;
    was2.moved = true;
    this.tip.show(e, was2.g.drag.told);
    void change([this.place(e, was2)], { text: was2.text, before: was2.text, last: false });
  }
  /** @param {PointerEvent} e */
  hover(e) {
    const g = e.pointerType === "touch" ? null : this.near(e);
    if (g === this.over) return;
    this.over?.el.classList.remove("near");
    g?.el.classList.add("near");
    this.over = g;
    this.svg.classList.toggle("grabs", Boolean(g));
  }
  /** @param {PointerEvent} e */
  leave(e) {
    const was2 = this.dragging;
    if (!was2 || e.pointerId !== was2.id) return;
    const edit = this.place(e, was2);
    this.dragging = null;
    this.tip.hide();
    was2.g.el.classList.remove("held");
    if (was2.moved) void change([edit], { text: was2.text, before: was2.text, label: was2.drag.label });
  }
  /** @param {KeyboardEvent} e @param {Wire.Drag} d */
  press(e, d) {
    const to = arrow(e, STEPS2);
    if (!to) return;
    e.preventDefault();
    e.stopPropagation();
    void change([{ path: d.path, x: d.x + to.right * to.by, y: d.y + to.up * to.by }], { label: d.label });
  }
};

// script/above.js
var svg = at("above");
var ground2 = draw("g", {});
var live = draw("g.live", {});
var grips = draw("g", {});
var stage = draw("g", {}, ground2, live, grips);
var AIR3 = 46;
var LEAST3 = 0.55;
var WIDE = /* @__PURE__ */ new Set(["beam", "field"]);
var TURNS = /* @__PURE__ */ new Set(["product", "face"]);
var mm = 1;
var wide = 1;
var high = 1;
var parts = [];
var product = null;
svg.append(stage);
var corner = ([x, y]) => `${x.toFixed(2)} ${(-y).toFixed(2)}`;
var path = (points2, closed) => "M" + points2.map(corner).join("L") + (closed ? "Z" : "");
function shape(item, kind = item.kind) {
  if (item.radius) return draw("circle." + kind, { cx: item.points[0][0], cy: -item.points[0][1], r: item.radius });
  if (item.points.length === 1) return point(item, kind);
  return draw("path." + kind, { d: path(item.points, item.closed) });
}
function point(item, kind) {
  const [x, y] = item.points[0];
  return draw("path." + kind, { d: `M${x - 5 * mm} ${-y}h${10 * mm}M${x} ${-y - 5 * mm}v${10 * mm}` });
}
function boxOf({ items, stand }) {
  const points2 = items.filter((i) => !WIDE.has(i.kind)).flatMap((i) => i.points.flatMap(([x, y]) => [[x - (i.radius ?? 0), y - (i.radius ?? 0)], [x + (i.radius ?? 0), y + (i.radius ?? 0)]]));
  const xs = points2.map((p) => p[0] - stand[0]), ys = points2.map((p) => stand[1] - p[1]);
  return { left: Math.min(...xs) - AIR3, right: Math.max(...xs) + AIR3, top: Math.min(...ys) - AIR3, foot: Math.max(...ys) + AIR3 };
}
var across = new Glide(look2);
var along = new Glide(look2);
function fit(box2) {
  if (grip.dragging) return;
  const fills = ({ set: set3, goal }, low, high2) => set3 && goal[0] <= low && goal[1] >= high2 ? (high2 - low) / (goal[1] - goal[0]) : -Infinity;
  const both = [fills(across, box2.left, box2.right), fills(along, box2.top, box2.foot)];
  if (Math.min(...both) > 0 && Math.max(...both) > LEAST3) return;
  across.to([box2.left, box2.right]);
  along.to([box2.top, box2.foot]);
}
function look2() {
  if (!across.set || !along.set) return;
  const [left2, right] = across.now, [top, foot] = along.now;
  svg.setAttribute("viewBox", [left2, top, right - left2, foot - top].join(" "));
  scale();
}
function scale() {
  if (!across.set || !along.set) return;
  const [left2, right] = across.now, [top, foot] = along.now;
  mm = Math.max((right - left2) / wide, (foot - top) / high);
  svg.style.fontSize = 13 * mm + "px";
  if (shot.view?.above) grip.show(shot.view.above.drags, mm);
}
function show3() {
  const { above } = shot.view;
  at("above-none").hidden = Boolean(above);
  svg.classList.toggle("none", !above);
  if (!above) return;
  stage.setAttribute("transform", `translate(${-above.stand[0]} ${above.stand[1]})`);
  fit(boxOf(above));
  scale();
  const still2 = above.items.filter((i) => i.end < 0 && !TURNS.has(i.kind) && i.kind !== "rail");
  const order2 = (i) => i.kind === "beam" ? 0 : 1;
  const rails = above.items.some((i) => i.kind === "rail") ? [draw("path.rail", { d: path(above.placed.way) })] : [];
  ground2.replaceChildren(
    ...rails,
    ...still2.filter((i) => i.kind !== "lamp").sort((a, b) => order2(a) - order2(b)).map((i) => shape(i)),
    ...above.items.filter((i) => i.kind === "lens" && i.end >= 0).map((i) => shape(i, "lens-end")),
    ...still2.filter((i) => i.kind === "lamp").map(named)
  );
  words(at("above-words"), described(above));
  gather(above);
  move(playhead);
}
function gather({ items, placed }) {
  parts = placed.carried.map((c) => ({ ...c, el: draw("path." + c.kind, {}) }));
  product = draw("g.turned", {}, items.filter((i) => TURNS.has(i.kind)).map((i) => shape(i)));
  live.replaceChildren(...parts.map((p) => p.el), product);
}
function named(item) {
  const [x, y] = item.points[0];
  const left2 = x > 0;
  return draw("text.name", { x: x + (left2 ? -16 : 16) * mm, y: -y - 12 * mm, "text-anchor": left2 ? "end" : "start" }, item.name ?? "");
}
var described = (above) => above.items.filter((i) => i.label || i.name).map((i) => [i.kind, i.name, i.label].filter(Boolean).join(" ")).join("; ");
function move(p) {
  const placed = shot.view?.above?.placed;
  if (!placed?.table.length) return;
  const told6 = Math.min(Math.floor(p.frame / placed.every), placed.table.length - 2);
  const from2 = told6 * placed.every;
  const share2 = (p.frame - from2) / (Math.min(from2 + placed.every, shot.view.frames) - from2);
  const between = (a, b) => a + (b - a) * share2;
  for (const { at: at2, closed, el } of parts) {
    const points2 = at2[told6].map(([x, y], k) => (
      /** @type {Place} */
      [between(x, at2[told6 + 1][k][0]), between(y, at2[told6 + 1][k][1])]
    ));
    el.setAttribute("d", points2.length > 1 ? path(points2, closed) : `M${points2[0][0] - 5 * mm} ${-points2[0][1]}h${10 * mm}`);
  }
  product?.setAttribute("transform", `rotate(${-between(placed.table[told6], placed.table[told6 + 1])})`);
  svg.dataset.frame = p.frame.toFixed(3);
}
var grip = new Grips(svg, grips);
on("view", show3);
follow(move);
function sized() {
  [wide, high] = [Math.max(svg.clientWidth, 1), Math.max(svg.clientHeight, 1)];
  scale();
}
new ResizeObserver(sized).observe(svg);
sized();

// script/older.js
var SEEN = 150;
var parts2 = /* @__PURE__ */ new Map();
var WORKING = "being worked out";
var FAULTY = "of the text before its fault";
function drawnFrom(el, { step: step2 = shot.step, text = shot.text, words: words2 = "" } = {}) {
  parts2.set(el, { step: step2, text, words: words2 });
  mark2(el);
}
function drawnFromNothing(el) {
  parts2.delete(el);
  set(el, null, false);
}
function isOlder(from2) {
  if (from2.step >= shot.asked) return false;
  return shot.pending || from2.text !== shot.text;
}
function mark2(el) {
  const from2 = parts2.get(el);
  if (!from2) return;
  const old = isOlder(from2);
  const working2 = shot.pending || shot.faults.length === 0;
  set(el, old ? from2.words || (working2 ? WORKING : FAULTY) : null, old && working2);
}
var fresh2 = /* @__PURE__ */ new Map();
function set(el, words2, busy) {
  if (words2 === null) {
    clearTimeout(fresh2.get(el));
    fresh2.delete(el);
    el.removeAttribute("data-older");
    el.removeAttribute("data-late");
  } else {
    if (!fresh2.has(el)) fresh2.set(el, setTimeout(() => el.dataset.late = "", SEEN));
    if (el.dataset.older !== words2) el.dataset.older = words2;
  }
  if (busy) el.setAttribute("aria-busy", "true");
  else el.removeAttribute("aria-busy");
}
function all2() {
  for (const el of parts2.keys()) {
    if (el.isConnected) mark2(el);
    else parts2.delete(el);
  }
}
on("view", () => {
  for (const part6 of [at("plan"), at("curves"), at("round"), at("ready")]) drawnFrom(part6);
});
for (
  const news of
  /** @type {const} */
  ["asked", "planned", "text", "faults"]
) on(news, all2);

// script/frames.js
var MOST = 48e6;
var FIRST = 150;
var AROUND = 0.6;
var Frames = class {
  /** @param {number} count captured frames of the loop @param {number} most bytes to hold */
  constructor(count3, most = MOST) {
    this.count = count3;
    this.most = most;
    this.bytes = 0;
    this.held = /* @__PURE__ */ new Map();
    this.stride = 2 ** Math.ceil(Math.log2(Math.max(count3 / FIRST, 1)));
  }
  /** @param {number} frame @param {Picture} picture */
  put(frame2, picture2) {
    const had = this.held.get(frame2);
    if (had && had.wide > picture2.wide) return;
    this.drop(frame2);
    this.held.set(frame2, picture2);
    this.bytes += picture2.data.length;
    for (const [old] of this.held) {
      if (this.bytes <= this.most || old === frame2) break;
      this.drop(old);
    }
  }
  /** @param {number} frame */
  drop(frame2) {
    this.bytes -= this.held.get(frame2)?.data.length ?? 0;
    this.held.delete(frame2);
  }
  /** The picture of a frame, which has been looked at now. @param {number} frame */
  get(frame2) {
    const p = this.held.get(frame2);
    if (p) this.held.delete(frame2), this.held.set(frame2, p);
    return p;
  }
  /** How wide the picture of a frame is, 0 for none. @param {number} frame */
  wide(frame2) {
    return this.held.get(frame2)?.wide ?? 0;
  }
  /** The frame nearest to one of which there is a picture, -1 for none. @param {number} frame */
  nearest(frame2) {
    if (this.held.size === 0) return -1;
    for (let away2 = 0; away2 <= this.count / 2; away2++) {
      for (const k of [this.round(frame2 - away2), this.round(frame2 + away2)]) if (this.held.has(k)) return k;
    }
    return -1;
  }
  /** @param {number} frame */
  round(frame2) {
    return (frame2 % this.count + this.count) % this.count;
  }
  /** How many pictures the round is drawn in first, and how many of them are there. */
  first() {
    let there = 0, of2 = 0;
    for (let k = 0; k < this.count; k += this.stride) of2++, there += this.held.has(k) ? 1 : 0;
    return { there, of: of2 };
  }
  /** How many frames may be held as large as those that are. */
  room() {
    return this.held.size ? Math.floor(this.most * this.held.size / this.bytes) : this.count;
  }
  /**
   * The next frames to ask for: those of the round drawn coarsely from the playhead on,
   * then what is between them, where not all fit only around the playhead.
   * @param {number} from @param {number} many
   */
  wanted(from2, many) {
    if (this.held.size === this.count) return [];
    const reach = this.room() < this.count ? Math.floor(this.room() * AROUND / 2) : this.count;
    for (let stride = this.stride; stride >= 1; stride /= 2) {
      const out = [];
      const start = Math.ceil(from2 / stride) * stride;
      for (let k = start, n = Math.ceil(this.count / stride); n > 0 && out.length < many; n--, k += stride) {
        if (k >= this.count) k = 0;
        if (!this.held.has(k) && (stride === this.stride || this.apart(k, from2) <= reach)) out.push(k);
      }
      if (out.length) return out;
    }
    return [];
  }
  /** Frames around the playhead that are narrower than they should be, those ahead first. @param {number} from @param {number} wide @param {number} reach @param {number} many */
  narrow(from2, wide2, reach, many) {
    const out = [];
    for (let away2 = 0; away2 < Math.min(reach, this.count) && out.length < many; away2++) {
      const k = this.round(from2 + away2);
      if (this.wide(k) < wide2) out.push(k);
    }
    return out;
  }
  /** @param {number} a @param {number} b */
  apart(a, b) {
    const d = this.round(a - b);
    return Math.min(d, this.count - d);
  }
};

// script/bitmaps.js
var MOST2 = 32e6;
var AT_ONCE = 4;
var PIXEL = 4;
var Bitmaps = class {
  /** @param {import("./frames.js").Frames} frames @param {() => void} came called when one is there @param {(blob: Blob) => Promise<ImageBitmap>} unpack */
  constructor(frames2, came3, unpack = (blob) => createImageBitmap(blob)) {
    this.frames = frames2;
    this.came = came3;
    this.unpack = unpack;
    this.held = /* @__PURE__ */ new Map();
    this.coming = /* @__PURE__ */ new Set();
    this.bytes = 0;
    this.closed = false;
  }
  /** The bitmap of a frame, if it is there; if not, it begins to be unpacked. @param {number} frame @returns {ImageBitmap | null} */
  get(frame2) {
    const packed = this.frames.get(frame2);
    const have = this.held.get(frame2);
    if (packed && packed.wide > (have?.wide ?? 0)) void this.begin(frame2, packed);
    if (!have) return null;
    this.held.delete(frame2);
    this.held.set(frame2, have);
    return have.bitmap;
  }
  /** @param {number} frame @param {import("./frames.js").Picture} packed */
  async begin(frame2, packed) {
    if (this.coming.has(frame2) || this.coming.size >= AT_ONCE) return;
    this.coming.add(frame2);
    try {
      const bitmap = await this.unpack(new Blob([
        /** @type {BlobPart} */
        packed.data
      ]));
      if (this.closed) return bitmap.close();
      this.put(frame2, packed.wide, bitmap);
    } catch {
      this.frames.drop(frame2);
    } finally {
      this.coming.delete(frame2);
    }
    if (!this.closed) this.came();
  }
  /** @param {number} frame @param {number} wide @param {ImageBitmap} bitmap */
  put(frame2, wide2, bitmap) {
    this.drop(frame2);
    this.held.set(frame2, { wide: wide2, bitmap });
    this.bytes += size(bitmap);
    for (const [old] of this.held) {
      if (this.bytes <= MOST2 || old === frame2) break;
      this.drop(old);
    }
  }
  /** @param {number} frame */
  drop(frame2) {
    const had = this.held.get(frame2);
    if (!had) return;
    this.held.delete(frame2);
    this.bytes -= size(had.bitmap);
    had.bitmap.close();
  }
  close() {
    this.closed = true;
    for (const frame2 of [...this.held.keys()]) this.drop(frame2);
  }
};
var size = (b) => b.width * b.height * PIXEL;

// script/rounds.js
var list2 = [];
var came = () => {
};
var whenUnpacked = (f) => came = f;
var seen = () => list2.find((r) => r.frames.held.size > 0 || r.failed) ?? null;
var newest = () => list2[0] ?? null;
var held2 = () => list2.reduce((sum, r) => ({ packed: sum.packed + r.frames.bytes, unpacked: sum.unpacked + r.bitmaps.bytes }), { packed: 0, unpacked: 0 });
function ofStep(step2, count3) {
  const there = list2.find((r) => r.step === step2);
  if (there) return there;
  const frames2 = new Frames(count3);
  const round3 = { step: step2, text: null, frames: frames2, bitmaps: new Bitmaps(frames2, () => came()), failed: "", began: 0, coarse: false };
  list2 = [round3, ...list2].sort((a, b) => b.step - a.step);
  return round3;
}
function passed(round3) {
  keep2((r) => r.step >= round3.step || r.text !== null);
}
function settled2(text, step2, count3) {
  const back2 = list2.find((r) => r.text === text);
  const round3 = back2 ?? ofStep(step2, count3);
  Object.assign(round3, { text, step: Math.max(step2, round3.step) });
  list2 = [round3, ...list2.filter((r) => r !== round3)];
  const instead = round3.frames.held.size ? null : seen();
  keep2((r) => r === round3 || r === instead);
  return round3;
}
function painted(round3) {
  if (round3 === list2[0] && round3.text !== null) keep2((r) => r === round3);
}
function keep2(stays) {
  for (const r of list2) if (!stays(r)) r.bitmaps.close();
  list2 = list2.filter(stays);
}

// script/pictures.js
var WIDE2 = 240;
var FINE = [640, 960, 1280, 1920];
var STILL = 150;
var RESTED = 1500;
var TURN = 100;
var FINE_TURN = 12;
var FINE_REACH = 400;
var ALONG = 12;
var MOVED = 120;
var changed = 0;
var asked = null;
var near2 = false;
var under3 = null;
var waiting2 = 0;
var came2 = (round3) => round3;
var screen = () => FINE[0];
var whenThere = (f) => came2 = f;
var seenAt = (f) => screen = f;
var again = () => under3 || soon(0);
var here = () => frameOf(playhead.frame);
var fineWidth = () => FINE.find((w) => w >= screen()) ?? FINE[FINE.length - 1];
on("asked", (job) => {
  asked = job;
  stop();
  void follows();
});
async function follows() {
  if (near2 || !asked) return;
  const job = asked;
  asked = null;
  near2 = true;
  let frames2 = [here()];
  let round3 = null;
  const begin4 = (of2) => {
    if (job.id < (newest()?.step ?? 0)) return;
    round3 = ofStep(job.id, of2);
    passed(round3);
  };
  if (playhead.playing && shot.view) frames2 = along2(frames2[0], shot.view.frames);
  try {
    await pictures("preview", { text: job.text, edits: job.edits, width: WIDE2, frames: frames2, beside: true }, (data, i) => {
      if (!round3) return;
      round3.frames.put(Math.min(frames2[i], round3.frames.count - 1), { wide: WIDE2, data });
      came2(round3);
    }, void 0, void 0, begin4);
  } catch {
  }
  near2 = false;
  void follows();
}
function along2(frame2, count3) {
  const step2 = Math.max(1, Math.floor(count3 / ALONG));
  return Array.from({ length: Math.min(ALONG, count3) }, (_2, i) => (frame2 + i * step2) % count3);
}
on("planned", () => {
  if (!shot.view || shot.faults.length || shot.text !== shot.planned) return;
  const round3 = settled2(shot.text, shot.step, shot.view.frames);
  if (!round3.began) round3.began = shot.began;
  changed = performance.now();
  came2(round3);
  soon(shot.dragged ? STILL : 0);
});
on("drive", () => rig?.open && newest()?.coarse && stop());
var stood = 0;
follow((p) => {
  const frame2 = here();
  if (frame2 === stood) return;
  stood = frame2;
  if (!under3 && newest()?.text) soon(p.playing ? 0 : MOVED);
});
function stop() {
  clearTimeout(waiting2);
  under3?.abort();
  under3 = null;
}
function soon(ms) {
  clearTimeout(waiting2);
  waiting2 = setTimeout(() => void fill2(), ms);
}
async function fill2() {
  if (under3) return;
  const own3 = under3 = new AbortController();
  const round3 = newest();
  try {
    for (let q; round3 && !own3.signal.aborted && (q = next2(round3)); ) await draw2(round3, q, own3.signal);
  } catch (err) {
    if (round3 && !givenUp(err)) fails(round3, refusal(err).message);
  }
  if (under3 === own3) under3 = null;
}
async function draw2(round3, { frames: frames2, wide: wide2 }, signal) {
  await pictures("preview", { text: round3.text ?? "", edits: [], width: wide2, frames: frames2 }, (data, i) => {
    round3.frames.put(frames2[i], { wide: wide2, data });
    came2(round3);
  }, signal);
}
function fails(round3, why) {
  round3.failed = why;
  came2(round3);
}
function next2(round3) {
  if (!round3.text || round3.failed) return null;
  const { frames: frames2 } = round3;
  const at2 = here();
  const coarse = () => {
    const list5 = frames2.wanted(at2, TURN);
    return list5.length ? { frames: list5, wide: WIDE2 } : null;
  };
  const { there, of: of2 } = frames2.first();
  if (!round3.coarse && there < of2) return coarse();
  round3.coarse = true;
  if (rig?.open || document.hidden) return null;
  const wide2 = fineWidth();
  if (!playhead.playing && frames2.wide(at2) < wide2) return { frames: [at2], wide: wide2 };
  const between = coarse();
  if (between) return between;
  const rests = RESTED - (performance.now() - changed);
  if (rests > 0) return soon(rests), null;
  const reach = Math.min(FINE_REACH, Math.floor(frames2.room() / 2));
  const list4 = frames2.narrow(at2, wide2, reach, FINE_TURN);
  return list4.length ? { frames: list4, wide: wide2 } : null;
}

// script/lens.js
var canvas = at("lens");
var part = at("seen");
var AHEAD = 4;
var PICTURE = "change to picture on screen";
var MEASURE2 = "change to whole preview";
var shown = null;
var of = null;
var measured = 0;
var whole3 = null;
var began2 = /* @__PURE__ */ new Map();
on("asked", (job) => {
  began2.set(job.id, job.began);
  for (const id2 of began2.keys()) if (id2 <= shot.step - 1) began2.delete(id2);
});
function paint(p = playhead) {
  const round3 = seen();
  if (!round3) return none("Drawing…");
  if (round3.failed) return gives(round3);
  const frame2 = frameOf(p.frame);
  const near3 = round3.frames.nearest(Math.min(frame2, round3.frames.count - 1));
  if (p.playing) {
    for (let k = 1; k <= AHEAD; k++) if (round3.frames.held.has(round3.frames.round(near3 + k))) round3.bitmaps.get(round3.frames.round(near3 + k));
  }
  const bitmap = round3.bitmaps.get(near3);
  if (!bitmap) return;
  none("");
  if (bitmap !== shown) show4(bitmap);
  canvas.dataset.shows = `${near3} ${bitmap.width}`;
  if (of !== round3) stamp(round3);
  if (near3 === frame2) measure(round3);
}
function stamp(round3) {
  of = round3;
  told3();
  painted(round3);
}
function told3() {
  if (of) drawnFrom(part, { step: of.step, text: of.text, words: "drawing" });
}
function gives(round3) {
  none(round3.failed);
  stamp(round3);
}
function none(text) {
  at("lens-none").hidden = text === "";
  words(at("lens-none"), text);
  canvas.classList.toggle("none", text !== "");
}
function show4(bitmap) {
  if (canvas.width !== bitmap.width || canvas.height !== bitmap.height) Object.assign(canvas, { width: bitmap.width, height: bitmap.height });
  canvas.getContext("2d")?.drawImage(bitmap, 0, 0);
  shown = bitmap;
}
function measure(round3) {
  const from2 = began2.get(round3.step);
  if (round3.step <= measured || from2 === void 0) return;
  measured = round3.step;
  requestAnimationFrame(() => performance.measure(PICTURE, { start: from2, end: performance.now() }));
}
function progress(round3) {
  const { there, of: all4 } = round3.frames.first();
  if (there === all4 && whole3 !== round3) {
    whole3 = round3;
    if (round3.began) performance.measure(MEASURE2, { start: round3.began, end: performance.now() });
  }
  canvas.dataset.frames = String(round3.frames.held.size);
  const { packed, unpacked } = held2();
  Object.assign(canvas.dataset, { packed: String(packed), unpacked: String(unpacked) });
  if (there < all4) part.dataset.drawing = `drawing, ${there} of ${all4}`;
  else delete part.dataset.drawing;
}
whenThere((round3) => {
  if (round3 === newest() && round3.text !== null) progress(round3);
  paint();
  told3();
});
whenUnpacked(() => paint());
seenAt(() => canvas.clientWidth * devicePixelRatio);
follow(paint);

// script/fields.js
var made = 0;
var written2 = (edit) => change([edit], { label: edit.path });
function field(value, key = value.path, write4 = written2) {
  const id2 = "field-" + ++made;
  const help = make("small.help", { id: id2 + "-help" });
  const input = control(value, id2);
  const named3 = make("span"), file2 = make("small.key");
  const label = make("label", { for: id2 }, named3, file2);
  const wrong = make("small.wrong", { id: id2 + "-wrong", role: "alert" });
  const home = make("small.home", { id: id2 + "-home" });
  const there = make("input", { type: "checkbox", "aria-describedby": id2 + "-home" });
  const thereWords = make("span");
  const common = make("label.tick", { hidden: true }, there, thereWords);
  const fits = make("div.fits");
  const el = make("div.field", { "data-path": key }, label, input, home, common, help, wrong, fits);
  const f = {
    el,
    input,
    named: named3,
    file: file2,
    help,
    value,
    wrong,
    fits,
    write: write4,
    home,
    there,
    thereWords,
    common,
    sent: false,
    rests: false,
    show: (v) => show5(f, v)
  };
  input.addEventListener("change", () => void put2(f));
  el.addEventListener("keydown", (e) => {
    if (e.key !== "Escape" || e.target !== input) return;
    input.value = f.value.value;
    e.stopPropagation();
  });
  f.show(value);
  return f;
}
function control(value, id2) {
  const described2 = { id: id2, "aria-describedby": `${id2}-home ${id2}-help ${id2}-wrong` };
  if (!value.choices?.length) return make("input", { type: "text", autocomplete: "off", spellcheck: "false", ...described2 });
  return make("select", described2);
}
function shows(f, v) {
  const of2 = (w) => [w.value, w.words, w.label, w.help, w.file, w.example, w.over?.value, w.over?.file, w.choices?.join()];
  const had = of2(f.value);
  return f.rests && !f.sent && f.input.value === v.value && of2(v).every((x, i) => x === had[i]);
}
function show5(f, v) {
  const rests = shows(f, v);
  f.value = v;
  if (rests) return;
  words(f.named, v.words ?? v.label);
  words(f.file, keyBeside(v));
  words(f.help, v.help);
  if (f.input instanceof HTMLSelectElement) options(f.input, v);
  else f.input.placeholder = v.value !== "" ? "" : v.example ? `left out, such as ${v.example}` : "left out";
  if (document.activeElement !== f.input || f.sent) f.input.value = v.value;
  f.sent = false;
  stands(f, v);
  told4(f, []);
  f.el.classList.toggle("left-out", v.value === "");
  f.rests = true;
}
var keyBeside = (v) => v.words?.toLowerCase() === v.label ? "" : v.label;
function stands(f, v) {
  words(f.home, v.file ? `stands in ${v.file}` : v.over ? `over ${v.over.value} in ${v.over.file}` : "");
  f.common.hidden = !v.file;
  if (v.file) words(f.thereWords, `change it there, for all shots over ${v.file}`);
  else f.there.checked = false;
}
function told4(f, faults, fits = []) {
  f.rests = false;
  words(f.wrong, faults.map((x) => [x.text, x.fit].filter(Boolean).join("; ")).join(". "));
  f.fits.replaceChildren(...fits.map((x) => button(x.text, async () => {
    await change(x.edits, { label: f.value.path });
    f.input.focus();
  }, { class: "fit" })));
  if (faults.length) f.input.setAttribute("aria-invalid", "true");
  else f.input.removeAttribute("aria-invalid");
}
function options(select, v) {
  const names3 = [.../* @__PURE__ */ new Set(["", v.value, ...v.choices ?? []])];
  if (select.dataset.names === names3.join()) return;
  select.dataset.names = names3.join();
  select.replaceChildren(...names3.map((n) => make("option", { value: n }, n === "" ? "left out" : n)));
}
async function put2(f) {
  const text = f.input.value.trim();
  if (text === f.value.value && !f.wrong.textContent) return void (f.input.value = f.value.value);
  if (text === f.value.value) return told4(f, []);
  if (text === "" && f.there.checked) return void (f.input.value = f.value.value);
  f.sent = true;
  if (f.there.checked) return void putThere(f, text);
  const edit = text === "" ? { do: "remove", path: f.value.path } : { path: f.value.path, value: text };
  const answer2 = await f.write(edit);
  told4(f, answer2?.faults ?? [], answer2?.fits);
  if (answer2?.refused && f.input instanceof HTMLSelectElement) f.input.value = f.value.value;
}
async function putThere(f, text) {
  try {
    const { file: file2, path: path2 } = await ask("set-up", { text: shot.text, path: f.value.path, value: text, was: f.value.value });
    say(`Written into ${file2}, for all shots over it: ${path2} = ${text}, where ${f.value.value} was. Undo does not change that file.`, "fair");
    await retext(shot.text);
  } catch (err) {
    f.input.value = f.value.value;
    sayError(err);
  }
}

// script/tables.js
function byTable(values, takes, bare = () => false) {
  const by = /* @__PURE__ */ new Map();
  const put4 = (v) => by.set(v.group, [...by.get(v.group) ?? [], v]);
  values.forEach(put4);
  for (const v of takes) if (by.has(v.group) || bare(v.group)) put4(v);
  return by;
}
var titled = (table, top) => table.replaceAll(".", " › ") || top;
function dropOthers(tables3, there) {
  for (const [name2, t] of tables3) if (!there.has(name2)) t.el.remove(), tables3.delete(name2);
}
var Table = class {
  /** @type {Map<string, import("./fields.js").Field>} by their paths */
  fields = /* @__PURE__ */ new Map();
  more = make("details", {}, make("summary", {}, "What else this takes"));
  /** @param {(string | Node)[]} legend */
  constructor(...legend) {
    this.el = make("fieldset", {}, make("legend", {}, ...legend), this.more);
  }
  /** Shows its values, the fields of new ones being made. @param {Wire.Value[]} values @param {(v: Wire.Value) => import("./fields.js").Field} made */
  show(values, made5 = field) {
    const paths = new Set(values.map((v) => v.path));
    for (const [path2, f] of this.fields) if (!paths.has(path2)) f.el.remove(), this.fields.delete(path2);
    for (const v of values) {
      const f = this.fields.get(v.path) ?? made5(v);
      this.fields.set(v.path, f);
      const away2 = v.value === "";
      if (f.el.parentElement !== (away2 ? this.more : this.el)) away2 ? this.more.append(f.el) : this.more.before(f.el);
      f.show(v);
    }
    this.more.hidden = !values.some((v) => v.value === "");
  }
};

// script/rigedit.js
var file = null;
var asked2 = "";
var tables = /* @__PURE__ */ new Map();
var told5 = make("p.hint", {});
var pick = make("select", { id: "rig-pick", onchange: () => void use(pick.value) });
var fields = make("div");
var choose = make("label", {}, "Rig of this shot ", pick);
at("rig").append(told5, choose, fields);
var rigOf = () => shot.view?.values.find((v) => v.path === "rig.file")?.value ?? "";
async function look3() {
  try {
    shown2(await ask("rig/file", { text: shot.text }));
  } catch (err) {
    sayError(err);
  }
}
on("view", () => {
  if (!at("bench-rig").hidden && rigOf() !== asked2) void look3();
});
at("tab-rig").addEventListener("click", () => void look3());
function shown2(news) {
  file = news;
  asked2 = rigOf();
  words(told5, news.why || `What ${news.file} says of the machine, for all shots on it. A change is written into the file at once; Undo takes it back.`);
  words(at("rig-text"), news.text);
  words(at("rig-file"), news.file);
  const names3 = [.../* @__PURE__ */ new Set([asked2, ...news.files])].filter(Boolean);
  pick.replaceChildren(...names3.map((n) => make("option", { value: n, selected: n === asked2 }, n)));
  choose.hidden = names3.length === 0;
  const by = byTable(news.values, news.takes);
  dropOthers(tables, by);
  for (const [name2, values] of by) group(name2, values);
}
function group(name2, values) {
  const t = tables.get(name2) ?? new Table(values[0]?.in ?? "", make("small.key", {}, titled(name2, "rig")));
  if (!tables.has(name2)) fields.append(t.el);
  tables.set(name2, t);
  t.show(values, (v) => field(v, "rig:" + v.path, write2));
  for (const v of values) words(t.fields.get(v.path)?.home ?? t.el, v.known ? `${v.known}${v.why ? ": " + v.why : ""}` : "");
}
async function written3(edits, label) {
  if (!file) return [];
  const done2 = await ask("rig/edit", { text: shot.text, file: file.file, revision: file.revision, edits });
  if (done2.faults.length) return done2.faults;
  remember(shot.text, `rig: ${label}`, { file: done2.rig.file, whole: done2.was });
  say(`Written into ${done2.rig.file}, for all shots on it.`);
  shown2(done2.rig);
  await retext(shot.text);
  return [];
}
async function mendRig(mend2, name2) {
  try {
    const now2 = await ask("rig/file", { text: shot.text });
    if (now2.file !== name2) throw new Error(`The shot is on another rig by now; ${name2} stays as it is.`);
    shown2(now2);
    for (const f of await written3(mend2.edits, mend2.text)) say(told(f, name2), "bad");
  } catch (err) {
    sayError(err);
  }
}
async function write2(edit) {
  if (!file) return null;
  try {
    const faults = await written3([edit], edit.path);
    return { faults, fits: [], refused: faults.length > 0 };
  } catch (err) {
    const { status, faults, message } = refusal(err);
    if (status === 409) void look3();
    return { faults: faults.length ? faults : [{ text: message, fit: "" }], fits: [], refused: true };
  }
}
async function putBack({ file: name2, whole: whole4 }) {
  const now2 = await ask("rig/file", { text: shot.text });
  if (now2.file !== name2) throw new Error(`The shot is on another rig by now; ${name2} stays as it is.`);
  const done2 = await ask("rig/edit", { text: shot.text, file: name2, revision: now2.revision, edits: [], whole: whole4 });
  if (done2.faults.length) throw new Error(`${name2} stays as it is: ${done2.faults[0].text}`);
  shown2(done2.rig);
  say(`${name2} is as it was.`);
  return { file: name2, whole: done2.was };
}
besideShot(putBack);
var use = (name2) => change([{ path: "rig.file", value: name2 }], { label: `rig: ${name2}` }).then((answer2) => {
  if (answer2 && !answer2.refused) return void look3();
  pick.value = asked2;
});
at("rig-save").after(button("Save it, and use it for this shot", async () => {
  const name2 = at("rig-new-file").value.trim();
  try {
    await ask("rig/new", { file: name2, text: at("rig-new-text").value });
  } catch (err) {
    return sayError(err);
  }
  const answer2 = await change([{ path: "rig.file", value: name2 }], { label: `rig: ${name2}` });
  say(answer2?.refused ? `Saved ${name2}. This shot cannot be planned on it, and stays on its rig.` : `Saved ${name2}; this shot is on it now.`, answer2?.refused ? "fair" : "good");
}, { id: "rig-use" }));

// script/cures.js
function cureOf(fit2, of2) {
  if (!fit2.edits?.length) return make(fit2.hand ? "span.by-hand" : "span.untried", {}, fit2.hand ? make("em", {}, "by hand") : null, fit2.text);
  return button(fit2.text, () => take4(fit2), { class: "fit", "data-fit": of2 + fit2.text });
}
var take4 = (fit2) => fit2.file ? mendRig(fit2, fit2.file) : change(fit2.edits, { label: fit2.text });
function curesOf(fits, of2, name2 = "What would do") {
  return fits.length === 0 ? null : make("ul.fits", { "aria-label": name2 }, fits.map((f) => make("li", {}, cureOf(f, of2))));
}

// script/headline.js
var line2 = at("ready");
line2.removeAttribute("role");
var sign3 = make("span.mark", { "aria-hidden": "true" });
var said = make("span.said", { role: "status" });
var worst = make("button.worst", { type: "button", onclick: showWorst });
var said2 = make("span.words", {}, said);
line2.replaceChildren(sign3, said2);
var cure = null;
on("view", draw3);
on("controller", draw3);
on("faults", faulty);
function draw3() {
  const { level, stamp: stamp2, words: text, worst: bad } = shot.view.headline;
  line2.className = level;
  words(sign3, MARKS[level].sign);
  fill(said, `${stamp2}. ${text}`, () => [make("span.lines", {}, make("b", {}, stamp2 + "."), " " + text)]);
  if (bad) {
    fill(worst, `${bad.plain}: ${bad.text}`, () => [make("span.lines", {}, bad.plain, make("span.detail", {}, ": " + bad.text))]);
    worst.title = typeof bad.frame === "number" ? "Go to where it is worst" : "Show it in the list";
    if (!worst.isConnected) said2.after(worst);
  } else if (worst.isConnected) worst.remove();
  mend(bad?.fit ?? null);
}
function mend(fit2) {
  const as = JSON.stringify(fit2);
  if ((cure?.dataset.as ?? "null") === as) return;
  const held7 = cure?.contains(document.activeElement);
  cure?.remove();
  cure = fit2 && cureOf(fit2, "ready");
  if (cure) {
    cure.dataset.as = as;
    cure.title = `For ${worst.textContent}`;
    if (fit2 && cure.matches("button")) {
      cure.title = `${fit2.text}
${cure.title}`;
      cure.replaceChildren(make("span.lines", {}, fit2.text));
    }
    line2.append(cure);
  }
  if (held7) (cure?.matches("button") ? cure : line2).focus();
}
function showWorst() {
  const bad = shot.view.headline.worst;
  if (typeof bad?.frame === "number") {
    pause();
    goTo(bad.frame);
  }
  document.querySelector(`#verdict-list [data-name="${CSS.escape(bad?.name ?? "")}"]`)?.scrollIntoView({ block: "nearest" });
}
function faulty() {
  const list4 = shot.faults;
  at("stale").hidden = list4.length === 0;
  document.body.classList.toggle("is-stale", list4.length > 0);
  const mend2 = list4[0]?.mends?.[0];
  fill(at("stale-mend"), JSON.stringify(mend2 ?? null), () => mend2 ? [button(mend2.text, () => void take4(mend2), { id: "stale-cure", class: "fit" })] : []);
  if (list4.length === 0) return words(at("stale-words"), "");
  const first = list4[0];
  const beside4 = first.file && first.file !== shot.start.file ? first.file : "";
  const what = told({ ...first, fit: "" }, [beside4, first.line ? `line ${first.line}` : ""].filter(Boolean).join(", "));
  words(at("stale-words"), `The ${beside4 ? "shot" : "text"} has ${list4.length === 1 ? "a fault" : list4.length + " faults"}: ${what}. ${shot.view ? "What is drawn is the last plan that could be made." : "Nothing can be drawn before it is mended, here or in any editor."}`);
}
at("stale-show").addEventListener("click", () => at("tab-text").click());

// script/fullscreen.js
var over = make("div.stays", { id: "over" });
var kept2 = [at("strip"), at("stop"), at("gone"), at("dead")].map((el) => {
  const place = document.createComment(el.id);
  el.before(place);
  return { el, place };
});
function keepOver(part6) {
  over.remove();
  if (!part6) for (const { el, place } of kept2) place.after(el);
  else {
    over.append(...kept2.map(({ el }) => el));
    part6.prepend(over);
  }
}

// script/whole.js
var TAP = 8;
var STAYS = "notes";
var part2 = at("seen");
var canvas2 = at("lens");
var enters = button("Whole screen", enter, { id: "whole-screen", class: "stays" });
var plays = button("Go round", playOrPause, { class: "plays" });
var seam = button("Loop seam", () => loopSeam(!playhead.seam), { "aria-pressed": "false" });
var readout = make("output.instant", { "aria-label": "Instant", "aria-live": "off" });
var bar2 = make(
  "div.whole-bar.stays",
  { role: "group", "aria-label": "Round the loop, on the whole screen", hidden: true },
  plays,
  button("− 1", () => stepBy(-1), { "aria-label": "− 1 frame" }),
  button("+ 1", () => stepBy(1), { "aria-label": "+ 1 frame" }),
  seam,
  readout,
  button("Leave", leave, { class: "leaves", "aria-keyshortcuts": "Escape" })
);
part2.append(enters, bar2);
part2.tabIndex = -1;
var open2 = false;
var behind = [];
async function enter() {
  if (open2) return;
  show6(true);
  try {
    await part2.requestFullscreen?.({ navigationUI: "hide" });
  } catch {
  }
  if (!open2 && document.fullscreenElement) await document.exitFullscreen();
}
function leave() {
  if (!open2) return;
  show6(false);
  if (document.fullscreenElement) void document.exitFullscreen();
  enters.focus();
}
function show6(whole4) {
  open2 = whole4;
  part2.classList.toggle("whole", whole4);
  bar2.hidden = !whole4;
  enters.hidden = whole4;
  (whole4 ? bar2 : at("names")).append(at("work"));
  keepOver(whole4 ? part2 : null);
  for (const el of behind) el.inert = false;
  behind = whole4 ? [...beside2(part2)].filter((el) => !el.inert && el.id !== STAYS) : [];
  for (const el of behind) el.inert = true;
  if (whole4) part2.focus();
  tell3(playhead);
  again();
}
function* beside2(el) {
  for (let e = el, up; e !== document.body && (up = e.parentElement); e = up) for (const other of up.children) if (other !== e && other instanceof HTMLElement) yield other;
}
function tell3(p) {
  if (!open2 || !shot.view) return;
  words(plays, p.playing ? "Stand still" : "Go round");
  seam.setAttribute("aria-pressed", String(p.seam));
  const frame2 = frameOf(p.frame * timelinePerFrame(shot.view));
  words(readout, `frame ${frame2} of ${shot.view.timelineFrames}, ${(p.frame / shot.view.frames * shot.view.loopScreenSeconds).toFixed(2)} s`);
}
document.addEventListener("fullscreenchange", () => !document.fullscreenElement && leave());
addEventListener("keydown", (e) => {
  if (!open2 || e.key !== "Escape") return;
  e.preventDefault();
  leave();
});
follow(tell3);
var finger = null;
canvas2.addEventListener("pointerdown", (e) => {
  if (!open2 || !shot.view) return;
  canvas2.setPointerCapture(e.pointerId);
  finger = { x: e.clientX, frame: playhead.frame, moved: false };
});
canvas2.addEventListener("pointermove", (e) => {
  if (!finger || !canvas2.hasPointerCapture(e.pointerId)) return;
  const by = e.clientX - finger.x;
  if (!finger.moved && Math.abs(by) < TAP) return;
  if (!finger.moved) pause();
  finger.moved = true;
  goTo(wholeFrame(finger.frame + by / canvas2.clientWidth * shot.view.frames));
});
canvas2.addEventListener("pointerup", () => {
  if (finger && !finger.moved) playOrPause();
  finger = null;
});
canvas2.addEventListener("pointercancel", () => finger = null);

// script/folds.js
var KEPT = "seamrail verdicts open";
function open3() {
  try {
    return JSON.parse(localStorage.getItem(KEPT) ?? "[]");
  } catch {
    return [];
  }
}
function remember2(levels) {
  try {
    localStorage.setItem(KEPT, JSON.stringify(levels));
  } catch {
  }
}
function folds() {
  const held7 = fold("good", "What holds");
  const unsure2 = fold("unknown", "What is not known");
  const line5 = make("li.folds", {}, held7.list, unsure2.list);
  const count3 = (good, unknown) => {
    held7.tell(good, good === 1 ? "1 holds" : `${good} hold`);
    unsure2.tell(unknown, `${unknown} not known`);
  };
  return { names: [held7.word, unsure2.word], line: line5, held: held7.list, unsure: unsure2.list, count: count3 };
}
function fold(level, name2) {
  const list4 = make("ul", { id: "fold-" + level, "aria-label": name2 });
  const word = button("", () => show17(list4.hidden), { class: "quiet fold sum " + level, "aria-controls": list4.id });
  const show17 = (is) => {
    list4.hidden = !is;
    word.setAttribute("aria-expanded", String(is));
    remember2([...open3().filter((l) => l !== level), ...is ? [level] : []]);
  };
  list4.hidden = !open3().includes(level);
  word.setAttribute("aria-expanded", String(!list4.hidden));
  return { list: list4, word, tell: (n, text) => (word.hidden = n === 0, words(word, `${MARKS[level].sign} ${text}`)) };
}

// script/verdicts.js
var NEAR2 = 0.02;
var RANK = ["bad", "fair", "unknown", "good"];
var part3 = at("verdicts");
var list3 = at("verdict-list");
var { names, line: line3, held: held3, unsure, count: count2 } = folds();
var open4 = make("span.open");
var groups = [["good", held3], ["unknown", unsure]];
var rows = /* @__PURE__ */ new Map();
list3.append(line3);
at("verdict-sum").append(...names, open4);
on("view", draw4);
on("controller", draw4);
function draw4() {
  const first = rows.size === 0;
  if (shot.glanced && !first) return;
  drawnFrom(part3);
  part3.toggleAttribute("data-glanced", shot.view.sketch);
  const focus = document.activeElement;
  const had = list3.contains(focus) ? focus?.getAttribute("data-fit") : null;
  const top = shot.dragged ? null : list3.scrollTop;
  const all4 = named2(shot.view.verdicts.toSorted((a, b) => RANK.indexOf(a.level) - RANK.indexOf(b.level)));
  for (const [key, v] of all4) write3(rowOf(key), v);
  for (const [key, r] of rows) r.el.classList.toggle("past", !all4.has(key));
  if (shot.dragged && !first) keep3(all4);
  else settle3(all4);
  tally();
  if (top !== null) list3.scrollTop = top;
  if (had && document.activeElement !== focus) list3.querySelector(`[data-fit="${CSS.escape(had)}"]`)?.focus();
}
function named2(verdicts) {
  const out = /* @__PURE__ */ new Map();
  for (const v of verdicts) {
    let key = `${v.axis ?? ""} ${v.name}`;
    while (out.has(key)) key += "'";
    out.set(key, v);
  }
  return out;
}
function rowOf(key) {
  const row3 = rows.get(key) ?? { el: make("li"), as: "", frame: null };
  rows.set(key, row3);
  return row3;
}
function write3(row3, v) {
  const as = JSON.stringify([v, shot.view.frames, shot.view.timelineFrames]);
  if (row3.as === as) return;
  const m = MARKS[v.level];
  const { frame: frame2 = null } = v;
  Object.assign(row3, { as, frame: frame2 });
  const now2 = row3.el.classList.contains("now");
  const when = frame2 !== null ? button(`frame ${Math.round(frame2 * shot.view.timelineFrames / shot.view.frames)}`, () => (pause(), goTo(frame2)), { class: "when", title: `Go to where ${v.plain} is found`, "data-fit": "frame of " + v.axis + v.name }) : null;
  row3.el.className = `verdict ${v.level}`;
  row3.el.classList.toggle("now", now2);
  row3.el.dataset.name = v.name;
  row3.el.replaceChildren(
    make("span.mark", { role: "img", "aria-label": m.word }, m.sign),
    make("div", {}, make("p", {}, make("b", {}, v.plain), " ", v.plain === v.name ? null : make("small.term", {}, v.name), " ", v.level === "good" ? null : make("em", {}, m.word), " ", make("span.text", {}, v.text), " ", when), curesOf(v.fits, v.name))
  );
}
function keep3(all4) {
  for (const [key, v] of all4) {
    const { el } = rowOf(key);
    const hidden = el.parentNode !== list3 && (v.level === "bad" || v.level === "fair");
    if (!el.isConnected || hidden) list3.insertBefore(el, line3);
  }
}
function settle3(all4) {
  for (const [key, r] of rows) {
    if (all4.has(key)) continue;
    r.el.remove();
    rows.delete(key);
  }
  const of2 = (levels) => [...all4].filter(([, v]) => levels.includes(v.level)).map(([key]) => rowOf(key).el);
  order(list3, [...of2(["bad", "fair"]), line3]);
  for (const [level, into] of groups) order(into, of2([level]));
}
function order(into, items) {
  items.forEach((el, i) => into.children[i] !== el && into.insertBefore(el, into.children[i] ?? null));
}
function tally() {
  const of2 = (level) => shot.view.verdicts.filter((v) => v.level === level).length;
  const some = RANK.slice(0, 2).map((l) => ({ l, n: of2(l) })).filter(({ n }) => n);
  open4.replaceChildren(...some.map(({ l, n }) => make("span.sum." + l, {}, `${MARKS[l].sign} ${n} ${n === 1 ? MARKS[l].word : MARKS[l].many}`)));
  count2(of2("good"), of2("unknown"));
}
follow((p) => {
  if (!shot.view) return;
  const near3 = shot.view.frames * NEAR2;
  for (const r of rows.values()) r.el.classList.toggle("now", r.frame !== null && Math.abs(r.frame - p.frame) <= near3);
});

// script/controller.js
var QUIET = 400;
var waiting3 = 0;
var own = null;
var known2 = null;
var planned2 = "";
on("view", () => planned2 = shot.text);
on("asked", () => {
  clearTimeout(waiting3);
  own?.abort();
});
on("planned", () => {
  if (shot.view && shot.view !== known2 && !shot.dragged) waiting3 = setTimeout(work2, QUIET);
});
async function work2() {
  const of2 = shot.view;
  const before2 = shot.asked;
  own?.abort();
  const mine2 = own = new AbortController();
  try {
    const found2 = await working("what the controller makes of it", (signal) => ask("controller", { text: planned2 }, signal), mine2.signal);
    if (shot.view === of2) show7(found2);
  } catch (err) {
    if (shot.view === of2) sayError(err);
  }
  if (shot.asked === before2) known2 = of2;
}
function show7(found2) {
  Object.assign(shot.view, { headline: found2.headline, verdicts: [...shot.view.verdicts.filter((v) => !v.pending), ...found2.verdicts] });
  tell("controller");
}

// script/shape.js
async function add(thing, spot = {}) {
  const answer2 = await change([{ do: "add", path: thing.path, ...spot }], { label: `add: ${thing.label}` });
  if (answer2 && !answer2.refused && answer2.at) goTo2(answer2.at);
}
async function takeOut(thing, home) {
  const answer2 = await change([{ do: "remove", path: thing.path }], { label: `remove: ${thing.label}` });
  if (!answer2 || answer2.refused) return;
  if (answer2.told.length) say(`Taken out with it: ${answer2.told.join("; ")}. Undo brings it back.`, "fair");
  home?.focus();
}
var become = (path2, kind) => change([{ do: "kind", path: path2, value: kind }], { label: "another move" });
var adder = (thing, text = `Add ${lower(thing.label)}`) => button(text, () => void add(thing), { class: "quiet add", title: thing.help, "data-add": thing.path });
var remover = (thing, text = `Remove ${thing.label}`, home) => button(text, () => void takeOut(thing, home?.()), { class: "quiet remove", "aria-label": `Remove ${thing.label}`, "data-remove": thing.path });
var lower = (text) => text.charAt(0).toLowerCase() + text.slice(1);
var removes = (path2) => shot.view.removes.find((r) => r.path === path2);
function goTo2(path2) {
  requestAnimationFrame(() => {
    const bench = document.querySelector("[role=tabpanel]:not([hidden])");
    const under6 = [...bench?.querySelectorAll("[data-path]") ?? []].filter((el) => {
      const own3 = (
        /** @type {HTMLElement} */
        (el.dataset.path ?? "").replace("move:", "")
      );
      return own3 === path2 || own3.startsWith(path2 + ".") || own3.startsWith(path2 + "[");
    });
    const field2 = (
      /** @type {HTMLElement | undefined | null} */
      under6[0]?.querySelector("input, select")
    );
    if (field2) return void field2.focus();
    const gone4 = bench?.querySelector(`[data-remove="${CSS.escape(path2)}"]`);
    if (gone4) gone4.focus();
  });
}
function offer2(el, things, made5 = (t) => adder(t)) {
  const as = things.map((t) => t.path + t.label).join("|");
  if (el.dataset.as === as) return;
  el.dataset.as = as;
  const held7 = (
    /** @type {HTMLElement | null} */
    document.activeElement?.closest?.("[data-add],[data-remove]")
  );
  const path2 = held7 && el.contains(held7) ? held7.getAttribute("data-add") : null;
  el.replaceChildren(...things.map(made5));
  if (path2) el.querySelector(`[data-add="${CSS.escape(path2)}"]`)?.focus();
}
var beside3 = [
  { part: "plan", what: ["lamp", "hole", "product", "board", "scene"], after: true },
  { part: "bench-cues", what: ["cue"], after: false },
  { part: "bench-spin", what: ["stand"], after: false }
];
for (const b of beside3) {
  const adds = make("div.pair.adds", { role: "group", "aria-label": "Add to the shot" });
  const gone4 = make("div.pair.adds", { role: "group", "aria-label": "Take out of the shot" });
  const part6 = at(
    /** @type {"plan"} */
    b.part
  );
  if (b.after) part6.append(adds);
  else part6.prepend(adds), part6.append(gone4);
  on("view", () => {
    offer2(adds, shot.view.adds.filter((t) => b.what.includes(t.what)), b.after ? (t) => adder(t, t.what) : void 0);
    if (!b.after) offer2(gone4, shot.view.removes.filter((t) => b.what.includes(t.what)), (t) => remover(t));
  });
}

// script/tabs.js
var tabs = [...document.querySelectorAll("[role=tab]")].map((tab) => (
  /** @type {HTMLElement} */
  tab
));
var benchOf = (tab) => (
  /** @type {Bench} */
  tab.getAttribute("aria-controls")
);
var behind2 = /* @__PURE__ */ new Map();
function onViewOf(bench, f) {
  on("view", () => {
    if (at(bench).hidden) behind2.set(bench, f);
    else f();
  });
}
function openTab(tab) {
  for (const t of tabs) {
    const seen3 = t === tab;
    t.setAttribute("aria-selected", String(seen3));
    t.tabIndex = seen3 ? 0 : -1;
    at(benchOf(t)).hidden = !seen3;
  }
  const bench = benchOf(tab);
  behind2.get(bench)?.();
  behind2.delete(bench);
  document.body.dataset.bench = tab.id.replace("tab-", "");
  inSight(tab);
}
function inSight(tab) {
  const { parentElement: line5, offsetLeft, offsetWidth } = tab;
  if (!line5) return;
  line5.scrollLeft = offsetLeft - line5.offsetLeft - (line5.clientWidth - offsetWidth) / 2;
}
for (const t of tabs) {
  t.addEventListener("click", () => openTab(t));
  t.addEventListener("keydown", (e) => {
    const i = tabs.indexOf(t);
    const to = (/* @__PURE__ */ new Map([["ArrowRight", i + 1], ["ArrowDown", i + 1], ["ArrowLeft", i - 1], ["ArrowUp", i - 1], ["Home", 0], ["End", tabs.length - 1]])).get(e.key);
    if (to === void 0) return;
    e.preventDefault();
    e.stopPropagation();
    const next3 = tabs[(to + tabs.length) % tabs.length];
    openTab(next3);
    next3.focus();
  });
}
openTab(tabs[0]);

// script/laws.js
var WIDE3 = 48;
var TALL = 30;
var FASTEST = 2.2;
function laws(k) {
  const name2 = "law-" + k.path;
  const inputs = shot.start.laws.map((l) => make("input", { type: "radio", name: name2, value: l.name, onchange: () => change([{ path: k.path, value: l.name }], { label: k.label }) }));
  const told6 = make("p.law-told", {});
  let now2 = "";
  const tile = (l, i) => make("label.law", { onpointerenter: () => words(told6, `${l.name}: ${l.words}`), onpointerleave: () => words(told6, now2) }, inputs[i], picture(l), make("span", {}, l.name));
  const group2 = make("div.laws", { role: "radiogroup", "aria-label": `${k.words}: ${k.in}` }, shot.start.laws.map(tile));
  const head3 = make("div.law-head", {}, make("span", {}, k.words), make("small.key", {}, k.label), told6, make("small.help", {}, k.help));
  const el = make("div.law-field", { "data-path": k.path }, head3, group2);
  return { el, show: (v) => {
    for (const i of inputs) i.checked = i.value === v.value;
    now2 = sayOf(v.value);
    words(told6, now2);
  } };
}
function sayOf(value) {
  const known3 = shot.start.laws.find((l) => l.name === value);
  if (known3) return `${known3.name}: ${known3.words}`;
  return value ? `${value}: a law with numbers of its own` : "left out";
}
var line4 = (points2, tall) => points2.map(([u, s]) => `${(u * WIDE3).toFixed(1)} ${(TALL - s * tall).toFixed(1)}`).join("L");
var picture = (l) => draw(
  "svg",
  { viewBox: `-2 -2 ${WIDE3 + 4} ${TALL + 4}`, "aria-hidden": "true" },
  draw("path.pace", { d: `M0 ${TALL}L${line4(l.pace, TALL / FASTEST)}L${WIDE3} ${TALL}Z` }),
  draw("path.way", { d: "M" + line4(l.curve, TALL) })
);

// script/keytable.js
function keyTable(path2) {
  const body = make("tbody");
  const more3 = make("button.quiet.add", { type: "button", "data-add": path2, onclick: () => {
    const thing = shot.view.adds.find((t) => t.path === path2);
    if (thing) void add(thing);
  } }, "Add a key");
  const el = make("div.keys", {}, make(
    "table",
    {},
    make("caption.unseen", {}, path2),
    make("thead", {}, make("tr", {}, ["Key", "Time", "Place", "Besides", ""].map((t) => make("th", { scope: "col" }, t)))),
    body
  ), more3);
  const rows3 = [];
  return { el, show: () => {
    const values = shot.view.values.filter((v) => v.path.startsWith(path2 + "["));
    const count3 = new Set(values.map((v) => v.group)).size;
    while (rows3.length > count3) rows3.pop()?.el.remove();
    while (rows3.length < count3) rows3.push(row2(body, `${path2}[${rows3.length + 1}]`, rows3.length + 1));
    const takes = shot.view.takes.filter((t) => t.path.startsWith(path2 + "["));
    for (const r of rows3) r.show([values, takes].flatMap((some) => some.filter((v) => v.group === r.path)));
  } };
}
var PLACE = ["pos", "level", "focus"];
function row2(body, path2, n) {
  const time = make("td"), place = make("td"), rest = make("td"), gone4 = make("td");
  const el = make("tr", { "data-path": path2 }, make("th", { scope: "row" }, String(n)), time, place, rest, gone4);
  body.append(el);
  const fields2 = /* @__PURE__ */ new Map();
  const besides = make("details", {}, make("summary", {}, "more"));
  rest.append(besides);
  const put4 = (v) => {
    const f = field(v, "key:" + v.path);
    fields2.set(v.path, f);
    if (v.label === "at" || PLACE.includes(v.label)) f.input.setAttribute("aria-label", `key ${n}, ${v.label === "at" ? "time" : "place"}`);
    return f;
  };
  return { el, path: path2, show: (all4) => {
    for (const [p, f] of fields2) if (!all4.some((v) => v.path === p)) f.el.remove(), fields2.delete(p);
    for (const v of all4) {
      const f = fields2.get(v.path) ?? put4(v);
      const cell = v.label === "at" ? time : PLACE.includes(v.label) ? place : v.value === "" ? besides : rest;
      if (f.el.parentElement !== cell) cell.append(f.el);
      f.show(v);
    }
    const thing = removes(path2);
    if (!thing) gone4.replaceChildren();
    else if (!gone4.firstChild) gone4.append(remover(thing, ""));
  } };
}

// script/moves.js
var LAWS = /* @__PURE__ */ new Set(["law", "back-law"]);
var SEEN2 = /* @__PURE__ */ new Set(["law"]);
var axes = /* @__PURE__ */ new Map();
var more = make("div.pair.adds", { role: "group", "aria-label": "Add an axis" });
var head2 = make("h3", {}, "Axes of the rig that do not move yet");
at("bench-moves").append(head2, more);
onViewOf("bench-moves", () => {
  const names3 = new Set(shot.view.axes.map((a) => a.name));
  for (const [name2, a] of axes) if (!names3.has(name2)) a.el.remove(), axes.delete(name2);
  for (const a of shot.view.axes) axis(a);
  const idle = shot.view.adds.filter((t) => t.what === "axis");
  head2.hidden = idle.length === 0;
  offer2(more, idle, (t) => adder(t, `Add ${t.path.slice("axis.".length)}`));
});
function axis(a) {
  const path2 = `axis.${a.name}`;
  let m = axes.get(a.name);
  if (m && m.move !== a.move) {
    const held7 = m.el.contains(document.activeElement) && document.activeElement === m.kind;
    m.el.remove();
    m = made2(a, path2);
    if (held7) m.kind.focus();
  }
  m ??= made2(a, path2);
  const under6 = (v) => v.group.startsWith(path2 + ".");
  const below = m.keys ? [] : shot.view.values.filter(under6).map((v) => ({ ...v, label: v.path.slice(path2.length + 1) }));
  const all4 = [...a.moveKeys.filter((k) => k.path !== path2 + ".move"), ...below];
  const paths = new Set(all4.map((k) => k.path));
  for (const [p, f] of m.fields) if (!paths.has(p)) f.el.remove(), m.fields.delete(p);
  for (const k of all4) put3(m, k).show(k);
  m.keys?.show();
  offer2(m.rests, shot.view.adds.filter((t) => t.what === "rest" && t.path.startsWith(path2 + ".")));
  const gone4 = removes(path2);
  offer2(m.gone, gone4 ? [gone4] : [], (t) => remover(t, "Remove this axis"));
}
function made2(a, path2) {
  const kind = make(
    "select",
    { "aria-label": `what ${a.name} does`, onchange: () => void chosen(kind, a, path2, wrong) },
    a.moves.map((m2) => make("option", { value: m2.name, selected: m2.name === a.move }, `${m2.words} (${m2.name})`))
  );
  const wrong = make("small.wrong", { role: "alert" });
  const m = {
    el: make("fieldset", { "data-axis": a.name }, make("legend", {}, a.name), make("div.field.kind", { "data-path": `move:${path2}.move` }, make("label", {}, "It does"), kind, wrong)),
    kind,
    fields: /* @__PURE__ */ new Map(),
    move: a.move,
    rests: make("div.pair.adds"),
    gone: make("div.pair.adds"),
    keys: a.moveKeys.length && shot.view.adds.some((t) => t.path === path2 + ".keys") ? keyTable(path2 + ".keys") : null,
    more: make("details", {}, make("summary", {}, "What else this move takes"))
  };
  if (m.keys) m.el.append(m.keys.el);
  m.el.append(m.rests, m.more, m.gone);
  axes.set(a.name, m);
  const next3 = shot.view.axes.slice(shot.view.axes.findIndex((x) => x.name === a.name) + 1).map((x) => axes.get(x.name)).find((x) => x);
  if (next3) next3.el.before(m.el);
  else at("moves").append(m.el);
  return m;
}
async function chosen(kind, a, path2, wrong) {
  const answer2 = await become(path2 + ".move", kind.value);
  if (!answer2?.refused) return void words(wrong, "");
  words(wrong, answer2.faults.map((f) => [f.text, f.fit].filter(Boolean).join("; ")).join(". "));
  kind.value = a.move;
}
function put3(m, k) {
  const had = m.fields.get(k.path);
  const f = had ?? (LAWS.has(k.label) ? laws(k) : field(k, "move:" + k.path));
  m.fields.set(k.path, f);
  const inside = f.el.parentElement === m.more;
  const away2 = k.value === "" && !SEEN2.has(k.label);
  if (away2 && (!had || !inside)) m.more.append(f.el);
  else if (!away2 && (!had || inside)) m.rests.before(f.el);
  return f;
}

// script/numbers.js
var tables2 = /* @__PURE__ */ new Map();
var more2 = make("div.pair.adds", { role: "group", "aria-label": "Add to the shot" });
at("numbers").before(make("details", {}, make("summary", {}, "Add to the shot"), more2));
onViewOf("bench-numbers", () => {
  const by = byTable(shot.view.values, shot.view.takes, (name2) => removes(name2) !== void 0);
  let last2 = null;
  for (const [name2, values] of by) last2 = show8(name2, values, last2);
  dropOthers(tables2, by);
  offer2(more2, shot.view.adds);
});
function show8(name2, values, after) {
  const t = tables2.get(name2) ?? made3(name2, values[0].in, after);
  t.show(values, (v) => field(v));
  const gone4 = removes(name2);
  const own3 = shot.view.adds.filter((t2) => name2 !== "" && t2.path.startsWith(name2 + ".") && !t2.path.slice(name2.length + 1).includes("."));
  offer2(t.adds, [...own3, ...gone4 ? [gone4] : []], (thing) => thing === gone4 ? remover(thing) : adder(thing));
  return t;
}
function made3(name2, called2, after) {
  const t = Object.assign(new Table(called2, make("small.key", {}, titled(name2, "shot"))), { adds: make("div.pair.adds") });
  t.el.append(t.adds);
  tables2.set(name2, t);
  if (after) after.el.after(t.el);
  else at("numbers").prepend(t.el);
  return t;
}
at("numbers-find").addEventListener("input", () => {
  const word = at("numbers-find").value.trim().toLowerCase();
  let count3 = 0;
  for (const g of tables2.values()) {
    let any = false, inside = false;
    for (const f of g.fields.values()) {
      const hit = `${f.value.path} ${f.value.words} ${f.value.help}`.toLowerCase().includes(word);
      f.el.hidden = !hit;
      any ||= hit;
      inside ||= hit && f.value.value === "" && word !== "";
      count3 += hit ? 1 : 0;
    }
    g.el.hidden = !any;
    g.more.open = inside;
  }
  words(at("numbers-found"), word ? `${count3} found` : "");
});

// script/editor.js
var PAUSE2 = 160;
var STEP2 = 900;
var area = at("text");
var gutter = at("gutter");
var waiting4 = 0;
var before = null;
var typed = 0;
function typing() {
  const now2 = performance.now();
  if (before === null || now2 - typed > STEP2) before = shot.text;
  typed = now2;
  shot.text = area.value;
  numbers();
  clearTimeout(waiting4);
  waiting4 = setTimeout(() => {
    const was2 = before ?? void 0;
    before = null;
    void retext(area.value, "text", was2);
  }, PAUSE2);
}
area.addEventListener("input", typing);
area.addEventListener("scroll", () => gutter.scrollTop = area.scrollTop);
area.addEventListener("keydown", (e) => {
  if (e.key === "Escape") at("tab-text").focus();
});
on("text", () => {
  if (area.value === shot.text) return;
  const { selectionStart: a, selectionEnd: b, scrollTop } = area;
  area.value = shot.text;
  if (document.activeElement === area) area.setSelectionRange(a, b);
  area.scrollTop = scrollTop;
  numbers();
});
var here2 = (f) => !f.file || f.file === shot.start.file;
function numbers() {
  const wrong = new Set(shot.faults.filter(here2).map((f) => f.line));
  const count3 = area.value.split("\n").length;
  if (gutter.dataset.as === count3 + ":" + [...wrong]) return;
  gutter.dataset.as = count3 + ":" + [...wrong];
  gutter.replaceChildren(...Array.from({ length: count3 }, (_2, i) => make(wrong.has(i + 1) ? "span.wrong" : "span", {}, wrong.has(i + 1) ? `▲ ${i + 1}` : `${i + 1}`)));
}
on("faults", () => {
  numbers();
  const bad = shot.faults;
  at("tab-text").classList.toggle("wrong", bad.length > 0);
  area.setAttribute("aria-invalid", String(bad.length > 0));
  fill(at("faults"), JSON.stringify([shot.start.file, bad]), () => bad.map((f) => make(
    "li",
    {},
    make("span.mark", { "aria-hidden": "true" }, "▲"),
    make(
      "div",
      {},
      f.line && here2(f) ? button(`line ${f.line}`, () => goToLine(f), { class: "when" }) : null,
      " ",
      make("span", {}, told({ ...f, fit: "" }, here2(f) ? "" : [f.file, f.line ? `line ${f.line}` : ""].filter(Boolean).join(", "))),
      f.fit && !f.mends?.length ? make("p.fit-words", {}, f.fit) : null,
      curesOf(f.mends ?? [], `${here2(f) ? "" : f.file + " "}line ${f.line} `)
    )
  )));
});
function goToLine(f) {
  const lines2 = area.value.split("\n");
  const start = lines2.slice(0, f.line - 1).join("\n").length + (f.line > 1 ? 1 : 0);
  area.focus();
  area.setSelectionRange(start + Math.max(f.column - 1, 0), start + (lines2[f.line - 1]?.length ?? 0));
  area.scrollTop = (f.line - 4) * parseFloat(getComputedStyle(area).lineHeight);
}

// script/found.js
function valueOf(text) {
  const [a, b = 1] = text.split("/").map(Number);
  return a / b;
}
var shown3 = (text) => `${valueOf(text).toFixed(3)} s shown`;
var part4 = (name2, items) => make("section", {}, make("h3", {}, name2), make("ul.found", {}, items));

// script/clip.js
var STRIP = { wide: 1e3, high: 60 };
var GIGA = 1e9;
function sequenced(told6) {
  return make(
    "div.answers",
    {},
    make("p", {}, make("b", {}, told6.title), `: ${told6.frames} frames, ${shown3(told6.screen_seconds)}, ${told6.first_label} to ${told6.last_label}`),
    strip(told6),
    told6.troubles.length ? part4("What does not hold", told6.troubles.map((t) => make("li.bad", {}, make("span.mark", { "aria-hidden": "true" }, MARKS.bad.sign), " ", t.text))) : null,
    part4("Pieces", told6.pieces.map((p) => make("li", {}, `${p.label}  ${p.title}: ${p.frames} frames of ${p.file} from frame ${p.from}`))),
    part4("Cuts", told6.cuts.map((c) => cut(c, told6.pieces))),
    part4("The order to film in", told6.order.films.map((i) => film(told6.films[i]))),
    make("p", {}, `The day: ${told6.needs.takes} takes, ${duration(told6.needs.record_seconds)} of recording, ${duration(told6.needs.day_seconds)} with every change${card(told6.needs)}.`)
  );
}
function cut(c, pieces) {
  const pace = c.seen ? `, at ${number(c.pace, 2)} of the pace` : "";
  return make("li", {}, `${c.label}  ${pieces[c.from].title} to ${pieces[c.to].title}: `, make("b", {}, c.momentum), pace, c.to === 0 ? "; the clip's own seam" : "");
}
var film = (f) => make("li", {}, `${f.file}: ${f.rig}; ${f.light}; ${f.takes} takes, ${duration(f.record_seconds)} each`);
var card = ({ bytes, card_bytes: all4 }) => bytes === null || all4 === null ? "" : `; ${number(bytes / GIGA, 1)} of ${number(all4 / GIGA, 0)} GB of card`;
function duration(text) {
  const s = valueOf(text);
  return s < 90 ? `${s.toFixed(1)} s` : `${Math.round(s / 60)} min`;
}
function strip(told6) {
  const x = (frame2) => frame2 / told6.frames * STRIP.wide;
  return draw(
    "svg.strip",
    { viewBox: `0 0 ${STRIP.wide} ${STRIP.high}`, role: "img", "aria-label": "The pieces of the clip, in their lengths" },
    told6.pieces.map((p, i) => draw("rect.piece", { x: x(p.start) + 2, y: 4 + i % 2 * 8, width: Math.max(x(p.frames) - 4, 1), height: STRIP.high - 16, "data-film": p.film % 4 })),
    told6.pieces.map((p) => draw("path.cut", { d: [12, 26, 40].map((y) => `M${x(p.start) - 6} ${y + 3}l12 -5`).join("") }))
  );
}

// script/loops.js
var take5 = (fit2) => fit2 && cureOf(fit2.edits.length ? { ...fit2, text: "Take " + fit2.text } : fit2, "take");
function spun(told6) {
  const some = told6.loops.length > 0 || told6.own_loop;
  return make(
    "div.answers",
    {},
    some ? make("p", {}, told6.loops.length ? `${told6.loops.length} of ${told6.considered} loops close, the best first.` : `None of ${told6.considered} loops closes.`) : make("p", {}, "No display stand is in this shot: nothing has to be paired."),
    told6.own_loop ? part4("The loop as it is", [found(told6.own_loop)]) : null,
    told6.loops.length ? part4("Loops that close", told6.loops.map((l, i) => found(l, told6.take[i]))) : null,
    told6.offers.length ? make("section", {}, make("h3", {}, "What would do"), curesOf(told6.offers, "spin")) : null,
    told6.tables.length ? part4("Turntables", told6.tables.map((t) => make("li", {}, `${t.name}: ${t.turns} turn a round, ${number(t.degrees_a_second, 2)} deg/s, ${t.steps_a_round} steps; whole steps after ${t.rounds_to_whole_steps} ${t.rounds_to_whole_steps === 1 ? "round" : "rounds"}; run-up ${t.run_up_frames} and run-out ${t.run_out_frames} frames`))) : null
  );
}
function found(l, fit2) {
  return make(
    "li",
    {},
    make(
      "p",
      {},
      make("span.mark", { role: "img", "aria-label": l.closes ? "closes" : "does not close" }, MARKS[l.closes ? "good" : "bad"].sign),
      make("b", {}, ` ${l.timeline_frames} frames`),
      `, ${shown3(l.screen_seconds)}${l.closes && !l.closes_for_sure ? "; it may miss by what the stopwatch leaves open" : ""}`
    ),
    l.seams.map((s) => make("p.text", {}, `${s.stand} on ${s.speed}: off by ${number(s.error_degrees, 3)} deg${off2(s.error_mm, "mm")}${off2(s.error_pixels, "px")}; allowed ${number(s.bound_degrees, 3)} deg; ${seenAfter(s.rounds_until_it_shows)}`)),
    take5(fit2 ?? null)
  );
}
var seenAfter = (rounds) => rounds === null ? "never seen" : `seen after ${rounds} ${rounds === 1 ? "round" : "rounds"}`;
var off2 = (value, unit) => typeof value === "number" ? `, ${number(value, 2)} ${unit}` : "";
function fitted(told6) {
  const choice = (name2, f, fit2) => f && make("li", {}, make("p", {}, make("b", {}, name2), `: ${f.timeline_frames} frames, ${shown3(f.screen_seconds)}${f.law ? ", law " + f.law : ""}`), take5(fit2));
  const held7 = Object.entries(told6.held_back ?? {}).map(([what, n]) => `${what} (${n})`).join(", ");
  return make(
    "div.answers",
    {},
    make("p", {}, `${told6.tried} loops of ${told6.between[0]} to ${told6.between[1]} frames were tried${held7 ? "; held back by " + held7 : ""}.`),
    told6.quickest || told6.gentlest ? make("ul.found", {}, choice("The quickest", told6.quickest, told6.take_quickest), choice("The gentlest", told6.gentlest, told6.take_gentlest)) : make("p", {}, "None keeps the picture and the rig's limits.")
  );
}

// script/answers.js
var ASKED = {
  spin: { name: "loops that close", ofText: true, ask: async (signal) => spun(await ask("spin", { text: shot.text }, signal)) },
  cues: { name: "the cues", ofText: true, ask: async (signal) => make("pre", { tabindex: "0" }, (await ask("cues", { text: shot.text }, signal)).text) },
  fit: { name: "the quickest loop", ofText: true, ask: async (signal) => fitted(await ask("fit", { text: shot.text }, signal)) },
  sequence: { name: "the sequence", ofText: false, ask: async (signal) => sequenced(await ask("sequence", { file: at("sequence-file").value.trim() }, signal)) }
};
var names2 = (
  /** @type {Asked[]} */
  Object.keys(ASKED)
);
var AGAIN = "The shot has changed since. Ask again.";
var under4 = /* @__PURE__ */ new Map();
for (const name2 of names2) at(`ask-${name2}`).addEventListener("click", () => answer(name2));
async function answer(name2) {
  const out = at(`answer-${name2}`);
  under4.get(name2)?.own.abort();
  const question = { own: new AbortController(), text: ASKED[name2].ofText ? shot.text : null };
  under4.set(name2, question);
  drawnFromNothing(out);
  out.setAttribute("aria-busy", "true");
  out.replaceChildren(make("p", {}, "Working it out…"));
  let told6;
  try {
    told6 = await working(ASKED[name2].name, ASKED[name2].ask, question.own.signal);
    if (under4.get(name2) === question && question.text !== null) drawnFrom(out, { step: 0, text: question.text, words: AGAIN });
  } catch (err) {
    told6 = givenUp(err) ? make("p", {}, question.text === null || question.text === shot.text ? "Given up." : AGAIN) : make("p.bad", {}, make("span.mark", { "aria-hidden": "true" }, MARKS.bad.sign), " ", refusal(err).words);
  }
  if (under4.get(name2) !== question) return;
  under4.delete(name2);
  out.replaceChildren(told6);
  out.removeAttribute("aria-busy");
}
on("text", () => {
  for (const { own: own3, text } of under4.values()) if (text !== null && text !== shot.text) own3.abort();
});

// script/deliver.js
var FORMS = [
  ["frames", "Frames", "a row a captured frame: where each axis is, for edit and rig"],
  ["steps", "Steps", "a row a motor step, for a board that plays steps"],
  ["ticks", "Ticks", "steps at a fixed beat, for a board that counts"],
  ["gcode", "G-code", "for a controller that reads RS-274/NGC"],
  ["picture", "Picture", "smear, focus and clearance of each frame"],
  ["selects", "Selects", "which frames of each kept take to use"],
  ["otio", "Timeline", "the same in OpenTimelineIO"],
  ["gltf", "Scene", "camera and turntable as binary glTF"],
  ["motion", "Motion", "every axis and the lens at each frame, JSON"],
  ["json", "Report", "the whole report, JSON"]
];
at("forms").append(...FORMS.map(([form, name2, help]) => make("li", {}, button(name2, () => download(form), { id: "export-" + form, "aria-describedby": "export-help-" + form }), make("small", { id: "export-help-" + form }, help))));
var download = (form) => fetchFile("export", { text: shot.text, form });
async function fetchFile(question, more3) {
  try {
    const { name: name2, blob } = await working("the file", (signal) => askFile(question, more3, signal));
    const a = make("a", { href: URL.createObjectURL(blob), download: name2 });
    a.click();
    setTimeout(() => URL.revokeObjectURL(a.href), 1e4);
    say(`Downloaded ${name2}.`);
  } catch (err) {
    sayError(err);
  }
}
at("make").addEventListener("click", async () => {
  const out = at("made");
  words(out, "Writing…");
  at("make").disabled = true;
  try {
    const question = { text: shot.text, folder: at("make-folder").value.trim() };
    const answer2 = await working("the folder", (signal) => ask("make", question, signal));
    words(out, answer2.text);
    say(`Made the folder ${answer2.folder}.`);
  } catch (err) {
    words(out, "");
    sayError(err);
  }
  at("make").disabled = false;
});

// script/byhand.js
var RENEW = 60;
var axis2 = at("byhand-axis");
var speed2 = at("byhand-speed");
var holds = [[at("hold-less"), -1, "ArrowLeft"], [at("hold-more"), 1, "ArrowRight"]];
var presses = 0;
var held4 = null;
var chosen2 = () => Math.max(axis2.selectedIndex, 0);
function hold3(way3, by) {
  if (held4 || at("byhand").hidden) return;
  const now2 = { by, press: ++presses, axis: chosen2(), speed: way3 * rig.axes[chosen2()].speeds[speed2.selectedIndex], timer: 0, asking: false };
  held4 = now2;
  now2.timer = setInterval(() => void renew(now2), RENEW);
  void renew(now2);
}
async function renew(now2) {
  if (now2.asking) return;
  now2.asking = true;
  const { press, axis: axis3, speed: speed3 } = now2;
  const answer2 = await want("jog-hold", { press, axis: axis3, speed: speed3 });
  now2.asking = false;
  if (!answer2?.ok) letGo2(now2);
}
function letGo2(now2 = held4) {
  if (!now2 || now2 !== held4) return;
  clearInterval(now2.timer);
  held4 = null;
  void want("jog-release", { press: now2.press });
}
for (const [button2, way3, key] of holds) {
  button2.addEventListener("pointerdown", (e) => {
    if (e.button !== 0) return;
    button2.setPointerCapture(e.pointerId);
    hold3(way3, button2);
  });
  for (const kind of ["pointerup", "pointercancel", "lostpointercapture", "blur"]) button2.addEventListener(kind, () => held4?.by === button2 && letGo2());
  button2.addEventListener("contextmenu", (e) => e.preventDefault());
  button2.setAttribute("aria-keyshortcuts", key);
}
var way = (e) => holds.find(([, , key]) => key === e.key)?.[1];
at("holds").addEventListener("keydown", (e) => {
  const to = way(e);
  if (!to) return;
  e.preventDefault();
  if (!e.repeat) hold3(to, e.target);
});
at("holds").addEventListener("keyup", (e) => way(e) && letGo2());
for (const kind of ["blur", "pagehide"]) addEventListener(kind, () => letGo2());
document.addEventListener("visibilitychange", () => document.hidden && letGo2());
var option = (text) => make("option", {}, text);
function speeds() {
  const { name: name2, unit, speeds: speeds2, rests } = rig.axes[chosen2()];
  fill(speed2, name2 + speeds2.join(), () => speeds2.map((v, n) => option(`${number(v, 1)} ${unit}/s, goes on up to ${number(rests[n], 2)} ${unit}`)));
}
axis2.addEventListener("change", speeds);
function heldWords(held7, of2) {
  const where2 = !held7.moving && rig.pos.length > held7.axis ? `, at ${number(rig.pos[held7.axis], 2)} ${of2.unit}` : "";
  return `${of2.name} ${held7.moving ? "moves" : "rests"}, ${number(held7.gone, 2)} ${of2.unit} gone${where2}`;
}
on("drive", () => {
  words(at("held-words"), rig?.held ? heldWords(rig.held, rig.axes[rig.held.axis]) : "");
  Object.assign(at("held-words").dataset, { moving: Boolean(rig?.held?.moving), after: rig?.held?.after ?? "" });
  const can = Boolean(rig?.open && mine() && rig.takes.includes("jog-hold"));
  at("byhand").hidden = !can;
  if (!can) return letGo2();
  fill(axis2, rig.axes.map((a) => a.name).join(), () => rig.axes.map((a) => option(a.name)));
  speeds();
});

// script/marking.js
async function ofPlan(request, more3) {
  const answer2 = await want(request, { text: shot.text, ...more3 });
  if (answer2?.anew) say("The shot has changed since, and is planned anew; look at what is said, and ask again.", "fair");
}
var frame = () => frameOf(playhead.frame) % (shot.view?.frames ?? 1);
at("go-frame").addEventListener("click", () => void ofPlan("pose", { frame: frame() }));
at("walk").addEventListener("click", () => void ofPlan("walk"));
follow(() => words(at("go-frame"), `Go to frame ${frame()}, under the playhead`));
var marked = 0;
function show9() {
  const can = Boolean(rig?.open && mine() && rig.takes.includes("mark"));
  at("showing").hidden = !can;
  if (can) places();
  const fresh3 = rig?.marks?.slice(marked) ?? [];
  marked = rig?.marks?.length ?? 0;
  if (mine()) fresh3.forEach(take6);
}
function places() {
  const axis3 = chosen2(), { name: name2 } = rig.axes[axis3];
  const list4 = shot.view?.axes.find((a) => a.name === name2)?.places ?? [];
  fill(at("mark-places"), JSON.stringify([name2, list4]), () => list4.map((p) => button(
    `${p.name}, now ${p.now}`,
    () => void want("mark", { axis: axis3, name: p.name, text: shot.text }),
    { "data-place": p.name, title: p.means }
  )));
  at("mark-places").setAttribute("aria-label", `Mark where ${name2} stands as`);
}
function take6(mark3) {
  if (mark3.wrong.length === 0) return void set2(mark3);
  const away2 = () => {
    at("mark-asks").replaceChildren();
    at("showing").scrollIntoView();
  };
  const leave2 = button("Leave the shot as it is", away2, { id: "mark-leave" });
  at("mark-asks").replaceChildren(
    make("p", {}, `With ${mark3.path} = ${mark3.value} the rig cannot run the plan:`),
    make("ul", {}, mark3.wrong.map((w) => make("li", {}, w)), mark3.fits.map((f) => make("li.fit-words", {}, f))),
    make("div.pair", {}, leave2, button("Set it all the same", () => (away2(), void set2(mark3)), { id: "mark-set" }))
  );
  leave2.focus({ preventScroll: true });
  at("mark-asks").scrollIntoView();
}
async function set2({ path: path2, value, over: over5 }) {
  await change([{ path: path2, value }], { label: "a place marked on the rig" });
  if (over5) say(`${path2} now stands in the shot, over what ${over5} says.`);
}
on("drive", show9);
on("view", () => rig && show9());
at("byhand-axis").addEventListener("change", show9);

// script/drive.js
var WORDS = {
  home: "Find the switches",
  here: "All axes stand at the start",
  unlock: "Unlock",
  go: "Go to the start",
  confirm: "Arm: all clear, count in",
  decline: "Not yet",
  finish: "End after this round",
  taken: "Frame taken",
  resume: "Go on",
  restart: "From the start again, as another take",
  quit: "Let go of the rig"
};
function ports() {
  const list4 = [["virtual", "a rig made of software"], ...shot.start.ports.map((p) => [p.name, [p.name, p.about].filter(Boolean).join(", ")])];
  at("port").replaceChildren(...list4.map(([value, text]) => make("option", { value }, text)));
}
on("start", ports);
at("drive-open").addEventListener("click", () => {
  void open(at("port").value, {
    fast: at("fast").checked,
    countIn: Number(at("count-in").value) || 0,
    endless: at("endless").checked && !shot.view?.byFrame,
    keepWire: at("keep-wire").checked,
    group: at("group").value.trim(),
    pass: at("pass").value.trim(),
    goOn: Boolean(shot.view?.byFrame) && at("go-on").checked
  });
});
at("wire-get").addEventListener("click", () => void fetchFile("drive/wire", {}));
var asks = new Map(Object.entries(WORDS).map(([request, text]) => [request, button(text, () => ask2(request), { id: "drive-" + request })]));
at("drive-asks").append(...asks.values());
var ask2 = (request) => void (request === "go" ? ofPlan("go") : want(request));
on("view", () => {
  const steps = shot.view?.byHand ?? [];
  at("drive-by-hand").hidden = steps.length === 0;
  at("drive-setup").hidden = Boolean(rig?.open) || steps.length > 0;
  at("rig-read").hidden = at("drive-setup").hidden;
  at("sync-words").hidden = !shot.view?.syncMark;
  rows2();
  at("presses").replaceChildren(...steps.map((step2) => make("li", {}, step2)));
  at("press-cautions").replaceChildren(...(shot.view?.cautions ?? []).map((caution) => make("li", {}, caution)));
});
function rows2() {
  at("go-on-row").hidden = !shot.view?.byFrame;
  at("endless-row").hidden = Boolean(shot.view?.byFrame);
}
var held5 = "";
on("drive", () => {
  const open6 = Boolean(rig?.open);
  document.body.classList.toggle("driving", open6);
  document.body.classList.toggle("moving", moving());
  at("drive-setup").hidden = open6 || !at("drive-by-hand").hidden;
  rows2();
  at("rig-read").hidden = at("drive-setup").hidden;
  at("drive-run").hidden = !rig || !open6 && !rig.ended;
  at("wire").hidden = !rig?.wire;
  if (rig) show10(open6);
  const holds2 = open6 && mine() ? rig.state === "cautions" ? "cautions" : "else" : "";
  if (holds2 && holds2 !== held5) at("drive-run").scrollIntoView();
  held5 = holds2;
});
function show10(open6) {
  words(at("drive-state"), rig.state);
  words(at("drive-where"), open6 ? `${rig.where === "virtual" ? "a rig made of software" : rig.where}${mine() ? "" : ", driven by another page"}` : rig.ended ?? "");
  at("drive-lost").hidden = !rig.lost;
  for (const [request, b] of asks) b.hidden = !(open6 && mine() && rig.takes.includes(request));
  const armed = rig.state === "cautions";
  at("cautions").hidden = rig.cautions.length === 0;
  unfold(open6, armed);
  fill(at("caution-list"), rig.cautions.join("\n"), () => rig.cautions.map((c) => make("li", {}, c)));
  fill(at("readback"), JSON.stringify(rig.readback), () => rig.readback.map((r) => make(
    "tr",
    {},
    make("td", {}, r.axis),
    make("td", {}, r.what),
    make("td", {}, r.wanted),
    make("td", {}, r.compared ? "● the same" : r.setting ? "○ not read yet" : "○ not asked")
  )));
  at("readback-table").hidden = rig.readback.length === 0;
  words(at("count"), rig.count > 0 ? String(rig.count) : "");
  at("count").hidden = !(rig.count > 0);
  fill(at("said"), JSON.stringify(rig.said), () => rig.said.map((s) => make("p", {}, s.text)));
  at("said").scrollTop = at("said").scrollHeight;
  fill(at("passes"), JSON.stringify(rig.passes), () => rig.passes.map((p) => make("li", {}, `${rig.where === "virtual" ? "virtual take" : "take"} ${p.take}: ${p.end}, ${extent(p)}${p.lasted ? `, ${p.lasted.toFixed(3)} s (planned ${p.planned.toFixed(3)} s)` : ""}${p.detail ? "; " + p.detail : ""}`)));
  if (passes !== rig.passes.length) passes = rig.passes.length, void showTakes();
  live2();
}
var unread = true;
var unfolded = false;
function unfold(open6, armed) {
  unread = !open6 || unread && (armed || !at("cautions").classList.contains("now"));
  const now2 = open6 && (armed || unread);
  if (now2 !== unfolded) at("cautions").open = unfolded = now2;
  at("cautions").classList.toggle("now", armed);
}
var passes = 0;
var wasRunning = false;
var ON_FRAMES = /* @__PURE__ */ new Set(["running", "waiting for the hand", "held"]);
function framesWords() {
  const call = rig.state === "waiting for the hand" && rig.calls.length ? `take ${rig.calls.at(-1)?.text}` : `next is frame ${rig.frame}`;
  const next3 = rig.taken < rig.of ? `; ${call}, ${rig.timecode}` : "";
  return `${rig.taken} of ${rig.of} frames taken${next3}${rig.left > 0 ? `; ${Math.ceil(rig.left / 60)} min left` : ""}`;
}
function live2() {
  const running = rig.state === "running";
  if (running && !wasRunning) pause();
  wasRunning = running;
  words(at("drive-round"), rig.of > 0 && ON_FRAMES.has(rig.state) ? framesWords() : running ? rig.round < 0 ? "run-up" : `round ${rig.round + 1}, frame ${rig.frame}, ${rig.timecode}` : "");
  fill(at("live"), rig.axes.map((a) => a.name).join(), () => rig.axes.map((a, i) => make("tr", { "data-axis": i }, make("th", { scope: "row" }, a.name), make("td", {}), make("td", {}), make("td", {}))));
  const { seen: seen3 } = rig;
  rig.axes.forEach((a, i) => {
    const cells = at("live").children[i].children;
    const put4 = (n, list4, places2) => words(cells[n], list4 && list4.length > i ? `${number(list4[i], places2)} ${a.unit}` : "–");
    put4(1, seen3?.at ?? rig.pos, 2);
    put4(2, seen3?.plan, 2);
    put4(3, seen3?.off, 3);
  });
  words(at("live-source"), seen3 ? `${seen3.reported ? "as the controller reported" : "as worked out from what was answered"}, all of one instant${seen3.round >= 0 ? `, frame ${seen3.frame.toFixed(1)}` : ""}` : "");
  at("buffer").value = rig.buffer;
  follow2();
}
var followed = (
  /** @type {number | null} */
  null
);
function follow2() {
  const where2 = onCurve(rig, shot.view?.plan)?.frame ?? null;
  if (where2 !== null && where2 !== followed && !playhead.playing) goTo(where2);
  followed = where2;
}

// script/rigread.js
var typed2 = (word) => /^[\w./:-]+$/.test(word) ? word : `'${word.replaceAll("'", "'\\''")}'`;
function measuring() {
  const port = at("port").value;
  at("measure").hidden = !shot.start.rigFile;
  words(at("measure-command"), `seamrail measure ${typed2(shot.start.rigFile)} ${port === "virtual" ? "--virtual" : "--port " + typed2(port)}`);
}
on("start", measuring);
at("port").addEventListener("change", measuring);
at("rig-ask").addEventListener("click", async () => {
  at("rig-ask").disabled = true;
  at("rig-offer").hidden = true;
  at("rig-report").classList.add("words");
  words(at("rig-report"), "Asking; at a port that nobody answers at it takes half a minute…");
  try {
    const answer2 = await ask("rig/read", { port: at("port").value, text: shot.text, flags: {} });
    at("rig-report").classList.remove("words");
    words(at("rig-report"), answer2.report);
    at("rig-new-text").value = answer2.text;
    at("rig-offer").hidden = false;
  } catch (err) {
    const { faults, message } = refusal(err);
    words(at("rig-report"), faults.map((f) => f.text).join("\n") || message);
  }
  at("rig-ask").disabled = false;
});
at("rig-save").addEventListener("click", async () => {
  try {
    const { file: file2 } = await ask("rig/new", { file: at("rig-new-file").value.trim(), text: at("rig-new-text").value });
    say(`Saved ${file2}. A shot is on this rig where it says file = "${file2}" under [rig].`);
  } catch (err) {
    sayError(err);
  }
});

// script/sound.js
var WARN = { hz: 1e3, ms: 40 };
var NOW = { hz: 2e3, ms: 80 };
var BEGINS = { hz: 1e3, ms: 80 };
var LOUD = 0.45;
var BEHIND = 0.35;
var FADE = 5e-3;
var KEPT2 = "seamrail-sound";
var PLAIN = "Sound is on.";
var OFF2 = "Sound is off.";
var FRAMES = 2;
var ctx = null;
var here3 = false;
var off3 = localStorage.getItem(KEPT2) === "off";
var fails2 = "";
var wanted = () => !off3 && (mine() || here3);
function wake() {
  if (fails2 || off3) return;
  try {
    ctx ??= new AudioContext({ latencyHint: "interactive" });
    ctx.onstatechange = show11;
    if (ctx.state !== "running") void ctx.resume().then(show11, show11);
  } catch (err) {
    fails2 = refusal(err).message;
  }
  show11();
}
function tone(ctx2, { hz, ms }, loud) {
  const from2 = ctx2.currentTime, to = from2 + ms / 1e3;
  const source = new OscillatorNode(ctx2, { frequency: hz }), gain = new GainNode(ctx2, { gain: loud });
  gain.gain.setValueAtTime(loud, to - FADE);
  gain.gain.linearRampToValueAtTime(0, to);
  source.connect(gain).connect(ctx2.destination);
  source.start(from2);
  source.stop(to);
  return 1e3 * ((ctx2.outputLatency || 0) + (ctx2.baseLatency || 0));
}
var late = 0;
function called(call) {
  if (!wanted() || ctx?.state !== "running") return show11();
  const what = call.left > 0 ? WARN : call.hand ? NOW : BEGINS;
  const out = tone(ctx, what, call.hand ? LOUD : LOUD * BEHIND);
  const after = performance.timeOrigin + performance.now() - call.at;
  late = Math.max(late, after + out);
  Object.assign(at("sound").dataset, { hz: what.hz, began: after.toFixed(1), out: out.toFixed(1), n: call.n });
  show11();
}
function state() {
  if (off3 || !mine() && !here3) return OFF2;
  if (fails2) return `No sound: ${fails2}`;
  if (ctx?.state !== "running") return "No sound yet: the browser wants a click or a key here first.";
  const most = shot.view ? 1e3 * FRAMES / shot.view.captureHz : Infinity;
  return late > most ? `Tones come up to ${Math.ceil(late)} ms late, ${Math.ceil(late * shot.view.captureHz / 1e3)} frames.` : PLAIN;
}
function show11() {
  words(at("sound-words"), state());
  at("sound-words").classList.toggle("plain", [PLAIN, OFF2].includes(state()));
  at("sound").setAttribute("aria-pressed", String(wanted()));
}
at("sound").addEventListener("click", () => {
  off3 = wanted();
  here3 = !off3;
  if (off3) localStorage.setItem(KEPT2, "off");
  else localStorage.removeItem(KEPT2);
  if (off3) void ctx?.suspend();
  wake();
  show11();
});
at("sound-test").addEventListener("click", async () => {
  off3 = false;
  here3 = true;
  wake();
  await ctx?.resume().catch(() => {
  });
  if (ctx?.state === "running") tone(ctx, NOW, LOUD);
  show11();
});
at("drive-open").addEventListener("click", wake);
for (
  const kind of
  /** @type {const} */
  ["pointerdown", "keydown"]
) addEventListener(kind, () => wanted() && ctx?.state !== "running" && wake(), { capture: true });
var was = false;
on("drive", () => {
  if (Boolean(rig?.open) !== was) late = 0;
  was = Boolean(rig?.open);
  show11();
});

// script/calls.js
var LINGERS = 1600;
var big = make("p", {}, make("b", {}), make("span", {}));
var over2 = make("div", { id: "call-over", "aria-hidden": "true", hidden: true }, big);
at("lens").after(over2);
var recent = [];
var away = 0;
on("call", (fresh3) => {
  for (const call of fresh3) called(call);
  const last2 = fresh3[fresh3.length - 1];
  recent = together([...recent, ...fresh3]);
  show12(countOf(recent), [...new Set(recent.map((c) => c.text))].join(" + "));
  const hears = Date.now() - last2.at;
  requestAnimationFrame(() => setTimeout(() => Object.assign(at("strip-call").dataset, { heard: hears.toFixed(1), drawn: (performance.timeOrigin + performance.now() - last2.at).toFixed(1), n: last2.n })));
  clearTimeout(away);
  away = setTimeout(none2, LINGERS);
});
function show12(count3, text) {
  over2.hidden = at("strip-call").hidden = false;
  for (const el of [big, at("strip-call")]) {
    el.classList.toggle("now", count3 === "NOW" || count3 === "GO");
    words(el.children[0], count3);
    words(el.children[1], text);
  }
}
function none2() {
  recent = [];
  over2.hidden = at("strip-call").hidden = true;
}
var COUNTS = /* @__PURE__ */ new Set(["counting in", "running", "waiting for the hand"]);
on("drive", () => rig?.open && COUNTS.has(rig.state) || none2());

// script/film.js
var film2 = {
  id: "",
  // by which it is asked for; "" for none
  name: "",
  doing: (
    /** @type {"" | "coming" | "looking" | "laying"} */
    ""
  ),
  done: 0,
  // bytes that have come, or frames that were looked at
  of: 0,
  // 0 where nobody knows
  wrong: "",
  // why there is nothing to tell
  told: (
    /** @type {Wire.Filmed | null} */
    null
  ),
  text: "",
  // of the shot that it was laid on
  zero: (
    /** @type {number | null} */
    null
  ),
  // the frame of the recording that is taken for frame 0
  round: 0,
  // that is looked at
  accepted: (
    /** @type {Wire.Accepted | null} */
    null
  )
};
var own2 = null;
function lies() {
  const { told: told6, zero, round: round3 } = film2;
  return told6 && zero !== null ? { zero, round: round3, frames: told6.frames, per: told6.round, slower: told6.zero.slower } : null;
}
var giveUp = () => own2?.abort();
async function take7(files) {
  own2?.abort();
  const mine2 = own2 = new AbortController();
  const before2 = film2.name;
  Object.assign(film2, { id: "", name: nameOf(files), doing: "coming", done: 0, of: files.reduce((sum, f) => sum + f.size, 0), wrong: "", told: null, text: "", zero: null, round: 0, accepted: null });
  tell("film");
  if (before2) say(`${film2.name} takes the place of ${before2}.`);
  await until(mine2, async (signal) => {
    const begun = await ask("film/begin", { files: files.map((f) => ({ file: f.name, bytes: f.size })) }, signal);
    Object.assign(film2, { id: begun.film, name: begun.name });
    await send(files, signal);
    await look4(signal);
    await lay(signal);
  });
}
var nameOf = (files) => files.length === 1 ? files[0].name : `${files.length} stills`;
async function layAgain() {
  own2?.abort();
  await until(own2 = new AbortController(), lay);
}
async function until(mine2, f) {
  try {
    await working("the take", f, mine2.signal);
  } catch (err) {
    if (own2 !== mine2) return;
    film2.wrong = givenUp(err) ? "Given up." : refusal(err).words;
  }
  film2.doing = "";
  tell("film");
}
async function send(files, signal) {
  let before2 = 0;
  for (const [part6, file2] of files.entries()) {
    await sendFile(film2.id, part6, file2, (gone4) => (film2.done = before2 + gone4, tell("film")), signal);
    before2 += file2.size;
  }
}
async function look4(signal) {
  Object.assign(film2, { doing: "looking", done: 0, of: 0 });
  tell("film");
  let wrong = "It was not looked through to its end.";
  await lines("film/look", { film: film2.id }, (news) => {
    Object.assign(film2, { done: news.frame, of: news.of });
    wrong = news.looked ? "" : news.error || wrong;
    tell("film");
  }, signal);
  if (wrong) throw new Error(wrong);
}
async function lay(signal) {
  Object.assign(film2, { doing: "laying", wrong: "" });
  tell("film");
  const text = shot.text;
  const told6 = await ask("film/lay", { film: film2.id, text }, signal);
  Object.assign(film2, { told: told6, text, zero: told6.zero.at, round: 0, accepted: null });
}
function putAway() {
  own2?.abort();
  own2 = null;
  if (film2.id) lastWord("film/drop", { film: film2.id });
  Object.assign(film2, { id: "", name: "", doing: "", wrong: "", told: null, text: "", zero: null, accepted: null });
  tell("film");
}
addEventListener("pagehide", (e) => e.persisted || film2.id && lastWord("film/drop", { film: film2.id }));
async function accept(more3) {
  const { frame0: frame02, from: from2, to } = { ...film2.accepted, ...more3 };
  film2.accepted = await ask("film/accept", { film: film2.id, frame0: frame02 ?? null, from: from2 ?? null, to: to ?? null });
  tell("film");
}
async function keep4(number2, trust) {
  const kept3 = await ask("film/keep", { film: film2.id, take: number2, trust });
  void showTakes();
  return kept3;
}

// script/filmdrop.js
var STILL2 = /^[^.].*\.(png|jpe?g|tiff?)$/i;
var ofFiles = (e) => Boolean(e.dataTransfer?.types.includes("Files"));
var sign4 = null;
var asked3 = false;
var over3 = 0;
var sheet = null;
var styled = () => sheet ??= new Promise((there) => {
  const beside4 = (
    /** @type {HTMLLinkElement} */
    document.querySelector('link[href$="style/page.css"]').href
  );
  document.head.append(make("link", { rel: "stylesheet", href: beside4.replace("page.css", "film.css"), onload: there, onerror: there }));
});
async function show13(shown5) {
  asked3 = shown5;
  if (shown5) await styled();
  if (shown5 !== asked3) return;
  if (shown5 && !sign4) document.body.append(sign4 = make("div.drop", { "aria-hidden": "true" }, make("p", {}, "Drop the take here"), make("p.hint", {}, "A film, or all its stills: it is looked through and laid beside the plan.")));
  if (sign4) sign4.hidden = !shown5;
}
function whenDropped(f) {
  addEventListener("dragenter", (e) => ofFiles(e) && (over3++, void show13(true)));
  addEventListener("dragleave", (e) => ofFiles(e) && (over3 = Math.max(over3 - 1, 0)) === 0 && void show13(false));
  addEventListener("dragover", (e) => ofFiles(e) && e.preventDefault());
  addEventListener("drop", (e) => {
    if (!ofFiles(e) || !e.dataTransfer) return;
    e.preventDefault();
    over3 = 0;
    void show13(false);
    void filesOf(e.dataTransfer).then(f, sayError);
  });
  at("film-choose").addEventListener("click", () => at("film-files").click());
  at("film-files").addEventListener("change", () => {
    const files = [...at("film-files").files ?? []];
    at("film-files").value = "";
    if (files.length) f(files);
  });
}
async function filesOf(data) {
  const files = [...data.files];
  const folders = [...data.items].map((i) => i.webkitGetAsEntry?.()).filter((e) => e?.isDirectory);
  if (!folders.length) return files;
  const out = [];
  for (const folder of folders) {
    const reader = (
      /** @type {FileSystemDirectoryEntry} */
      folder.createReader()
    );
    for (let some; (some = await entries(reader)).length; ) for (const e of some) if (e.isFile && STILL2.test(e.name)) out.push(await fileOf(
      /** @type {FileSystemFileEntry} */
      e
    ));
  }
  if (!out.length) throw new Error("There are no stills (PNG, JPEG, TIFF) in what was dropped.");
  return out;
}
var entries = (reader) => new Promise((there, fails3) => reader.readEntries(there, fails3));
var fileOf = (entry) => new Promise((there, fails3) => entry.file(there, fails3));

// script/filmplace.js
var placeIn = ({ zero, round: round3, per, slower }, frame2) => zero + (round3 * per + frame2) * (1 + slower);
var frameIn = (lies2, frame2) => Math.round(placeIn(lies2, frame2));
function planAt({ zero, per, slower }, place, rounds) {
  const all4 = (place - zero) / (1 + slower);
  const round3 = Math.min(Math.max(Math.floor(all4 / per + 1e-9), 0), rounds - 1);
  return { round: round3, frame: Math.min(Math.max(all4 - round3 * per, 0), per - 1) };
}
function missing({ frames: frames2 }, frame2, pictures2) {
  if (frame2 < 0) return `Before the recording: it begins ${-frame2} ${-frame2 === 1 ? "frame" : "frames"} later.`;
  if (frame2 >= frames2) return `After the recording: it ends with frame ${frames2 - 1}.`;
  return frame2 >= pictures2 ? `Of this frame no picture was kept; there are ${pictures2}.` : "";
}
function zeroWords(zero, found2) {
  if (zero === null) return "Nothing tells where frame 0 of the plan is in it.";
  const by = found2.at === null ? NaN : zero - found2.at, moved = Math.round(by);
  if (!(Math.abs(by - moved) < 1e-6)) return `Frame 0 of the plan is frame ${number(zero, 2)} of the film, set by hand.`;
  const sure = found2.sure === null ? "" : ` ± ${sureWords(found2.sure)}`;
  const hand2 = moved ? `, moved by hand by ${moved > 0 ? "+" : "−"}${Math.abs(moved)}` : "";
  return `Frame 0 of the plan is frame ${number(zero, 2)}${sure} of the film${hand2}.`;
}
var sureWords = (sure) => sure < 0.01 ? "under 0.01" : number(sure, 2);
function stretches(told6) {
  const whole4 = told6.asWhole ? [{ from: 0, to: told6.frames - 1, unseen: told6.asWhole.unseen, words: told6.asWhole.last_shows_first_again ? "all of it; seen, since the last frame shows the first again" : told6.asWhole.unseen ? "all of it; the seam is not seen" : "all of it; the seam is seen" }] : [];
  const found2 = told6.loops.map((l) => ({ from: l.from, to: l.to, unseen: l.unseen, words: seamWords(l) }));
  return [...whole4, ...found2].sort((a, b) => Number(b.unseen) - Number(a.unseen));
}
function seamWords(loop2) {
  const others = loop2.as_good_to - loop2.as_good_from;
  if (loop2.unseen) return "the seam is not seen" + (others ? `; as good from any of ${others + 1} frames` : "");
  return loop2.dissolve_frames ? `dissolve over ${loop2.dissolve_frames} frames` : "the seam is seen";
}
function nextWanted(from2, count3, there, ahead, behind3, many) {
  const out = [];
  for (let away2 = 0; away2 <= ahead + behind3 && out.length < many; away2++) {
    const frame2 = away2 <= ahead ? from2 + away2 : from2 - (away2 - ahead);
    if (frame2 >= 0 && frame2 < count3 && !there(frame2)) out.push(frame2);
  }
  return out;
}

// script/filmcurve.js
var HIGH = 130;
var AIR4 = 0.08;
function moving2(panels) {
  const list4 = panels.filter((p) => {
    const [low, high2] = extent3(p);
    return high2 - low > p.least;
  });
  return list4.length ? list4 : panels.slice(0, 1);
}
function extent3({ measured: measured3, planned: planned3 }) {
  const all4 = [...measured3, ...planned3].map((p) => p[1]);
  return all4.length ? [Math.min(...all4), Math.max(...all4)] : [0, 1];
}
function columns({ measured: measured3, planned: planned3 }) {
  const of2 = new Map(measured3), frames2 = [...new Set([...measured3, ...planned3].map((p) => p[0]))].sort((a, b) => a - b), as = new Map(planned3);
  return [frames2, frames2.map((f) => of2.get(f) ?? null), frames2.map((f) => as.get(f) ?? null)];
}
function apart({ measured: measured3, planned: planned3, unit }) {
  const as = new Map(planned3);
  let worst2 = -1, at2 = 0;
  for (const [frame2, value] of measured3) {
    const off4 = Math.abs(value - (as.get(frame2) ?? NaN));
    if (off4 > worst2) worst2 = off4, at2 = frame2;
  }
  return worst2 < 0 ? "" : `at most ${number(worst2, unit === "px" ? 2 : 4)} ${unit} off, at frame ${at2}`;
}
var FilmCurve = class {
  /** @param {Wire.FilmPanel} panel @param {(frame: number) => void} goTo */
  constructor(panel, goTo3) {
    this.plot = make("div.film-plot", { role: "img", "aria-label": `${panel.name}, ${panel.unit}, over the frames of the film: ${apart(panel)}` });
    this.el = make("figure.film-curve", {}, make("figcaption", {}, make("b", {}, panel.name), ` ${panel.unit}`, make("small", {}, apart(panel))), this.plot);
    this.head = make("div.playhead", {});
    this.data = columns(panel);
    this.frames = /** @type {number[]} */
    this.data[0];
    this.at = 0;
    this.panel = panel;
    this.goTo = goTo3;
    this.u = null;
    new ResizeObserver(() => this.fit()).observe(this.plot);
  }
  fit() {
    const width2 = this.plot.clientWidth;
    if (width2 < 1) return;
    if (!this.u) this.build(width2);
    else if (this.u.width !== width2) this.u.setSize({ width: width2, height: HIGH });
    this.follow(this.at);
  }
  /** @param {number} width */
  build(width2) {
    const { ink, faint, font: font2, axes: axes2 } = look();
    const text = { stroke: ink, font: font2, grid: { stroke: faint, width: 1 }, ticks: { stroke: faint, width: 1 } };
    const [low, high2] = extent3(this.panel), air = Math.max((high2 - low) * AIR4, this.panel.least / 2);
    this.u = new uPlot({
      width: width2,
      height: HIGH,
      legend: { show: false },
      cursor: { show: false },
      padding: [8, 6, 0, 0],
      scales: { x: { time: false }, y: { range: [low - air, high2 + air] } },
      axes: [{ ...text, size: 30, space: 60 }, { ...text, size: 54, space: 28 }],
      series: [{}, { stroke: ink, width: 0, points: { show: true, size: 6, fill: ink, stroke: ink, width: 0 }, paths: () => null }, { stroke: axes2[0].stroke, width: 2, points: { show: false } }],
      hooks: { setSize: [() => this.follow(this.at)] }
    }, this.data, this.plot);
    this.u.over.append(this.head);
    this.u.over.addEventListener("click", (e) => this.u && this.goTo(this.u.posToVal(e.offsetX, "x")));
  }
  /** Has the playhead at a place in the recording. @param {number} place */
  follow(place) {
    this.at = place;
    if (!this.u) return;
    this.head.hidden = place < this.frames[0] || place > this.frames[this.frames.length - 1];
    this.head.style.transform = `translateX(${this.u.valToPos(place, "x")}px)`;
  }
  close() {
    this.u?.destroy();
    this.el.remove();
  }
};

// script/filmseam.js
var BEAT = 500;
var addresses = [];
var beating = 0;
function seams(told6) {
  const list4 = stretches(told6);
  const shown5 = make("div.film-seam", { role: "group", "aria-label": "The seam", hidden: true });
  let chosen3 = -1;
  const rows3 = list4.map((l, n) => button("", () => choose2(n), { "aria-pressed": "false", class: "film-loop " + (l.unseen ? "good" : "fair") }));
  const choose2 = (n) => {
    chosen3 = chosen3 === n ? -1 : n;
    for (const [i, r] of rows3.entries()) r.setAttribute("aria-pressed", String(i === chosen3));
    shown5.hidden = chosen3 < 0;
    if (chosen3 >= 0) void show14(shown5, list4[n], told6);
  };
  for (const [n, r] of rows3.entries()) {
    const { from: from2, to, words: said3, unseen } = list4[n];
    r.append(make("span.mark", { "aria-hidden": "true" }, unseen ? "●" : "△"), make("span", {}, make("b", {}, `frames ${from2} to ${to}`), `, ${to - from2 + 1} frames: ${said3}`));
  }
  const none4 = make("p.hint", {}, "None: a loop takes a frame more than a round, in which it comes back to where it began.");
  return make("section.film-part", {}, make("h3", {}, "Loops in it, the best first"), list4.length ? make("ul", {}, ...rows3.map((r) => make("li", {}, r))) : none4, shown5);
}
async function show14(into, { from: from2, to }, told6) {
  const next3 = to + 1 < told6.frames ? to + 1 : to;
  const [last2, first, instead] = [`Frame ${to}, the last of the loop`, `Frame ${from2}, which follows it`, `Frame ${next3}`].map((alt) => make("img", { alt }));
  const what = make("figcaption", {}, `${from2}, its first again`);
  const turn2 = (other) => {
    instead.hidden = !other;
    first.hidden = other;
    words(what, other ? next3 === to ? `${to}, the last` : `${next3}, as it went on` : `${from2}, its first again`);
  };
  turn2(false);
  const flickers = button("Flicker", () => flicker(flickers, turn2), { "aria-pressed": "false", title: "The first frame and the one whose place it takes, in turn" });
  into.replaceChildren(
    make("div.sides", {}, make("figure", {}, last2, make("figcaption", {}, `${to}, the last`)), make("figure", {}, first, instead, what)),
    make("div.pair", {}, flickers, button("Accept this loop", () => void accept({ from: from2, to }).catch(sayError), { class: "strong" }))
  );
  still();
  const to3 = [last2, first, instead];
  try {
    await pictures("film/pictures", { film: film2.id, frames: [to, from2, next3] }, (data, i) => {
      const address = URL.createObjectURL(new Blob([
        /** @type {BlobPart} */
        data
      ], { type: "image/jpeg" }));
      addresses.push(address);
      to3[i].src = address;
    });
  } catch (err) {
    sayError(err);
  }
}
function flicker(by, turn2) {
  const on4 = by.getAttribute("aria-pressed") !== "true";
  by.setAttribute("aria-pressed", String(on4));
  clearInterval(beating);
  beating = 0;
  turn2(on4);
  if (!on4 || matchMedia("(prefers-reduced-motion: reduce)").matches) return;
  let other = true;
  beating = setInterval(() => turn2(other = !other), BEAT);
}
function still() {
  clearInterval(beating);
  beating = 0;
  for (const a of addresses) URL.revokeObjectURL(a);
  addresses = [];
}

// script/filmseen.js
var MOST3 = 24e6;
var AHEAD2 = 240;
var BEHIND2 = 60;
var TURN2 = 40;
var UNPACK = 3;
var WIDE4 = 480;
var part5 = at("seen");
var box = (
  /** @type {HTMLElement} */
  part5.querySelector(".frame")
);
var made4 = null;
var held6 = null;
var under5 = null;
var over4 = false;
var shown4 = null;
function build() {
  const canvas3 = make("canvas", { id: "film", width: "480", height: "270", role: "img", "aria-label": "What the camera saw at this instant" });
  const none4 = make("p.none-words.film-none", { hidden: true });
  const how = make("span", {}, "As filmed"), which = make("output", { "aria-label": "Frame of the film", "aria-live": "off" });
  const all4 = make("span.of", {});
  const tag = make("p.film-tag", {}, how, " ", which, all4);
  const beside4 = button("Beside", () => lay2(false), { "aria-pressed": "true", title: "The film beside what the lens was to see" });
  const above = button("Over", () => lay2(true), { "aria-pressed": "false", title: "The film over what the lens was to see" });
  const mix = make("input", { type: "range", id: "film-mix", min: "0", max: "100", step: "5", value: "50", "aria-label": "How much of the film over the plan, in per cent" });
  const round3 = make("select", { id: "film-round", "aria-label": "Round of the take that is seen" });
  const label = make("label.film-mix", { hidden: true }, "Plan ", mix, " Film");
  const bar3 = make(
    "div.film-bar",
    { role: "group", "aria-label": "The film and the plan" },
    make("span.joined", {}, beside4, above),
    label,
    round3
  );
  mix.addEventListener("input", paint2);
  round3.addEventListener("change", () => (film2.round = Number(round3.value), paint2()));
  box.append(canvas3, none4, tag);
  box.after(bar3);
  return { canvas: canvas3, none: none4, tag, how, which, all: all4, beside: beside4, above, label, mix, round: round3, bar: bar3 };
}
function lay2(is) {
  over4 = is;
  shown4 = null;
  paint2();
}
function begin2() {
  const { told: told6 } = film2;
  if (!told6 && !made4) return;
  made4 ??= build();
  part5.classList.toggle("has-film", Boolean(told6));
  for (const el of [made4.canvas, made4.tag, made4.bar]) el.hidden = !told6;
  if (held6?.id !== film2.id || !told6) close();
  if (!told6) return void (made4.none.hidden = true);
  if (!held6) {
    const frames2 = new Frames(told6.frames, MOST3);
    held6 = { id: film2.id, frames: frames2, bitmaps: new Bitmaps(frames2, paint2) };
  }
  const rounds = Array.from({ length: told6.rounds }, (_2, n) => make("option", { value: String(n) }, `Round ${n + 1}`));
  if (made4.round.options.length !== rounds.length) made4.round.replaceChildren(...rounds);
  made4.round.value = String(film2.round);
  made4.round.hidden = rounds.length < 2;
  shown4 = null;
  paint2();
}
function close() {
  under5?.abort();
  held6?.bitmaps.close();
  under5 = held6 = shown4 = null;
}
function paint2() {
  if (!made4 || !film2.told) return;
  mixed(made4);
  const how = lies();
  if (!how) return none3("Nothing tells where frame 0 is in the film. Set it in the bench, and it is seen here.");
  const frame2 = frameIn(how, frameOf(playhead.frame));
  const why = missing(how, frame2, film2.told.pictures);
  none3(why);
  if (why) return;
  want2(frame2);
  if (playhead.playing) {
    for (let k = 1; k <= UNPACK; k++) if (held6?.frames.held.has(frame2 + k)) held6.bitmaps.get(frame2 + k);
  }
  const bitmap = held6?.bitmaps.get(frame2);
  if (!bitmap) return;
  show15(made4.canvas, bitmap);
  made4.canvas.dataset.shows = String(frame2);
  words(made4.which, `frame ${frame2}`);
  words(made4.all, ` of ${how.frames}`);
}
function mixed({ canvas: canvas3, none: none4, beside: beside4, above, label, mix, how }) {
  part5.classList.toggle("film-over", over4);
  beside4.setAttribute("aria-pressed", String(!over4));
  above.setAttribute("aria-pressed", String(over4));
  label.hidden = !over4;
  canvas3.style.opacity = over4 ? String(mix.valueAsNumber / 100) : "1";
  mix.setAttribute("aria-valuetext", `${mix.value} % film`);
  words(how, over4 ? "Film over it," : "As filmed,");
  none4.classList.toggle("over-it", over4);
}
function none3(why) {
  if (!made4) return;
  made4.none.hidden = why === "";
  words(made4.none, why);
  made4.canvas.classList.toggle("none", why !== "");
  if (why) words(made4.which, "no picture"), words(made4.all, ""), delete made4.canvas.dataset.shows;
}
function show15(canvas3, bitmap) {
  const { width: width2, height } = over4 ? at("lens") : bitmap;
  if (bitmap === shown4 && canvas3.width === width2 && canvas3.height === height) return;
  if (canvas3.width !== width2 || canvas3.height !== height) Object.assign(canvas3, { width: width2, height });
  const high2 = width2 * bitmap.height / bitmap.width;
  const on4 = canvas3.getContext("2d");
  on4?.clearRect(0, 0, width2, height);
  on4?.drawImage(bitmap, 0, (height - high2) / 2, width2, high2);
  shown4 = bitmap;
}
function want2(from2) {
  const of2 = held6;
  if (under5 || !of2 || !film2.told) return;
  const frames2 = nextWanted(from2, film2.told.pictures, (k) => of2.frames.held.has(k), AHEAD2, BEHIND2, TURN2);
  if (!frames2.length) return;
  const mine2 = under5 = new AbortController();
  void pictures("film/pictures", { film: of2.id, frames: frames2 }, (data, i) => {
    of2.frames.put(frames2[i], { wide: WIDE4, data });
    if (i === 0) paint2();
  }, mine2.signal).then(() => true, (err) => (givenUp(err) || sayError(err), false)).then((came3) => {
    if (under5 !== mine2) return;
    under5 = null;
    if (came3) paint2();
  });
}
on("film", () => film2.told && film2.doing || begin2());
follow(paint2);

// script/filmbench.js
var curves = [];
var drawn2 = null;
var anew2 = [];
whenDropped((files) => {
  at("tab-film").click();
  void styled().then(() => take7(files));
});
at("film-give-up").addEventListener("click", giveUp);
at("film-away").addEventListener("click", () => {
  putAway();
  at("film-choose").focus();
});
var DOES2 = { coming: "is read", looking: "is looked through", laying: "is laid on the plan", "": "" };
function far() {
  const { doing, done: done2, of: of2, wrong, name: name2, told: told6 } = film2;
  at("film-under-way").hidden = !doing;
  const bar3 = at("film-bar");
  if (of2 > 0 && doing !== "laying") bar3.value = done2 / of2;
  else bar3.removeAttribute("value");
  words(at("film-far"), doing === "looking" ? `frame ${done2}${of2 ? ` of ${of2}` : ""}` : doing === "coming" ? `${Math.round(done2 / 1e6)} of ${Math.max(Math.round(of2 / 1e6), 1)} MB` : "");
  words(at("film-said"), doing ? `${name2} ${DOES2[doing]}.` : wrong ? `${name2}: ${wrong}`.replace(`${name2}: ${name2}`, name2) : told6 ? told6.name : "");
  words(at("film-heard"), !doing && told6 ? `${told6.stamp}: ${told6.words}` : "");
  at("film-said").classList.toggle("wrong", Boolean(!doing && wrong));
  at("film-hint").hidden = Boolean(name2);
  at("film-away").hidden = !name2 || Boolean(doing);
  words(at("film-choose"), name2 ? "Choose another" : "Choose a film or stills");
}
on("film", () => {
  far();
  if (film2.told !== drawn2) draw5(film2.told);
  for (const f of anew2) f();
  move2();
});
on("text", () => {
  for (const f of anew2) f();
});
function draw5(told6) {
  drawn2 = told6;
  for (const c of curves) c.close();
  curves = told6 ? moving2(told6.panels).map((p) => new FilmCurve(p, goToPlace)) : [];
  anew2 = [];
  still();
  const out = at("film-told");
  out.hidden = !told6;
  out.replaceChildren(...told6 ? [verdict(told6), frame0(told6), measured2(told6), seams(told6), accepted(), all3(told6)] : []);
  at("bench-film").scrollTop = 0;
  if (told6) drawnFrom(out, { step: 0, text: film2.text, words: "The shot has changed since." });
  else drawnFromNothing(out);
}
function verdict({ level, stamp: stamp2, words: said3, plan, pace, cramped }) {
  const causes = (plan?.causes ?? []).map((c) => make("li", {}, c.text, " ", c.frame === null ? null : show16(c.frame)));
  const why = [...plan?.why_not_known ?? [], ...pace?.sentences ?? [], ...cramped ? [cramped] : []].map((w) => make("li", {}, w));
  const from2 = plan?.differs_from_frame ?? null;
  const again2 = button("Lay it on the shot as it is now", () => void layAgain(), { hidden: true });
  anew2.push(() => again2.hidden = shot.text === film2.text);
  return make(
    "section.film-verdict." + level,
    { "aria-label": "Is it the plan?" },
    make("p", {}, make("span.mark", { "aria-hidden": "true" }, MARKS[level].sign), " ", make("b", {}, stamp2), " ", make("span", {}, said3)),
    from2 === null ? null : make("p", {}, "It differs from ", toFrame(from2), " of the film on."),
    causes.length ? make("div", {}, make("h3", {}, "What most likely did it, by a model"), make("ul.points", {}, ...causes)) : null,
    why.length ? make("ul.points", {}, ...why) : null,
    again2
  );
}
var toFrame = (frame2) => button(`frame ${Math.round(frame2)}`, () => goToPlace(frame2), { class: "when" });
var show16 = (frame2) => button("show", () => goToPlace(frame2), { class: "when", "aria-label": `Show frame ${Math.round(frame2)} of the film` });
function goToPlace(place) {
  const how = lies();
  if (!how || !film2.told) return;
  const { round: round3, frame: frame2 } = planAt(how, place, film2.told.rounds);
  pause();
  film2.round = round3;
  goTo(frame2);
  tellRound();
}
function tellRound() {
  const select = (
    /** @type {HTMLSelectElement | null} */
    document.getElementById("film-round")
  );
  if (select) select.value = String(film2.round);
}
function frame0({ zero }) {
  const said3 = make("p", { role: "status" });
  const field2 = make("input", { type: "number", step: "any", "aria-label": "Frame 0 of the plan is this frame of the film" });
  const set3 = (to) => {
    if (!Number.isFinite(to)) return;
    film2.zero = to;
    seen2();
  };
  const by = (n) => set3((film2.zero ?? 0) + n);
  field2.addEventListener("change", () => set3(field2.valueAsNumber));
  const takes = button("Accept frame 0", () => void accept({ frame0: film2.zero }).catch(sayError), { id: "film-accept-zero", class: "strong" });
  anew2.push(() => {
    words(said3, zeroWords(film2.zero, zero));
    if (document.activeElement !== field2) field2.value = film2.zero === null ? "" : String(Number(film2.zero.toFixed(2)));
    takes.disabled = film2.zero === null;
  });
  const others = zero.others.map((o) => button(number(o, 2), () => set3(o)));
  return make(
    "section.film-part",
    {},
    make("h3", {}, "Frame 0"),
    said3,
    make("div.pair", {}, button("− 1", () => by(-1), { "aria-label": "Frame 0 a frame earlier", id: "film-less" }), field2, button("+ 1", () => by(1), { "aria-label": "Frame 0 a frame later", id: "film-more" }), takes),
    others.length ? make("p.pair", {}, "It may as well be at ", ...others) : null
  );
}
function seen2() {
  for (const f of anew2) f();
  goTo(playhead.frame);
}
function measured2({ panels }) {
  const small = panels.filter((p) => !curves.some((c) => c.panel === p)).map((p) => p.name);
  return make(
    "section.film-part",
    {},
    make("h3", {}, "Where the picture went, over the plan"),
    make("p.film-key", { "aria-hidden": "true" }, make("span.planned", {}, "planned"), make("span.measured", {}, "measured")),
    ...curves.map((c) => c.el),
    small.length ? make("p.hint", {}, `No motion to speak of: ${small.join(", ")}.`) : null
  );
}
function accepted() {
  const out = make("section.film-part.film-accepted", { "aria-label": "Accepted", hidden: true });
  const said3 = make("p", { role: "status" }), why = make("p.hint", {}), kept3 = make("ul.points", {});
  const which = make("select", { "aria-label": "As which take" });
  const keeps = button("Keep it", () => void keepIt(""), { id: "film-keep", class: "strong" });
  const asked4 = make("p.pair", { hidden: true }, "Which counts? ", button("The picture", () => void keepIt("picture")), button("The sync mark", () => void keepIt("mark")));
  const choice = make("div.pair", {}, make("label", {}, "as take ", which), keeps);
  const copies = button("Copy", () => void navigator.clipboard.writeText(said3.textContent ?? "").then(() => say("Copied."), () => say("The browser does not let it be copied; mark it with the mouse.", "fair")));
  out.append(make("h3", {}, "Accepted"), said3, choice, asked4, why, kept3, copies);
  const keepIt = async (trust) => {
    asked4.hidden = true;
    try {
      const { take: number2, log, words: told6 } = await keep4(Number(which.value), trust);
      words(why, "");
      kept3.replaceChildren(...[`It is take ${number2} in ${log}.`, ...told6].map((w) => make("li", {}, w)));
      say(`Kept as take ${number2}.`);
    } catch (e) {
      asked4.hidden = trust !== "" || !String(e).includes("--trust");
      sayError(e);
    }
  };
  let held7 = null;
  anew2.push(() => {
    const now2 = film2.accepted;
    out.hidden = !now2;
    if (!now2 || now2 === held7) return;
    held7 = now2;
    words(said3, `${now2.film}: ${now2.words}.`);
    which.replaceChildren(...now2.takes.map((n) => make("option", { value: String(n) }, String(n))));
    choice.hidden = !now2.takes.length;
    asked4.hidden = true;
    words(why, now2.takes.length ? "Nothing is written yet. Kept, the log has the file, its timecode, frame 0 and the seam, and the edit is told of them." : `Nothing is written: ${now2.why}.`);
    kept3.replaceChildren();
    out.scrollIntoView({ block: "nearest" });
  });
  return out;
}
var all3 = ({ report, plan }) => make(
  "details",
  {},
  make("summary", {}, "All that it tells"),
  plan?.not_proven.length ? make("ul.points", {}, ...plan.not_proven.map((n) => make("li", {}, n))) : null,
  make("pre", { tabindex: "0", class: "film-report" }, report)
);
function move2() {
  const how = lies();
  if (how) for (const c of curves) c.follow(placeIn(how, frameOf(playhead.frame)));
}
follow(() => drawn2 && move2());

// script/keys.js
var PRESSED = "button, summary, a, [role=tab], input, select";
var FAR = 10;
var DOES3 = (
  /** @type {Map<string, (by: number) => void>} */
  /* @__PURE__ */ new Map([[" ", playOrPause], ["ArrowLeft", (by) => stepBy(-by)], ["ArrowRight", stepBy], ["Home", () => goTo(0)]])
);
addEventListener("keydown", (e) => {
  if (e.ctrlKey || e.metaKey) return command(e);
  const on4 = (
    /** @type {HTMLInputElement} */
    e.target
  );
  if (e.defaultPrevented || e.altKey || on4.closest?.(TYPED)) return;
  if (e.key === " " && on4.closest?.(PRESSED)) return;
  const does = DOES3.get(e.key);
  if (!does || on4.type === "radio" && e.key !== "Home") return;
  e.preventDefault();
  does(e.shiftKey ? FAR : 1);
});
function command(e) {
  const key = e.key.toLowerCase();
  const does = key === "s" ? save : key === "z" && !e.shiftKey ? undo : key === "y" || key === "z" && e.shiftKey ? redo : null;
  if (!does) return;
  e.preventDefault();
  void does();
}
at("undo").addEventListener("click", undo);
at("redo").addEventListener("click", redo);
at("save").addEventListener("click", save);

// script/naming.js
var dialog = at("naming");
var DRIVES = "This page drives a rig, whose takes are logged under the name of the shot. Let go of the rig first.";
var ways = (
  /** @type {const} */
  {
    "save-as": { name: "Save as", go: "Save", words: "The file that is open stays as it is on disk. The new one is open from then on, with a log of takes of its own." },
    rename: { name: "Rename", go: "Rename", words: "The file, its log of takes and what is not saved of it get the name together." }
  }
);
var way2 = (
  /** @type {keyof typeof ways} */
  "rename"
);
var looked = 0;
function open5(which) {
  at("file-more").open = false;
  if (rig?.open && mine()) return say(DRIVES, "fair");
  if (which === "rename" && shot.start.new) return say("There is no file to rename yet; Save writes it.", "fair");
  looked++;
  way2 = which;
  words(at("naming-name"), ways[way2].name);
  words(at("naming-words"), ways[way2].words);
  words(at("naming-go"), ways[way2].go);
  words(at("naming-wrong"), "");
  at("naming-file").value = shot.start.file.replace(/^.*\//, "").replace(/\.toml$/, "");
  at("naming-go").disabled = true;
  dialog.showModal();
  at("naming-file").select();
}
at("naming-file").addEventListener("input", async () => {
  const number2 = ++looked;
  try {
    const { wrong } = await ask("name", { file: at("naming-file").value });
    if (number2 !== looked) return;
    words(at("naming-wrong"), wrong);
    at("naming-go").disabled = wrong !== "";
  } catch (err) {
    if (number2 === looked) words(at("naming-wrong"), refusal(err).message);
  }
});
at("naming-form").addEventListener("submit", async (e) => {
  e.preventDefault();
  looked++;
  at("naming-go").disabled = true;
  const text = shot.text;
  try {
    const moved = await ask(way2, way2 === "rename" ? { file: at("naming-file").value } : { file: at("naming-file").value, text });
    dialog.close();
    if (way2 === "save-as") await letGo();
    take8(moved, text);
  } catch (err) {
    const why = refusal(err);
    if (why.status === 0) sayError(why);
    words(at("naming-wrong"), why.first);
  }
});
function tellFile() {
  const { folder, file: file2 } = shot.start;
  at("file").replaceChildren(make("span.folder", {}, folder + "/"), file2);
}
function take8(moved, text) {
  shot.start.file = moved.file;
  nameShot(moved.file);
  tellFile();
  if (way2 === "save-as") {
    written(text, moved.revision);
    say(`Saved as ${moved.file}, which is open now.`);
  } else {
    shot.revision = moved.revision;
    void renamed();
    tell("disk");
    say(`It is ${moved.file} now${moved.with.length ? `, and its log ${moved.with.join(", ")}` : ""}.`);
  }
  tell("named");
}
at("save-as").addEventListener("click", () => open5("save-as"));
at("rename").addEventListener("click", () => open5("rename"));
at("naming-away").addEventListener("click", () => dialog.close());
at("to-shots").addEventListener("click", (e) => {
  if (!rig?.open || !mine()) return;
  e.preventDefault();
  say("This page drives a rig and has to stay in front. Let go of the rig first, then go to the other shots.", "fair");
});
at("file-more").addEventListener("keydown", (e) => {
  if (e.key !== "Escape") return;
  at("file-more").open = false;
  at("file-more").querySelector("summary")?.focus();
});
document.addEventListener("click", (e) => e.target instanceof Node && !at("file-more").contains(e.target) && (at("file-more").open = false));
addEventListener("beforeunload", (e) => unsaved() && e.preventDefault());

// script/broken.js
var fronted = false;
on("faults", () => {
  document.body.classList.toggle("no-plan", !shot.view);
  if (shot.view) return;
  if (!fronted) at("tab-text").click();
  fronted = true;
});

// script/main.js
on("view", () => {
  words(at("title"), shot.view.title);
  const { timelineFrames, loopScreenSeconds, loopRealSeconds } = shot.view;
  words(at("round-words"), `${timelineFrames} frames, ${loopScreenSeconds.toFixed(3)} s shown, ${loopRealSeconds.toFixed(3)} s on the rig`);
  refresh();
});
on("history", () => {
  for (
    const [id2, label, word] of
    /** @type {const} */
    [["undo", undoes(), "Undo"], ["redo", redoes(), "Redo"]]
  ) {
    at(id2).disabled = label === void 0;
    at(id2).title = label ? `${word}: ${label}` : word;
  }
});
async function begin3() {
  try {
    shot.start = await ask("start");
  } catch (err) {
    document.body.classList.add("no-shot");
    gone(refusal(err).message);
    return;
  }
  nameShot(shot.start.file);
  Object.assign(shot, { text: shot.start.text, saved: shot.start.new ? "" : shot.start.text, revision: shot.start.revision });
  tellFile();
  words(at("rig-text"), shot.start.rigText);
  words(at("rig-file"), shot.start.rigFile);
  words(at("version"), shot.start.version);
  tell("start");
  tell("text");
  tell("history");
  await retext(shot.start.text);
  await restore(against);
  document.body.classList.add("ready");
  if (!matchMedia("(prefers-reduced-motion: reduce)").matches) play();
  void showTakes();
  void listen("watch", () => ({ revision: shot.revision }), hear);
}
at("another").addEventListener("click", () => void openBeside(location.pathname + location.search));
on("named", listenAnew);
function hear(news) {
  if (news.disk) heard(news.disk);
  if (news.under) heardUnder(news.under);
  if (news.drive) heardDrive(news.drive);
}
void begin3();
export {
  say
};
