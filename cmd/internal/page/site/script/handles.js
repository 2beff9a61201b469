// handles are the points of a curve that hands can move: by pointer, or by the
// arrow keys once they are reached with Tab. Where they end up, the plan says.
import { make, mark } from "./make.js";
import { shot } from "./shot.js";
import { change } from "./planner.js";
import { edited, pressed, telling } from "./handle.js";
import { nearest, reachOf } from "./nearest.js";
import { holdSpan, include, reveal } from "./span.js";
import { removeKey } from "./addkey.js";

const LOOP_TOP = 9; // px, where the handle of the loop's length hangs
const BESIDE = 24; // px between handles that would lie on one another
const EDGE = 8; // px past the edge of the plot at which a handle is still seen

/** @typedef {{ el: HTMLElement, handle: Wire.Handle, x: number, y: number, beyond: boolean }} Point one of them, px in the plot */
/** @typedef {import("./gestures.js").Spot} Spot */

export class Handles {
  /** @param {import("./curves.js").Chart} chart @param {import("../vendor/uplot/uPlot.esm.js").default} u */
  constructor(chart, u) {
    this.chart = chart;
    this.u = u;
    /** Handles by the path of what they stand for. @type {Map<string, Point>} */
    this.buttons = new Map();
    /** @type {{ b: Point, text: string, moved: boolean, x: number, y: number, handle: Wire.Handle, worth: { frame: number, pos: number } } | null} */
    this.dragging = null;
    /** @type {Point | null} under a pointer that presses nothing */
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
    const own = this.chart.axis.handles;
    return this.chart.index === 0 && shot.view.loop ? [...own, shot.view.loop] : own;
  }

  show() {
    const list = this.list();
    const paths = new Set(list.map((h) => h.path));
    for (const [path, b] of this.buttons) if (!paths.has(path)) (b.el.remove(), this.buttons.delete(path));
    for (const h of list) this.put(h, list);
  }

  /** @param {Wire.Handle} h @param {Wire.Handle[]} list */
  put(h, list) {
    const b = this.buttons.get(h.path) ?? this.made(h);
    b.handle = h;
    const { u } = this;
    const top = h.kind === "loop" ? LOOP_TOP : u.valToPos(h.pos, "y") + this.aside(h, list);
    const left = u.valToPos(h.frame, "x");
    b.beyond = left < -EDGE || left > this.wide + EDGE;
    mark(b.el, "class", `handle ${h.kind}${b.beyond ? " beyond" : ""}${this.dragging?.b === b ? " held" : ""}`);
    this.move(b, Math.min(Math.max(left, 0), this.wide), Math.min(Math.max(top, 0), this.tall));
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
    const told = telling(h, shot.view);
    const [now, least, most] = h.vary === "time" ? [h.frame, 0, Math.max(shot.view.frames * 4, h.frame)] : [h.pos, h.min ?? -1e6, h.max ?? 1e6];
    for (const [name, as] of Object.entries({ label: h.label, valuetext: told, valuenow: now, valuemin: least, valuemax: most })) mark(b.el, "aria-" + name, as);
    if (this.dragging?.b === b) this.chart.tip.tell(told);
  }

  /**
   * A rest of no length ends where the carriage arrives: its handle hangs beside that one, inwards.
   * @param {Wire.Handle} h
   * @param {Wire.Handle[]} list
   */
  aside(h, list) {
    const { u } = this;
    const x = u.valToPos(h.frame, "x");
    const met = h.kind === "dwell" && list.some((o) => o.kind === "end" && o.pos === h.pos && Math.abs(u.valToPos(o.frame, "x") - x) < BESIDE);
    if (!met) return 0;
    return u.valToPos(h.pos, "y") < this.tall / 2 ? BESIDE : -BESIDE;
  }

  /** @param {Wire.Handle} handle @returns {Point} */
  made(handle) {
    /** @type {HTMLElement} */
    const el = make("div", {
      role: "slider", tabindex: "0", "data-path": handle.path, onkeydown: (e) => this.press(e, b.handle), onfocus: () => b.beyond && reveal(b.handle.frame),
    });
    /** @type {Point} */
    const b = { el, handle, x: NaN, y: NaN, beyond: false };
    this.buttons.set(handle.path, b);
    this.u.over.append(el);
    return b;
  }

  /** The handle that a press at a place of the plot is meant for: the nearest, never a neighbour. @param {Spot} at @param {number} reach */
  near(at, reach) {
    return nearest([...this.buttons.values()].filter((b) => !b.beyond), at.x, at.y, reach);
  }

  /** Names the handle under a pointer that presses nothing. @param {PointerEvent} e @param {Spot} at */
  hover(e, at) {
    const b = this.near(at, reachOf(e));
    const { over } = this.u;
    if (b === this.over) return;
    this.over?.el.classList.remove("near");
    this.over = b;
    b?.el.classList.add("near");
    over.dataset.grab = b?.handle.kind ?? "";
    over.title = b ? `${b.handle.label}: ${telling(b.handle, shot.view)}` : "";
  }

  /** @param {PointerEvent} e @param {Point} b */
  grip(e, b) {
    e.preventDefault();
    b.el.focus({ preventScroll: true });
    const { u } = this;
    const each = (/** @type {string} */ key, /** @type {number} */ px) => Math.abs(u.posToVal(px, key) - u.posToVal(0, key)) / px;
    // What a pixel is worth stays for as long as it is held, however the window follows.
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
    const was = this.dragging;
    if (!was) return;
    if (!was.moved && e.clientX === was.x && e.clientY === was.y) return;
    was.moved = true;
    this.chart.tip.show(e, telling(was.b.handle, shot.view));
    void change([this.edit(e, was)], { text: was.text, before: was.text, last: false });
  }

  /** @param {PointerEvent} e */
  leave(e) {
    const was = this.dragging;
    if (!was) return;
    const edit = this.edit(e, was);
    this.dragging = null;
    was.b.el.classList.remove("held");
    this.chart.tip.hide();
    holdSpan(false);
    this.chart.settle();
    if (was.moved) void change([edit], { text: was.text, before: was.text, label: was.handle.label });
  }

  /** Lets go of what is dragged, which goes back to where it was. */
  abandon() {
    const was = this.dragging;
    if (!was) return;
    this.dragging = null;
    was.b.el.classList.remove("held");
    this.chart.tip.hide();
    holdSpan(false);
    if (was.moved) void change([], { text: was.text, before: was.text });
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
}
