// curves draws where every axis is over the round, with the ends of the round
// before and of the next one: the seam is a joint, not an end.
import uPlot from "../vendor/uplot/uPlot.esm.js";
import { at, button, make, words } from "./make.js";
import { number, on, position, shot } from "./shot.js";
import { course, extent, where } from "./course.js";
import { adding, addKey } from "./addkey.js";
import { Gestures } from "./gestures.js";
import { Glide } from "./glide.js";
import { ground } from "./ground.js";
import { Handles } from "./handles.js";
import { Tip } from "./tip.js";
import { onSpan, span } from "./span.js";
import { follow, playhead } from "./playhead.js";
import { rig as driven } from "./driver.js";
import { look } from "./look.js";
import { onCurve } from "./rigwords.js";

const NEAR = 0.06; // of the window, within which what is dragged has it grow

/** @type {Chart[]} */
let charts = [];

/** @returns {Curved[]} */
const drawn = () => [...shot.view.axes, ...shot.view.stands.map((s) => ({ ...s, unit: "deg", handles: [], travel: null, moveKeys: [] }))];

export class Chart {
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
    /** What the curve was drawn from. @type {number[]} */
    this.drawn = [];
    at("curves").append(this.el);
  }

  get axis() {
    return drawn()[this.index];
  }

  build() {
    const { ink, faint, font } = look();
    const grid = { stroke: faint, width: 1 };
    const text = { stroke: ink, font, grid, ticks: grid };
    const line = look().axes[this.index % look().axes.length];
    this.u = new uPlot({
      width: Math.max(this.plot.clientWidth, 200), height: Math.max(this.plot.clientHeight, 90),
      legend: { show: false }, cursor: { show: false }, padding: [8, 8, 0, 0],
      scales: { x: { time: false, range: () => span() }, y: { range: () => this.ys.now } },
      axes: [{ ...text, size: 30, space: 60, values: (/** @type {uPlot} */ u, /** @type {number[]} */ s) => s.map((f) => (f < 0 || f > shot.view.frames ? "" : String(f))) }, { ...text, size: 54, space: 28 }],
      series: [{}, { stroke: line.stroke, width: 2.5, dash: line.dash, pxAlign: 0, points: { show: false } }, { stroke: faint, width: 2, dash: [3, 5], points: { show: false }, pxAlign: 0 }],
      hooks: { drawClear: [(/** @type {uPlot} */ u) => ground(u, this.axis.travel)], draw: [() => this.place()] },
    }, course(this.axis, shot.view), this.plot);
    this.u.over.append(this.head, this.dot);
    this.handles = new Handles(this, this.u);
    this.gestures = new Gestures(this);
    new ResizeObserver(() => this.fit()).observe(this.plot);
  }

  fit() {
    const { clientWidth: width, clientHeight: height } = this.plot;
    if (this.u && width > 0 && height > 0 && (width !== this.u.width || height !== this.u.height)) this.u.setSize({ width, height });
  }

  /** Draws a plan. While something is dragged the window only grows, to hold it. */
  show() {
    const { axis } = this;
    words(this.name, axis.name);
    words(this.limits, limitsOf(axis));
    this.add.hidden = !adding(axis);
    this.plot.setAttribute("aria-label", `Curve of ${axis.name}`);
    if (!this.handles?.dragging) this.settle();
    const as = [shot.view.frames, shot.view.every, ...(axis.travel ?? []), ...axis.pos];
    const same = as.length === this.drawn.length && as.every((x, i) => x === this.drawn[i]);
    this.drawn = as;
    if (!this.u) this.build();
    else if (same) this.place();
    else this.u.setData(course(axis, shot.view));
  }

  /** Lets the window be what the curve asks for. */
  settle() {
    this.ys.to(extent(this.axis));
  }

  /** Grows the window where a place comes near to its edge or beyond. @param {number} pos */
  reach(pos) {
    const [low, high] = this.ys.goal;
    const air = (high - low) * NEAR;
    if (pos - air < low || pos + air > high) this.ys.to([Math.min(low, pos - 2 * air), Math.max(high, pos + 2 * air)]);
  }

  /** Shows another part of the round. */
  spanned() {
    const [min, max] = span();
    this.u?.setScale("x", { min, max });
  }

  /** Where the axis is, in the round and in those beside it. @param {number} frame */
  where(frame) {
    return where(this.axis, frame, shot.view.frames);
  }

  /** @param {KeyboardEvent} e */
  press(e) {
    if (e.target !== this.plot || e.ctrlKey || e.metaKey || e.altKey || (e.key !== "Insert" && e.key !== "Enter")) return;
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
    const [from, to] = span();
    this.head.hidden = p.frame < from || p.frame > to;
    this.head.style.transform = `translateX(${this.u.valToPos(p.frame, "x")}px)`;
    words(this.value, `${number(position(this.axis, p.frame), 2)} ${this.axis.unit}`);
  }

  /** Where the rig is, against the curve of the plan that it runs. @param {Wire.DriveState} rig */
  rig(rig) {
    const i = rig?.axes.findIndex((a) => a.name === this.axis.name) ?? -1;
    const [from, to] = span();
    const seen = i >= 0 ? onCurve(rig, shot.view.plan) : null;
    const { u } = this;
    const on = u && seen && seen.frame >= from && seen.frame <= to;
    this.dot.hidden = !on;
    if (on) this.dot.style.transform = `translate(${u.valToPos(seen.frame, "x")}px, ${u.valToPos(seen.inRound[i], "y")}px)`;
  }

  close() {
    this.u?.destroy();
    this.el.remove();
  }
}

/** @param {Curved} axis */
function limitsOf(axis) {
  if (axis.speedLimit === undefined) return `turns by itself; comes round ${number(axis.off, 3)} deg off, ${number(axis.bound, 3)} allowed`;
  const ends = axis.travel ? `travel ${number(axis.travel[0], 0)} to ${number(axis.travel[1], 0)} ${axis.unit}` : "turns without end";
  return axis.speedLimit > 0 ? `${ends}, at most ${number(axis.speedLimit, 0)} ${axis.unit}/s` : ends;
}

on("view", () => {
  const names = drawn().map((a) => a.name).join("\n");
  if (names !== at("curves").dataset.axes) {
    for (const c of charts) c.close();
    at("curves").dataset.axes = names;
    charts = drawn().map((_, i) => new Chart(i));
  }
  for (const c of charts) c.show();
});

onSpan(() => charts.forEach((c) => c.spanned()));

on("drive", () => charts.forEach((c) => shot.view && c.rig(driven)));
follow((p) => charts.forEach((c) => shot.view && c.follow(p)));
