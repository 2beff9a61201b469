// tip is the small label beside what is dragged, with its value and its unit. It
// stands beside the finger, never under it, and never leaves what it is drawn in.
import { make, words } from "./make.js";

const GAP = { touch: 34, pen: 20, mouse: 16 }; // px from the pointer: a fingertip covers more

export class Tip {
  /** @param {HTMLElement} home what it stays within */
  constructor(home) {
    /** @type {PointerEvent | null} */
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
    const box = this.home.getBoundingClientRect();
    const gap = GAP[/** @type {keyof typeof GAP} */ (e.pointerType)] ?? GAP.mouse;
    const x = e.clientX - box.left, y = e.clientY - box.top;
    // Where neither side has room for one line it is as wide as the wider one.
    this.el.style.maxWidth = Math.max(box.width - x - gap, x - gap) + "px";
    const { offsetWidth: wide, offsetHeight: high } = this.el;
    const left = x + gap + wide <= box.width ? x + gap : x - gap - wide;
    const top = Math.min(Math.max(y - high / 2, 0), Math.max(box.height - high, 0));
    // A translation has nothing laid out once more.
    this.el.style.translate = `${Math.min(Math.max(left, 0), Math.max(box.width - wide, 0))}px ${top}px`;
  }

  /** Changes the text where it is shown. @param {string} text */
  tell(text) {
    if (this.last) this.show(this.last, text);
  }

  hide() {
    this.last = null;
    this.el.hidden = true;
  }
}
