// handles are the points of a curve that hands can move: by pointer, or by the
// arrow keys once they are reached with Tab. Where they end up, the plan says.
import { make } from "./make.js";
import { number, shot } from "./shot.js";
import { change } from "./planner.js";

const FINE = 0.1, PLAIN = 1, COARSE = 10; // mm, degrees or frames a key press

const LOOP_TOP = 9; // px, where the handle of the loop's length hangs
const BESIDE = 24; // px between handles that would lie on one another

export class Handles {
  constructor(chart) {
    this.chart = chart;
    this.buttons = new Map();
    this.dragging = null;
  }

  /** The height of the plot, px, as the chart knows it: to ask the page would have it laid out anew for each handle. */
  get tall() {
    return this.chart.u.bbox.height / devicePixelRatio;
  }

  list() {
    const own = this.chart.axis.handles;
    return this.chart.index === 0 && shot.view.loop ? [...own, shot.view.loop] : own;
  }

  show() {
    const list = this.list();
    const paths = new Set(list.map((h) => h.path));
    for (const [path, b] of this.buttons) if (!paths.has(path)) (b.remove(), this.buttons.delete(path));
    for (const h of list) this.put(h);
  }

  put(h) {
    let b = this.buttons.get(h.path);
    if (!b) {
      b = this.made(h.path);
      this.buttons.set(h.path, b);
    }
    b.handle = h;
    b.className = `handle ${h.kind}`;
    const { u } = this.chart;
    const top = h.kind === "loop" ? LOOP_TOP : u.valToPos(h.pos, "y") + this.aside(h);
    b.style.left = u.valToPos(h.frame, "x") + "px";
    b.style.top = Math.min(Math.max(top, 0), this.tall) + "px";
    const told = telling(h);
    b.setAttribute("aria-label", h.label);
    b.setAttribute("aria-valuetext", told);
    b.setAttribute("aria-valuenow", h.vary === "time" ? h.frame : h.pos);
    b.setAttribute("aria-valuemin", h.vary === "time" ? 0 : h.min ?? -1e6);
    b.setAttribute("aria-valuemax", h.vary === "time" ? Math.max(shot.view.frames * 4, h.frame) : h.max ?? 1e6);
    b.title = `${h.label}: ${told}`;
  }

  /** A rest of no length ends where the carriage arrives: its handle hangs beside that one, inwards. */
  aside(h) {
    const { u } = this.chart;
    const x = u.valToPos(h.frame, "x");
    const met = h.kind === "dwell" && this.list().some((o) => o.kind === "end" && o.pos === h.pos && Math.abs(u.valToPos(o.frame, "x") - x) < BESIDE);
    if (!met) return 0;
    return u.valToPos(h.pos, "y") < this.tall / 2 ? BESIDE : -BESIDE;
  }

  made(path) {
    const b = make("div", { role: "slider", tabindex: "0", "data-path": path });
    b.addEventListener("pointerdown", (e) => this.grip(e, b));
    b.addEventListener("pointermove", (e) => this.pull(e, b));
    b.addEventListener("pointerup", (e) => this.leave(e, b));
    b.addEventListener("pointercancel", (e) => this.leave(e, b));
    b.addEventListener("keydown", (e) => this.press(e, b.handle));
    this.chart.u.over.append(b);
    return b;
  }

  grip(e, b) {
    e.preventDefault();
    b.focus({ preventScroll: true });
    b.setPointerCapture(e.pointerId);
    this.dragging = { text: shot.text, moved: false, x: e.clientX, y: e.clientY, handle: b.handle };
    b.classList.add("held");
  }

  edit(e) {
    const { u } = this.chart;
    const { handle, x, y } = this.dragging;
    const frame = u.posToVal(u.valToPos(handle.frame, "x") + e.clientX - x, "x");
    const pos = u.posToVal(u.valToPos(handle.pos, "y") + e.clientY - y, "y");
    return edited(handle, frame, pos);
  }

  pull(e, b) {
    if (!this.dragging || !b.hasPointerCapture(e.pointerId)) return;
    this.dragging.moved = true;
    void change([this.edit(e)], { text: this.dragging.text, before: this.dragging.text, last: false });
  }

  leave(e, b) {
    const was = this.dragging;
    if (!was) return;
    const edit = this.edit(e);
    this.dragging = null;
    b.classList.remove("held");
    if (was.moved) void change([edit], { text: was.text, before: was.text, label: was.handle.label });
  }

  press(e, h) {
    const by = e.shiftKey ? COARSE : e.altKey ? FINE : PLAIN;
    const way = { ArrowUp: [0, 1], ArrowDown: [0, -1], ArrowLeft: [-1, 0], ArrowRight: [1, 0] }[e.key];
    if (!way || e.ctrlKey || e.metaKey) return;
    e.preventDefault();
    e.stopPropagation();
    const along = h.vary === "time" ? way[0] || way[1] : way[0];
    const aside = h.kind === "advance" ? way[1] * faceOf(this.chart.axis) : way[1] * by;
    const frame = h.frame + (along * Math.max(by, PLAIN) * shot.view.frames) / shot.view.timelineFrames;
    if (h.vary === "pos" && way[1] === 0) return;
    void change([edited(h, frame, h.pos + aside)], { label: h.label });
  }
}

/** Degrees between two turns that end on a face. */
function faceOf(axis) {
  const faces = Number(axis.moveKeys.find((k) => k.label === "symmetry")?.value);
  return 360 / (faces || 360);
}

function edited(h, frame, pos) {
  const out = { path: h.path };
  if (h.vary !== "pos") out.frame = Math.max(frame, 0);
  if (h.vary !== "time") out.pos = pos;
  return out;
}

function telling(h) {
  const frame = Math.round((h.frame * shot.view.timelineFrames) / shot.view.frames);
  const parts = [];
  if (h.vary !== "time") parts.push(`${number(h.pos, 1)} ${h.unit}`);
  if (h.vary !== "pos") parts.push(`frame ${frame}`);
  return parts.join(", ");
}
