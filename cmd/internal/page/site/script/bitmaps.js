// bitmaps are the few pictures of a round that are unpacked, ready to be painted. They
// take a hundred times the room of packed ones: each is closed when others need it.

const MOST = 32e6; // bytes of unpacked pictures
const AT_ONCE = 4; // that are being unpacked
const PIXEL = 4; // bytes

export class Bitmaps {
  /** @param {import("./frames.js").Frames} frames @param {() => void} came called when one is there @param {(blob: Blob) => Promise<ImageBitmap>} unpack */
  constructor(frames, came, unpack = (blob) => createImageBitmap(blob)) {
    this.frames = frames;
    this.came = came;
    this.unpack = unpack;
    /** @type {Map<number, { wide: number, bitmap: ImageBitmap }>} */
    this.held = new Map();
    /** @type {Set<number>} */
    this.coming = new Set();
    this.bytes = 0;
    this.closed = false;
  }

  /** The bitmap of a frame, if it is there; if not, it begins to be unpacked. @param {number} frame @returns {ImageBitmap | null} */
  get(frame) {
    const packed = this.frames.get(frame);
    const have = this.held.get(frame);
    if (packed && packed.wide > (have?.wide ?? 0)) void this.begin(frame, packed);
    if (!have) return null;
    this.held.delete(frame);
    this.held.set(frame, have);
    return have.bitmap;
  }

  /** @param {number} frame @param {import("./frames.js").Picture} packed */
  async begin(frame, packed) {
    if (this.coming.has(frame) || this.coming.size >= AT_ONCE) return;
    this.coming.add(frame);
    try {
      const bitmap = await this.unpack(new Blob([/** @type {BlobPart} */ (packed.data)]));
      if (this.closed) return bitmap.close();
      this.put(frame, packed.wide, bitmap);
    } catch {
      this.frames.drop(frame); // it came broken
    } finally {
      this.coming.delete(frame);
    }
    if (!this.closed) this.came();
  }

  /** @param {number} frame @param {number} wide @param {ImageBitmap} bitmap */
  put(frame, wide, bitmap) {
    this.drop(frame);
    this.held.set(frame, { wide, bitmap });
    this.bytes += size(bitmap);
    for (const [old] of this.held) {
      if (this.bytes <= MOST || old === frame) break;
      this.drop(old);
    }
  }

  /** @param {number} frame */
  drop(frame) {
    const had = this.held.get(frame);
    if (!had) return;
    this.held.delete(frame);
    this.bytes -= size(had.bitmap);
    had.bitmap.close();
  }

  close() {
    this.closed = true;
    for (const frame of [...this.held.keys()]) this.drop(frame);
  }
}

/** @param {ImageBitmap} b */
const size = (b) => b.width * b.height * PIXEL;
