// curves draws where every axis is over the round, with the ends of the round
// before and of the next one: the seam is a joint, not an end.
import uPlot from "../vendor/uplot/uPlot.esm.js";
import { at, make, words } from "./make.js";
import { number, on, position, shot, turned } from "./shot.js";
import { follow, goTo, pause } from "./playhead.js";
import { Handles } from "./handles.js";
import { rig as driven } from "./driver.js";
import { look } from "./look.js";

const BESIDE = 0.09; // of the round that is seen of its neighbours
const AIR = 0.14; // of the travel, above and below the curve
const LEAST = 1; // mm or degrees: what stays is drawn in a window of this

let charts = [];

/** What has a curve: the axes, and the display stands, which turn by themselves and have nothing to drag. */
const drawn = () => [...shot.view.axes, ...shot.view.stands.map((s) => ({ ...s, unit: "deg", handles: [], travel: null, moveKeys: [] }))];

/** The states of a run in which the rig is on the curve. */
const ON_CURVE = new Set(["running", "slowing down", "moving on what it holds", "held"]);

/** Where an axis is beyond the round: turned on by what the round turns it. */
function beyond(axis, frame, frames) {
  if (frame < 0) return position(axis, frame + frames) - turned(axis);
  return position(axis, frame - frames) + turned(axis);
}

function data(axis, view) {
  const { frames, every } = view;
  const side = Math.max(1, Math.round((frames * BESIDE) / every)) * every;
  const x = [], own = [], beside = [];
  const put = (frame, a, b) => (x.push(frame), own.push(a), beside.push(b));
  for (let f = -side; f < 0; f += every) put(f, null, beyond(axis, f, frames));
  axis.pos.forEach((p, i) => put(Math.min(i * every, frames), p, i === 0 || i === axis.pos.length - 1 ? p : null));
  for (let f = frames + every; f <= frames + side; f += every) put(f, null, beyond(axis, f, frames));
  return [x, own, beside];
}

function extent(axis) {
  let low = Math.min(...axis.pos), high = Math.max(...axis.pos);
  for (const h of axis.handles) (low = Math.min(low, h.pos)), (high = Math.max(high, h.pos));
  const air = Math.max((high - low) * AIR, LEAST / 2);
  return [low - air, high + air];
}

