// dial shows the round as what it is, a ring: the seam on top, sewn together,
// the hand where the playhead is, and a mark where a verdict has its instant.
import { at, draw, words } from "./make.js";
import { frameOf, on, shot, timelinePerFrame } from "./shot.js";
import { follow, goTo, pause, stepBy } from "./playhead.js";
import { MARKS } from "./marks.js";

const R = 76; // of the ring, in the dial's own units; it is 200 wide
const BREADTH = 26; // of the ring to a finger, on either side of its middle
const dial = at("dial");
const marks = draw("g", {});
const hand = draw("g.hand", {}, draw("line", { x1: 0, y1: -44, x2: 0, y2: -R - 8 }), draw("circle", { cx: 0, cy: -R, r: 7 }));
const round = draw("circle.gone", { cx: 0, cy: 0, r: R, pathLength: 1, transform: "rotate(-90)" });
const count = draw("text.count", { x: 0, y: 4 });
const under = draw("text.under", { x: 0, y: 22 });

dial.append(
  draw("circle.ring", { cx: 0, cy: 0, r: R }), round, marks,
  draw("g.stitch", {}, [-12, 0, 12].map((y) => draw("line", { x1: -7, x2: 7, y1: -R + y + 3, y2: -R + y - 3 }))),
  hand, count, under,
);

/** @param {number} frame */
const turn = (frame) => (360 * frame) / shot.view.frames;

follow((p) => {
  if (!shot.view) return;
  hand.setAttribute("transform", `rotate(${turn(p.frame)})`);
  round.setAttribute("stroke-dasharray", `${p.frame / shot.view.frames} 1`);
  const frame = frameOf(p.frame * timelinePerFrame(shot.view));
  words(count, String(frame));
  words(under, `of ${shot.view.timelineFrames}`);
  dial.setAttribute("aria-valuenow", String(frame));
  dial.setAttribute("aria-valuetext", `frame ${frame} of ${shot.view.timelineFrames}`);
});

on("view", () => {
  dial.setAttribute("aria-valuemax", String(shot.view.timelineFrames - 1));
  marks.replaceChildren(...shot.view.verdicts.filter((v) => typeof v.frame === "number" && v.level !== "good").map((v) => draw("text.at." + v.level, {
    transform: `rotate(${turn(v.frame ?? 0)}) translate(0 ${-R - 12})`,
  }, MARKS[v.level].sign)));
});

const BY = new Map([["ArrowUp", 1], ["ArrowDown", -1], ["PageUp", 10], ["PageDown", -10]]);

/** A place on screen from the dial's middle, in its own units. @param {{ clientX: number, clientY: number }} e */
function from(e) {
  const box = dial.getBoundingClientRect();
  const unit = 200 / Math.min(box.width, box.height);
  return [(e.clientX - box.left - box.width / 2) * unit, (e.clientY - box.top - box.height / 2) * unit];
}

/** A frame is one instant: the hand goes to whole ones. @param {PointerEvent} e */
function scrub(e) {
  const [x, y] = from(e);
  if (shot.view) goTo(frameOf((Math.atan2(x, -y) / (2 * Math.PI)) * shot.view.frames));
}

// On the ring a finger turns the hand; beside it, a swipe is the page's.
/** @param {{ clientX: number, clientY: number }} e */
const onRing = (e) => Math.abs(Math.hypot(...from(e)) - R) < BREADTH;
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
