// grips are what can be moved in the view from above: carriage ends, product, lamps,
// boards and the dark. What a place means, the plan says.
import { draw } from "./make.js";
import { shot } from "./shot.js";
import { change } from "./planner.js";
import { arrow, nearest, reachOf } from "./nearest.js";
import { Tip } from "./tip.js";

const STEPS = { fine: 1, plain: 10, coarse: 50 }; // mm a key press
const GRIP = 12; // px, the radius of what is gripped
const BESIDE = 30; // px that the carriage's two ends are gripped beside it, however near to each other they are

/** @type {Record<string, string>} */
const SIGNS = { lamp: "M-6-6L6 6M6-6L-6 6", product: "M0-7V7M-7 0H7", hole: "M-7-3V3M7-3V3", dark: "M-7 0H7" };
/** @param {Wire.Drag} d @param {number} aside */
const sign = (d, aside) => (d.kind === "carriage" ? (aside < 0 ? "M-6-5V5M-6 0H30" : "M6-5V5M6 0H-30") : SIGNS[d.kind] ?? "");

/** @typedef {{ el: SVGElement, target: SVGElement, mark: SVGElement, drag: Wire.Drag }} Grip */
/** @typedef {{ pointerType?: string, clientX: number, clientY: number }} Press */

export class Grips {
  /** @param {SVGSVGElement} svg @param {SVGElement} home */
  constructor(svg, home) {
    this.svg = svg;
    this.home = home;
    /** @type {Map<string, Grip>} by what they change */
    this.buttons = new Map();
    /** @type {{ g: Grip, text: string, drag: Wire.Drag, toDrawing: DOMMatrix, id: number, x: number, y: number, moved: boolean } | null} */
    this.dragging = null;
    /** @type {Grip | null} under a pointer that presses nothing */
    this.over = null;
    this.tip = new Tip(/** @type {HTMLElement} */ (svg.parentElement));
    svg.addEventListener("touchstart", (e) => this.near({ clientX: e.touches[0].clientX, clientY: e.touches[0].clientY }) && e.preventDefault(), { passive: false });
    svg.addEventListener("pointerdown", (e) => this.take(e));
    svg.addEventListener("pointermove", (e) => this.pull(e));
    svg.addEventListener("pointerup", (e) => this.leave(e));
    svg.addEventListener("pointercancel", (e) => this.leave(e));
  }

  /** Shows what can be moved, a pixel being so many mm. @param {Wire.Drag[]} drags @param {number} mm */
  show(drags, mm) {
    for (const d of drags) this.put(d, mm);
    for (const [p, g] of this.buttons) if (!drags.some((d) => d.path === p)) (g.el.remove(), this.buttons.delete(p));
    const held = this.dragging && this.buttons.get(this.dragging.drag.path);
    if (held) this.tip.tell(held.drag.told);
  }

  /** @param {Wire.Drag} d @param {number} mm */
  put(d, mm) {
    const g = this.buttons.get(d.path) ?? this.made(d);
    g.drag = d;
    const aside = d.kind === "carriage" ? (d.path.endsWith("[1]") ? -1 : 1) * BESIDE : 0;
    g.el.setAttribute("transform", `translate(${d.x} ${-d.y}) scale(${mm})`);
    g.el.setAttribute("aria-label", `${d.label}: ${d.told}; the arrow keys move it`);
    for (const part of [g.target, g.mark]) part.setAttribute("transform", `translate(${aside} 0)`);
    g.mark.setAttribute("d", sign(d, aside));
  }

  /** @param {Wire.Drag} d @returns {Grip} */
  made(d) {
    const target = draw("circle.target", { r: GRIP }), mark = draw("path.sign", {});
    const el = draw("g.grip." + d.kind, { role: "button", tabindex: "0", "aria-roledescription": "movable point", "data-path": d.path }, target, mark, draw("title", {}));
    const g = { el, target, mark, drag: d };
    el.addEventListener("keydown", (e) => this.press(e, g.drag));
    this.buttons.set(d.path, g);
    this.home.append(el);
    return g;
  }

  /** The grip that a press is meant for, the nearest within a fingertip. @param {Press} e */
  near(e) {
    const list = [...this.buttons.values()].map((g) => {
      const box = g.target.getBoundingClientRect();
      return { g, x: box.x + box.width / 2, y: box.y + box.height / 2 };
    });
    return nearest(list, e.clientX, e.clientY, reachOf(e))?.g ?? null;
  }

  /** @param {PointerEvent} e */
  take(e) {
    if (e.button > 0 || this.dragging) return;
    const g = this.near(e);
    if (!g) return;
    e.preventDefault();
    g.el.focus({ preventScroll: true });
    this.svg.setPointerCapture(e.pointerId);
    const toDrawing = /** @type {DOMMatrix} */ (this.svg.getScreenCTM()).inverse();
    this.dragging = { g, text: shot.text, drag: { ...g.drag }, toDrawing, id: e.pointerId, x: e.clientX, y: e.clientY, moved: false };
    g.el.classList.add("held");
    this.tip.show(e, g.drag.told);
  }

  /**
   * Where the finger has taken it, in mm of the drawing as it was when it was taken.
   * @param {PointerEvent} e
   * @param {NonNullable<Grips["dragging"]>} was
   */
  place(e, was) {
    const { drag, toDrawing, x, y } = was;
    const from = new DOMPoint(x, y).matrixTransform(toDrawing);
    const to = new DOMPoint(e.clientX, e.clientY).matrixTransform(toDrawing);
    return { path: drag.path, x: drag.x + to.x - from.x, y: drag.y - (to.y - from.y) };
  }

  /** @param {PointerEvent} e */
  pull(e) {
    const was = this.dragging;
    if (!was) return this.hover(e);
    if (e.pointerId !== was.id || (!was.moved && e.clientX === was.x && e.clientY === was.y)) return;
    was.moved = true;
    this.tip.show(e, was.g.drag.told);
    void change([this.place(e, was)], { text: was.text, before: was.text, last: false });
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
    const was = this.dragging;
    if (!was || e.pointerId !== was.id) return;
    const edit = this.place(e, was);
    this.dragging = null;
    this.tip.hide();
    was.g.el.classList.remove("held");
    if (was.moved) void change([edit], { text: was.text, before: was.text, label: was.drag.label });
  }

  /** @param {KeyboardEvent} e @param {Wire.Drag} d */
  press(e, d) {
    const to = arrow(e, STEPS);
    if (!to) return;
    e.preventDefault();
    e.stopPropagation();
    void change([{ path: d.path, x: d.x + to.right * to.by, y: d.y + to.up * to.by }], { label: d.label });
  }
}
