// ground is what lies behind a curve.
import { look } from "./look.js";
import { shot } from "./shot.js";

/** @typedef {import("../vendor/uplot/uPlot.esm.js").default} Plot */

/** The neighbours' ground, the seam's stitches and the travel's ends. @param {Plot} u @param {[number, number] | null} travel */
export function ground(u, travel) {
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
  for (const end of travel ?? []) line(ctx, u.valToPos(end, "y", true), bbox, px, limit);
  ctx.restore();
}

/** @param {CanvasRenderingContext2D} ctx @param {number} x @param {Plot["bbox"]} box @param {number} px @param {string} colour */
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

/** @param {CanvasRenderingContext2D} ctx @param {number} y @param {Plot["bbox"]} box @param {number} px @param {string} colour */
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
