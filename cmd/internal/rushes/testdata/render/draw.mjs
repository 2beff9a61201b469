// draw has the frames of an order drawn and sends them back.
import * as THREE from "three";
import { stage } from "./scene.mjs";

// So many frames go back at once: some megabytes.
const BATCH = 32;

// By how much textures may be seen aslant before they grow soft; what is more takes longer.
const SHARP = 4;

export async function draw(order) {
  const renderer = new THREE.WebGLRenderer({ antialias: true, preserveDrawingBuffer: true });
  renderer.setSize(order.width, order.height, false);
  renderer.setScissorTest(true); // rows that a sample does not count for are not drawn
  const set = stage(order.product, SHARP);
  const lens = new THREE.PerspectiveCamera(0, order.width / order.height, 20, 4000);
  const still = exposure(renderer, set, lens, order.width, order.height);
  for (const [n, take] of order.takes.entries()) {
    lens.fov = take.view;
    lens.updateProjectionMatrix();
    for (let k = 0; k < take.frames.length; k += BATCH) {
      const parts = take.frames.slice(k, k + BATCH).flatMap((samples) => ["FRAME\n", still(samples)]);
      await fetch("/" + n, { method: "POST", body: new Blob(parts) });
    }
  }
}

/** Makes one frame of its samples: each row the mean of those that count for it. */
function exposure(renderer, set, lens, width, height) {
  const gl = renderer.getContext();
  const seen = new Uint8Array(width * height * 4); // rows from below, as OpenGL has them
  const sum = new Float32Array(width * height);
  const counts = new Float32Array(height);
  return (samples) => {
    sum.fill(0);
    counts.fill(0);
    for (const s of samples) {
      set.place(s);
      lens.position.set(s.x, s.y, s.z);
      lens.rotation.z = ((s.roll ?? 0) * Math.PI) / 180;
      const from = Math.round((s.from ?? 0) * height), to = Math.round((s.to ?? 1) * height);
      renderer.setScissor(0, height - to, width, to - from);
      renderer.render(set.scene, lens);
      gl.readPixels(0, height - to, width, to - from, gl.RGBA, gl.UNSIGNED_BYTE, seen);
      for (let y = from; y < to; y++) add(seen, (to - 1 - y) * width * 4, sum, y * width, width);
      for (let y = from; y < to; y++) counts[y]++;
    }
    return mean(sum, counts, width, height);
  };
}

// Luma of what is encoded: Rec. ITU-R BT.709-6 (2015), 3.2.
function add(seen, at, sum, to, width) {
  for (let x = 0; x < width; x++, at += 4) sum[to + x] += 0.2126 * seen[at] + 0.7152 * seen[at + 1] + 0.0722 * seen[at + 2];
}

function mean(sum, counts, width, height) {
  const out = new Uint8ClampedArray(width * height); // which rounds
  for (let y = 0; y < height; y++) {
    for (let i = y * width; i < (y + 1) * width; i++) out[i] = sum[i] / counts[y];
  }
  return out;
}