class Chart {
  constructor(index) {
    this.index = index;
    this.name = make("span.axis-name", {});
    this.value = make("output.axis-value", {});
    this.limits = make("span.axis-limits", {});
    this.plot = make("div.plot", {});
    this.head = make("div.playhead", {});
    this.dot = make("div.rig-dot", { hidden: true });
    this.el = make("section.curve", {}, make("header", {}, this.name, this.value, this.limits), this.plot);
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
      scales: { x: { time: false, range: () => this.xs }, y: { range: () => this.ys } },
      axes: [{ ...text, size: 30, space: 60, values: (u, s) => s.map((f) => (f < 0 || f > shot.view.frames ? "" : String(f))) }, { ...text, size: 54, space: 28 }],
      series: [{}, { stroke: line.stroke, width: 2.5, dash: line.dash, pxAlign: 0, points: { show: false } }, { stroke: faint, width: 2, dash: [3, 5], points: { show: false }, pxAlign: 0 }],
      hooks: { drawClear: [(u) => this.behind(u)], draw: [() => this.place()] },
    }, data(this.axis, shot.view), this.plot);
    this.u.over.append(this.head, this.dot);
    this.handles = new Handles(this);
    this.u.over.addEventListener("pointerdown", (e) => this.scrub(e));
    this.u.over.addEventListener("pointermove", (e) => this.u.over.hasPointerCapture(e.pointerId) && this.scrub(e));
    new ResizeObserver(() => this.fit()).observe(this.plot);
  }

  fit() {
    const { clientWidth: width, clientHeight: height } = this.plot;
    if (width > 0 && height > 0 && (width !== this.u.width || height !== this.u.height)) this.u.setSize({ width, height });
  }

  scrub(e) {
    if (e.target !== this.u.over) return;
    this.u.over.setPointerCapture(e.pointerId);
    pause();
    goTo(Math.min(Math.max(this.u.posToVal(e.offsetX, "x"), 0), shot.view.frames - 1e-3));
  }

  /** Draws a plan. The window stands still while something is dragged. */
  show() {
    const { axis } = this;
    words(this.name, axis.name);
    words(this.limits, limitsOf(axis));
    if (!this.handles?.dragging) {
      const side = shot.view.frames * BESIDE;
      this.xs = [-side, shot.view.frames + side];
      this.ys = extent(axis);
    }
    if (this.u) this.u.setData(data(axis, shot.view));
    else this.build();
  }

  place() {
    if (!this.u || !this.handles) return;
    this.handles.show();
    this.follow();
  }

  /** The neighbours' ground, the seam's stitches and the travel's ends. */
  behind(u) {
    const { ctx, bbox } = u;
    const { beside, seam, limit } = look();
    const px = devicePixelRatio || 1;
    const [a, b] = [0, shot.view.frames].map((f) => u.valToPos(f, "x", true));
    ctx.save();
    ctx.fillStyle = beside;
    ctx.fillRect(bbox.left, bbox.top, Math.max(a - bbox.left, 0), bbox.height);
    ctx.fillRect(b, bbox.top, Math.max(bbox.left + bbox.width - b, 0), bbox.height);
    ctx.beginPath();
    ctx.rect(bbox.left, bbox.top, bbox.width, bbox.height);
    ctx.clip();
    for (const x of [a, b]) stitch(ctx, x, bbox, px, seam);
    for (const end of this.axis.travel ?? []) line(ctx, u.valToPos(end, "y", true), bbox, px, limit);
    ctx.restore();
  }

  follow(p = this.at ?? { frame: 0 }) {
    this.at = p;
    if (!this.u) return;
    this.head.style.transform = `translateX(${this.u.valToPos(p.frame, "x")}px)`;
    words(this.value, `${number(position(this.axis, p.frame), 2)} ${this.axis.unit}`);
  }

  /** Where the rig is, against the curve of the plan that it runs. */
  rig(rig) {
    const i = rig?.axes.findIndex((a) => a.name === this.axis.name) ?? -1;
    const seen = Boolean(this.u && rig?.open && ON_CURVE.has(rig.state) && rig.plan === shot.view.plan && rig.round >= 0 && rig.pos.length > i && i >= 0);
    this.dot.hidden = !seen;
    if (seen) this.dot.style.transform = `translate(${this.u.valToPos(rig.frame, "x")}px, ${this.u.valToPos(rig.pos[i] - rig.round * turned(this.axis), "y")}px)`;
  }

  close() {
    this.u?.destroy();
    this.el.remove();
  }
}

function limitsOf(axis) {
  if (axis.speedLimit === undefined) return `turns by itself; comes round ${number(axis.off, 3)} deg off, ${number(axis.bound, 3)} allowed`;
  const ends = axis.travel ? `travel ${number(axis.travel[0], 0)} to ${number(axis.travel[1], 0)} ${axis.unit}` : "turns without end";
  return axis.speedLimit > 0 ? `${ends}, at most ${number(axis.speedLimit, 0)} ${axis.unit}/s` : ends;
}

function stitch(ctx, x, box, px, colour) {
  ctx.strokeStyle = colour;
  ctx.lineWidth = 2 * px;
  ctx.setLineDash([]);
  ctx.beginPath();
  for (let y = box.top + 6 * px; y < box.top + box.height; y += 12 * px) {
    ctx.moveTo(x - 5 * px, y + 2 * px);
    ctx.lineTo(x + 5 * px, y - 2 * px);
  }
  ctx.stroke();
}

function line(ctx, y, box, px, colour) {
  ctx.strokeStyle = colour;
  ctx.lineWidth = 3 * px;
  ctx.setLineDash([2 * px, 4 * px]);
  ctx.beginPath();
  ctx.moveTo(box.left, y);
  ctx.lineTo(box.left + box.width, y);
  ctx.stroke();
  ctx.setLineDash([]);
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

on("drive", () => charts.forEach((c) => shot.view && c.rig(driven)));
follow((p) => charts.forEach((c) => shot.view && c.follow(p)));
