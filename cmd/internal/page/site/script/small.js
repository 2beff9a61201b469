// small plays loops as small pictures: a few frames each, drawn when it comes into sight.
// Of those out of sight only some are kept. Who asked for less motion sees one still.
import { pictures } from "./server.js";
import { givenUp, refusal } from "./refusal.js";
import { inTurn, next } from "./turns.js";

const FRAMES = 32; // of a loop, enough to see where it goes
const KEPT = 16; // loops, some 3 MB each
const SLOWEST = 10; // s; a longer loop goes by quicker
const STILL = 0.35; // of the loop: where it has come to what it shows
const still = matchMedia("(prefers-reduced-motion: reduce)");

/** @typedef {{path: "preview" | "kind/picture", question: object, of?: string, frames: number, seconds: number, width: number}} Loop */

/** @type {Set<Small>} those that have frames, the last seen at the end */
const held = new Set();
/** @type {Set<Small>} */
const seen = new Set();
const of = /** @type {WeakMap<Element, Small>} */ (new WeakMap());
const watch = new IntersectionObserver((all) => {
  for (const e of all) of.get(e.target)?.sight(e.isIntersecting);
  void next();
}, { rootMargin: "40px" });

/** A loop on a canvas. */
export class Small {
  /** @param {HTMLCanvasElement} canvas @param {number} rank when its turn comes for a still; the loop comes one later */
  constructor(canvas, rank = 1) {
    this.canvas = canvas;
    this.rank = rank;
    this.frames = /** @type {ImageBitmap[]} */ ([]);
    /** @type {Loop|null} */
    this.loop = null;
    /** @type {AbortController|null} */
    this.stop = null;
    this.asked = false;
    /** @type {ImageBitmap | null} */
    this.shown = null;
    of.set(canvas, this);
    watch.observe(canvas);
  }

  /** Shows a loop; what was shown before stays until there is a picture of it. @param {Loop|null} loop */
  show(loop) {
    this.stop?.abort();
    this.loop = loop;
    this.asked = false;
    if (!loop) this.drop();
    else this.want();
  }

  /** @param {boolean} is */
  sight(is) {
    if (is) seen.add(this);
    else seen.delete(this);
    if (!this.canvas.isConnected) {
      watch.unobserve(this.canvas);
      this.show(null);
    }
    if (!is) return;
    if (this.loop && !this.asked) this.want();
    if (held.delete(this)) held.add(this);
    play();
  }

  want() {
    if (this.asked) return;
    this.asked = true;
    const { loop } = this;
    if (!loop) return;
    const wanted = () => this.loop !== loop || seen.has(this);
    inTurn(this.rank, wanted, () => this.draw(loop, Math.floor(loop.frames * STILL)));
    if (!still.matches) inTurn(this.rank + 1, wanted, () => this.draw(loop));
  }

  /** Has a loop drawn, or one frame of it. @param {Loop} loop */
  async draw(loop, frame = -1) {
    if (this.loop !== loop) return;
    this.stop = new AbortController();
    /** @type {Uint8Array[]} */
    const fresh = [];
    const every = Math.max(1, Math.ceil(loop.frames / FRAMES));
    try {
      await pictures(loop.path, { ...loop.question, width: loop.width, ...(frame < 0 ? { every } : { from: frame, to: frame + 1 }) }, (data) => fresh.push(data), this.stop.signal, loop.of);
      const frames = await Promise.all(fresh.map((data) => createImageBitmap(new Blob([/** @type {BlobPart} */ (data)]))));
      if (this.loop === loop) this.take(frames);
      else for (const f of frames) f.close();
    } catch (err) {
      if (!givenUp(err)) this.canvas.dataset.none = refusal(err).message;
    }
  }

  /** @param {ImageBitmap[]} frames */
  take(frames) {
    this.drop();
    this.frames = frames;
    held.add(this);
    this.canvas.dataset.frames = String(frames.length);
    for (const old of held) if (held.size > KEPT && !seen.has(old)) old.evict();
    play();
  }

  drop() {
    for (const f of this.frames) f.close();
    this.frames = [];
    held.delete(this);
  }

  /** Makes room; what it showed is drawn again once it comes into sight. */
  evict() {
    this.drop();
    this.asked = false;
  }

  inSight() {
    return seen.has(this);
  }

  /** Draws the frame of an instant, in s. @param {number} at */
  paint(at) {
    if (this.frames.length === 0 || !this.loop) return;
    const share = (at / Math.min(this.loop.seconds, SLOWEST)) % 1;
    const frame = this.frames[Math.floor(share * this.frames.length)];
    const thread = this.canvas.nextElementSibling;
    if (thread instanceof HTMLElement && this.frames.length > 1) thread.style.transform = `scaleX(${share})`;
    if (frame === this.shown) return;
    this.shown = frame;
    if (this.canvas.width !== frame.width) Object.assign(this.canvas, { width: frame.width, height: frame.height });
    this.canvas.getContext("2d")?.drawImage(frame, 0, 0);
  }
}

let playing = false;

function play() {
  if (playing) return;
  playing = true;
  requestAnimationFrame(step);
}

/** @param {number} now */
function step(now) {
  for (const s of seen) s.paint(still.matches ? 0 : now / 1000);
  playing = !still.matches && [...seen].some((s) => s.frames.length > 0);
  if (playing) requestAnimationFrame(step);
}
