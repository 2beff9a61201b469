// gestures are what hands do on a curve: press a handle, scrub, pinch, turn the
// wheel, press twice. A swipe up or down is the page's, and a plain wheel too.
import { goTo, pause } from "./playhead.js";
import { frameOf, shot } from "./shot.js";
import { reachOf } from "./nearest.js";
import { addKey } from "./addkey.js";
import { panBy, seesAll, showSpan, span, zoomAt } from "./span.js";

const SLIDE = 8; // px that a finger goes along before it scrubs
const TWICE = 400; // ms and
const NEARBY = 28; // px within which two taps are one double tap
const ON_CURVE = 16; // px from the curve at which a key is put on it
const WHEEL = 0.0025; // of a zoom for each px that a wheel turns
const APART = 24; // px between two fingers that tell anything

/** @typedef {{ x: number, y: number }} Spot px, in the plot */

export class Gestures {
  byTouch = false;

  /** @param {import("./curves.js").Chart} chart */
  constructor(chart) {
    this.chart = chart;
    this.u = /** @type {import("../vendor/uplot/uPlot.esm.js").default} */ (chart.u);
    this.over = this.u.over;
    /** @type {Map<number, Spot>} */
    this.fingers = new Map();
    /** What each finger of two is on. @type {{ id: number, frame: number }[] | null} */
    this.pinch = null;
    /** A press under way. @type {{ id: number, x: number, y: number, scrubs: boolean } | null} */
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
    this.strip(/** @type {HTMLElement} */ (plot.querySelector(".u-axis")));
  }

  get handles() {
    return /** @type {import("./handles.js").Handles} */ (this.chart.handles);
  }

  /** @param {{ clientX: number, clientY: number }} e */
  at(e) {
    const box = this.over.getBoundingClientRect();
    return { x: e.clientX - box.left, y: e.clientY - box.top };
  }

  /** A touch that takes a handle or zooms is ours before the browser makes a swipe of it. @param {TouchEvent} e */
  claim(e) {
    if (e.touches.length > 1 || this.handles.near(this.at(e.touches[0]), reachOf({ pointerType: "touch" }))) e.preventDefault();
  }

  /** @param {PointerEvent} e */
  down(e) {
    if (e.button > 0) return;
    const at = this.at(e);
    this.byTouch = e.pointerType === "touch";
    if (this.byTouch) {
      this.fingers.set(e.pointerId, at);
      if (this.fingers.size === 2) return this.beginPinch();
    }
    if (this.handles.dragging || this.pinch) return;
    this.began = { ...at, id: e.pointerId, scrubs: false };
    const b = this.handles.near(at, reachOf(e));
    if (!b && !this.over.contains(/** @type {Node} */ (e.target))) return void (this.began = null); // a strip beside the curve
    this.over.setPointerCapture(e.pointerId);
    if (b) this.handles.grip(e, b);
    else if (!this.byTouch) this.scrub(at);
  }

  /** @param {PointerEvent} e */
  move(e) {
    const at = this.at(e);
    if (this.fingers.has(e.pointerId)) this.fingers.set(e.pointerId, at);
    if (this.pinch) return this.pull(this.pinch);
    if (this.handles.dragging) return e.pointerId === this.began?.id && this.handles.pull(e);
    const { began } = this;
    if (!began || began.id !== e.pointerId) return this.handles.hover(e, at);
    if (began.scrubs || Math.abs(at.x - began.x) > SLIDE) this.scrub(at);
  }

  /** @param {PointerEvent} e */
  up(e) {
    const { began } = this;
    const tap = began && began.id === e.pointerId && !began.scrubs && !this.pinch;
    const held = this.handles.dragging;
    this.gone(e);
    if (!this.byTouch || !tap || held?.moved) return;
    const { time, x, y } = this.tapped;
    const at = this.at(e);
    const again = e.timeStamp - time < TWICE && Math.hypot(at.x - x, at.y - y) < NEARBY;
    this.tapped = again ? { time: -Infinity, x: 0, y: 0 } : { time: e.timeStamp, ...at };
    if (again) this.twice(e);
    else if (!held && this.over.contains(/** @type {Node} */ (e.target))) this.scrub(at);
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
  scrub(at) {
    if (!shot.view) return;
    if (this.began) this.began.scrubs = true;
    pause();
    const frame = this.u.posToVal(at.x, "x");
    // A frame is one instant: nothing on screen is of a part of it.
    goTo(Math.min(Math.max(frameOf(frame), 0), shot.view.frames - 1));
  }

  /** A key is put where it is pressed; near to the curve, on it. @param {PointerEvent | MouseEvent} e */
  twice(e) {
    const at = this.at(e);
    const { u, chart: { axis } } = this;
    if (!this.over.contains(/** @type {Node} */ (e.target)) || this.handles.near(at, reachOf(/** @type {PointerEvent} */ (e)))) return;
    const frame = u.posToVal(at.x, "x");
    const away = Math.abs(u.valToPos(this.chart.where(frame), "y") - at.y);
    void addKey(axis, frame, away < ON_CURVE ? this.chart.where(frame) : u.posToVal(at.y, "y"));
  }

  beginPinch() {
    this.handles.abandon();
    this.began = null;
    this.pinch = [...this.fingers].map(([id, p]) => ({ id, frame: this.u.posToVal(p.x, "x") }));
  }

  /** What was under each finger stays under it. @param {{ id: number, frame: number }[]} pinch */
  pull(pinch) {
    const [a, b] = pinch.map((p) => ({ ...p, x: this.fingers.get(p.id)?.x ?? 0 }));
    if (Math.abs(b.x - a.x) < APART) return;
    const worth = Math.abs((b.frame - a.frame) / (b.x - a.x));
    const from = (a.frame + b.frame) / 2 - ((a.x + b.x) / 2) * worth;
    showSpan(from, from + this.handles.wide * worth);
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
    const [from, to] = span();
    panBy((-px * (to - from)) / this.handles.wide);
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
}
