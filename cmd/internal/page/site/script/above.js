// above draws the scene from above as the plan has it. Where things are in every
// frame, the plan says too; it is drawn as the camera's stand sees it, so that the
// product is what moves when it is moved.
import { at, draw, words } from "./make.js";
import { on, shot } from "./shot.js";
import { follow, playhead } from "./playhead.js";
import { Glide } from "./glide.js";
import { Grips } from "./grips.js";

const svg = at("above");
const ground = draw("g", {}), live = draw("g.live", {}), grips = draw("g", {});
const stage = draw("g", {}, ground, live, grips); // all of it, placed from the camera's stand
const AIR = 46; // mm around what is drawn
const LEAST = 0.55; // of the picture's width that what is drawn may shrink to before it is drawn larger
const WIDE = new Set(["beam", "field"]); // reach beyond what is looked at
const TURNS = new Set(["product", "face"]);

let mm = 1; // mm in a pixel
let wide = 1, high = 1; // px of the drawing
/** @type {(Wire.Carried & { el: SVGElement })[]} what the camera takes along */
let parts = [];
/** @type {SVGElement | null} */
let product = null;
svg.append(stage);

/** @typedef {[number, number]} Place mm */

const corner = (/** @type {Place} */ [x, y]) => `${x.toFixed(2)} ${(-y).toFixed(2)}`;
/** @param {Place[]} points @param {boolean} [closed] */
const path = (points, closed) => "M" + points.map(corner).join("L") + (closed ? "Z" : "");

/** @param {Wire.Item} item */
function shape(item, kind = item.kind) {
  if (item.radius) return draw("circle." + kind, { cx: item.points[0][0], cy: -item.points[0][1], r: item.radius });
  if (item.points.length === 1) return point(item, kind);
  return draw("path." + kind, { d: path(item.points, item.closed) });
}

/** @param {Wire.Item} item @param {string} kind */
function point(item, kind) {
  const [x, y] = item.points[0];
  return draw("path." + kind, { d: `M${x - 5 * mm} ${-y}h${10 * mm}M${x} ${-y - 5 * mm}v${10 * mm}` });
}

/** The box that is looked at, from the camera's stand: all but what reaches far beyond it. @param {Wire.TopView} above */
function boxOf({ items, stand }) {
  const points = items.filter((i) => !WIDE.has(i.kind)).flatMap((i) => i.points.flatMap(([x, y]) => [[x - (i.radius ?? 0), y - (i.radius ?? 0)], [x + (i.radius ?? 0), y + (i.radius ?? 0)]]));
  const xs = points.map((p) => p[0] - stand[0]), ys = points.map((p) => stand[1] - p[1]);
  return { left: Math.min(...xs) - AIR, right: Math.max(...xs) + AIR, top: Math.min(...ys) - AIR, foot: Math.max(...ys) + AIR };
}

const across = new Glide(look), along = new Glide(look);

/** The window stands still for as long as what is drawn is in it and fills it well. @param {ReturnType<typeof boxOf>} box */
function fit(box) {
  if (grip.dragging) return;
  const fills = (/** @type {Glide} */ { set, goal }, /** @type {number} */ low, /** @type {number} */ high) => (set && goal[0] <= low && goal[1] >= high ? (high - low) / (goal[1] - goal[0]) : -Infinity);
  const both = [fills(across, box.left, box.right), fills(along, box.top, box.foot)];
  if (Math.min(...both) > 0 && Math.max(...both) > LEAST) return;
  across.to([box.left, box.right]);
  along.to([box.top, box.foot]);
}

function look() {
  if (!across.set || !along.set) return;
  const [left, right] = across.now, [top, foot] = along.now;
  svg.setAttribute("viewBox", [left, top, right - left, foot - top].join(" "));
  scale();
}

function scale() {
  if (!across.set || !along.set) return;
  const [left, right] = across.now, [top, foot] = along.now;
  mm = Math.max((right - left) / wide, (foot - top) / high);
  svg.style.fontSize = 13 * mm + "px";
  if (shot.view?.above) grip.show(shot.view.above.drags, mm);
}

function show() {
  const { above } = shot.view;
  at("above-none").hidden = Boolean(above);
  svg.classList.toggle("none", !above);
  if (!above) return;
  stage.setAttribute("transform", `translate(${-above.stand[0]} ${above.stand[1]})`);
  fit(boxOf(above));
  scale();
  const still = above.items.filter((i) => i.end < 0 && !TURNS.has(i.kind) && i.kind !== "rail");
  const order = (/** @type {Wire.Item} */ i) => (i.kind === "beam" ? 0 : 1);
  const rails = above.items.some((i) => i.kind === "rail") ? [draw("path.rail", { d: path(above.placed.way) })] : [];
  ground.replaceChildren(
    ...rails, ...still.filter((i) => i.kind !== "lamp").sort((a, b) => order(a) - order(b)).map((i) => shape(i)),
    ...above.items.filter((i) => i.kind === "lens" && i.end >= 0).map((i) => shape(i, "lens-end")),
    ...still.filter((i) => i.kind === "lamp").map(named),
  );
  words(at("above-words"), described(above));
  gather(above);
  move(playhead);
}

/** Draws what moves, once a plan; with the playhead only its places change. @param {Wire.TopView} above */
function gather({ items, placed }) {
  parts = placed.carried.map((c) => ({ ...c, el: draw("path." + c.kind, {}) }));
  product = draw("g.turned", {}, items.filter((i) => TURNS.has(i.kind)).map((i) => shape(i)));
  live.replaceChildren(...parts.map((p) => p.el), product);
}

/** @param {Wire.Item} item */
function named(item) {
  const [x, y] = item.points[0];
  const left = x > 0;
  return draw("text.name", { x: x + (left ? -16 : 16) * mm, y: -y - 12 * mm, "text-anchor": left ? "end" : "start" }, item.name ?? "");
}

/** @param {Wire.TopView} above */
const described = (above) => above.items.filter((i) => i.label || i.name).map((i) => [i.kind, i.name, i.label].filter(Boolean).join(" ")).join("; ");

/** What the camera takes along and what the table turns, at the instant of the playhead. @param {typeof playhead} p */
function move(p) {
  const placed = shot.view?.above?.placed;
  if (!placed?.table.length) return;
  const told = Math.min(Math.floor(p.frame / placed.every), placed.table.length - 2);
  const from = told * placed.every;
  const share = (p.frame - from) / (Math.min(from + placed.every, shot.view.frames) - from);
  const between = (/** @type {number} */ a, /** @type {number} */ b) => a + (b - a) * share;
  for (const { at, closed, el } of parts) {
    const points = at[told].map(([x, y], k) => /** @type {Place} */ ([between(x, at[told + 1][k][0]), between(y, at[told + 1][k][1])]));
    el.setAttribute("d", points.length > 1 ? path(points, closed) : `M${points[0][0] - 5 * mm} ${-points[0][1]}h${10 * mm}`);
  }
  product?.setAttribute("transform", `rotate(${-between(placed.table[told], placed.table[told + 1])})`);
  svg.dataset.frame = p.frame.toFixed(3);
}

const grip = new Grips(svg, grips);
on("view", show);
follow(move);
/** Asked with each plan, it would have the page laid out each time. */
function sized() {
  [wide, high] = [Math.max(svg.clientWidth, 1), Math.max(svg.clientHeight, 1)];
  scale();
}

new ResizeObserver(sized).observe(svg);
sized();
