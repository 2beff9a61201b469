// overview is the whole round in a strip above the curves: which part of it they
// show, where the playhead is, and what brings them nearer and further away.
import { at, button, fill, make } from "./make.js";
import { on, shot } from "./shot.js";
import { follow, playhead } from "./playhead.js";
import { STEP, all, onSpan, panBy, seesAll, showAll, showSpan, span, zoomAt } from "./span.js";

const TYPED = "input, textarea, select";

const thumb = make("div.span-seen", {});
const head = make("div.span-head", {});
const ticks = make("div", {});
const bar = make("div.span-bar", {
  role: "scrollbar", tabindex: "0", "aria-label": "Part of the round that the curves show", "aria-controls": "curves",
  "aria-orientation": "horizontal", "aria-valuemin": "0", "aria-valuemax": "100", "aria-valuenow": "0",
}, ticks, thumb, head);
const nearer = button("+", () => closer(STEP), { "aria-label": "Curves nearer", title: "Nearer (+)" });
const further = button("\u2212", () => closer(1 / STEP), { "aria-label": "Curves further away", title: "Further away (\u2212)" });
const whole = button("Whole round", showAll, { title: "The whole round (0)" });
at("curves").prepend(make("div.span-strip", {}, bar, further, nearer, whole));

/** About the playhead where that is seen, else about the middle. @param {number} factor */
function closer(factor) {
  const [from, to] = span();
  const seen = playhead.frame >= from && playhead.frame <= to;
  zoomAt(seen ? playhead.frame : (from + to) / 2, factor, false);
}

const share = (/** @type {number} */ frame) => {
  const [low, high] = all();
  return (100 * (frame - low)) / (high - low) + "%";
};

function show() {
  if (!shot.view) return;
  const [from, to] = span(), [low, high] = all();
  thumb.style.left = share(from);
  thumb.style.width = (100 * (to - from)) / (high - low) + "%";
  const room = high - low - (to - from);
  bar.setAttribute("aria-valuenow", String(room > 1e-6 ? Math.round((100 * (from - low)) / room) : 0));
  bar.setAttribute("aria-valuetext", seesAll() ? "the whole round" : `frames ${Math.round(from)} to ${Math.round(to)} of ${shot.view.frames}`);
  bar.classList.toggle("whole", seesAll());
  further.disabled = whole.disabled = seesAll();
  head.style.left = share(playhead.frame);
}

/** A tick for each handle, and the seam at both ends. */
function marks() {
  const frames = [...new Set(shot.view.axes.flatMap((a) => a.handles.map((h) => Math.round(h.frame))))].sort((a, b) => a - b);
  fill(ticks, [shot.view.frames, ...frames].join(), () => [
    ...frames.map((f) => ({ f, kind: "div.tick-mark" })), ...[0, shot.view.frames].map((f) => ({ f, kind: "div.seam-mark" })),
  ].map(({ f, kind }) => {
    const el = make(kind, {});
    el.style.left = share(f);
    return el;
  }));
}

/** @type {number | null} frames from the left of the window to where it was taken */
let grabbed = null;

const frameAt = (/** @type {PointerEvent} */ e) => {
  const box = bar.getBoundingClientRect(), [low, high] = all();
  return low + ((e.clientX - box.left) / box.width) * (high - low);
};

bar.addEventListener("pointerdown", (e) => {
  if (!shot.view) return;
  bar.setPointerCapture(e.pointerId);
  const [from, to] = span(), frame = frameAt(e);
  grabbed = frame >= from && frame <= to ? frame - from : (to - from) / 2;
  take(e);
});
bar.addEventListener("pointermove", take);
for (const end of ["pointerup", "pointercancel"]) bar.addEventListener(end, () => (grabbed = null));

/** @param {PointerEvent} e */
function take(e) {
  if (grabbed === null) return;
  const [from, to] = span(), left = frameAt(e) - grabbed;
  showSpan(left, left + to - from);
}

const BY = new Map([["ArrowLeft", -0.1], ["ArrowRight", 0.1], ["PageUp", -1], ["PageDown", 1]]); // of the window

bar.addEventListener("keydown", (e) => {
  const [from, to] = span();
  const by = BY.get(e.key);
  if (!by || e.ctrlKey || e.metaKey || e.altKey) return;
  e.preventDefault();
  e.stopPropagation();
  panBy(by * (to - from));
});

const DOES = new Map([["+", () => closer(STEP)], ["=", () => closer(STEP)], ["-", () => closer(1 / STEP)], ["0", showAll]]);

addEventListener("keydown", (e) => {
  const does = DOES.get(e.key);
  if (!does || !shot.view || e.defaultPrevented || e.ctrlKey || e.metaKey || e.altKey || (e.target instanceof Element && e.target.closest(TYPED))) return;
  e.preventDefault();
  does();
});

onSpan(show);
on("view", () => (marks(), show()));
follow(show);
