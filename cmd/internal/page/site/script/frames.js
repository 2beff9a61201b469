// frames are the pictures of one round, packed as they came: those of a whole loop
// where they fit into what may be held, else those around the playhead and, of the
// rest, one in so many. What was not looked at for longest goes first.

const MOST = 48e6; // bytes of packed pictures, of both widths
const FIRST = 150; // pictures that a round is drawn in first
const AROUND = 0.6; // of what may be held: so many frames around the playhead are refined where a loop does not fit

/** @typedef {{ wide: number, data: Uint8Array }} Picture */

export class Frames {
  /** @param {number} count captured frames of the loop @param {number} most bytes to hold */
  constructor(count, most = MOST) {
    this.count = count;
    this.most = most;
    this.bytes = 0;
    /** @type {Map<number, Picture>} the one looked at last is the last */
    this.held = new Map();
    this.stride = 2 ** Math.ceil(Math.log2(Math.max(count / FIRST, 1)));
  }

  /** @param {number} frame @param {Picture} picture */
  put(frame, picture) {
    const had = this.held.get(frame);
    if (had && had.wide > picture.wide) return;
    this.drop(frame);
    this.held.set(frame, picture);
    this.bytes += picture.data.length;
    for (const [old] of this.held) {
      if (this.bytes <= this.most || old === frame) break;
      this.drop(old);
    }
  }

  /** @param {number} frame */
  drop(frame) {
    this.bytes -= this.held.get(frame)?.data.length ?? 0;
    this.held.delete(frame);
  }

  /** The picture of a frame, which has been looked at now. @param {number} frame */
  get(frame) {
    const p = this.held.get(frame);
    if (p) (this.held.delete(frame), this.held.set(frame, p));
    return p;
  }

  /** How wide the picture of a frame is, 0 for none. @param {number} frame */
  wide(frame) {
    return this.held.get(frame)?.wide ?? 0;
  }

  /** The frame nearest to one of which there is a picture, -1 for none. @param {number} frame */
  nearest(frame) {
    if (this.held.size === 0) return -1;
    for (let away = 0; away <= this.count / 2; away++) {
      for (const k of [this.round(frame - away), this.round(frame + away)]) if (this.held.has(k)) return k;
    }
    return -1;
  }

  /** @param {number} frame */
  round(frame) {
    return ((frame % this.count) + this.count) % this.count;
  }

  /** How many pictures the round is drawn in first, and how many of them are there. */
  first() {
    let there = 0, of = 0;
    for (let k = 0; k < this.count; k += this.stride) (of++, (there += this.held.has(k) ? 1 : 0));
    return { there, of };
  }

  /** How many frames may be held as large as those that are. */
  room() {
    return this.held.size ? Math.floor((this.most * this.held.size) / this.bytes) : this.count;
  }

  /**
   * The next frames to ask for: those of the round drawn coarsely from the playhead on,
   * then what is between them, where not all fit only around the playhead.
   * @param {number} from @param {number} many
   */
  wanted(from, many) {
    if (this.held.size === this.count) return [];
    const reach = this.room() < this.count ? Math.floor((this.room() * AROUND) / 2) : this.count;
    for (let stride = this.stride; stride >= 1; stride /= 2) {
      const out = [];
      const start = Math.ceil(from / stride) * stride;
      for (let k = start, n = Math.ceil(this.count / stride); n > 0 && out.length < many; n--, k += stride) {
        if (k >= this.count) k = 0;
        if (!this.held.has(k) && (stride === this.stride || this.apart(k, from) <= reach)) out.push(k);
      }
      if (out.length) return out;
    }
    return [];
  }

  /** Frames around the playhead that are narrower than they should be, those ahead first. @param {number} from @param {number} wide @param {number} reach @param {number} many */
  narrow(from, wide, reach, many) {
    const out = [];
    for (let away = 0; away < Math.min(reach, this.count) && out.length < many; away++) {
      const k = this.round(from + away);
      if (this.wide(k) < wide) out.push(k);
    }
    return out;
  }

  /** @param {number} a @param {number} b */
  apart(a, b) {
    const d = this.round(a - b);
    return Math.min(d, this.count - d);
  }
}
