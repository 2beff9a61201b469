// above draws the scene from above as the plan has it, and lets carriage ends,
// product and lamps be moved in it. What a place means, the plan says.
import { at, draw, words } from "./make.js";
import { on, number, position, shot } from "./shot.js";
import { follow, playhead } from "./playhead.js";
import { change } from "./planner.js";

const svg = at("above");
const ground = draw("g", {}), live = draw("g.live", {}), grips = draw("g", {});
const AIR = 46; // mm around what is drawn
const FINE = 1, PLAIN = 10, COARSE = 50; // mm a key press
const GRIP = 11; // px, the radius of what is gripped
const BESIDE = 30; // px that the carriage's two ends are gripped beside it, however near to each other they are
const MOVES = new Set(["lens", "field", "sharp"]); // what the carriage carries
const WIDE = new Set(["beam", "field"]); // reach beyond what is looked at

const buttons = new Map();
let mm = 1; // mm in a pixel
let dragging = null;
let parts = []; // what the carriage carries
let product = null;
svg.append(ground, live, grips);

const corner = ([x, y]) => `${x.toFixed(2)} ${(-y).toFixed(2)}`;
const path = (points, closed) => "M" + points.map(corner).join("L") + (closed ? "Z" : "");

function shape(item, kind = item.kind) {
  if (item.radius) return draw("circle." + kind, { cx: item.points[0][0], cy: -item.points[0][1], r: item.radius });
  if (item.points.length === 1) return point(item, kind);
  return draw("path." + kind, { d: path(item.points, item.closed) });
}

function point(item, kind) {
  const [x, y] = item.points[0];
  return draw("path." + kind, { d: `M${x - 5 * mm} ${-y}h${10 * mm}M${x} ${-y - 5 * mm}v${10 * mm}` });
}

/** The box that is looked at: all but what reaches far beyond it. */
function frameBox(above) {
  const points = above.items.filter((i) => !WIDE.has(i.kind)).flatMap((i) => i.points.flatMap(([x, y]) => [[x - (i.radius ?? 0), y - (i.radius ?? 0)], [x + (i.radius ?? 0), y + (i.radius ?? 0)]]));
  const xs = points.map((p) => p[0]), ys = points.map((p) => -p[1]);
  const [x, y] = [Math.min(...xs) - AIR, Math.min(...ys) - AIR];
  return [x, y, Math.max(...xs) + AIR - x, Math.max(...ys) + AIR - y];
}

function show() {
  const { above } = shot.view;
  at("above-none").hidden = Boolean(above);
  svg.classList.toggle("none", !above);
  if (!above) return;
  if (!dragging) {
    const box = frameBox(above);
    svg.setAttribute("viewBox", box.join(" "));
    mm = Math.max(box[2] / Math.max(svg.clientWidth, 1), box[3] / Math.max(svg.clientHeight, 1));
    svg.style.fontSize = 13 * mm + "px";
  }
  const still = above.items.filter((i) => i.end < 0 && !["product", "face"].includes(i.kind));
  const order = (i) => (i.kind === "beam" ? 0 : 1);
  ground.replaceChildren(
    ...still.filter((i) => i.kind !== "lamp").sort((a, b) => order(a) - order(b)).map((i) => shape(i)),
    ...above.items.filter((i) => i.kind === "lens" && i.end >= 0).map((i) => shape(i, "lens-end")),
    ...still.filter((i) => i.kind === "lamp").map(named),
  );
  words(at("above-words"), described(above));
  above.drags.forEach(grip);
  for (const [p, b] of buttons) if (!above.drags.some((d) => d.path === p)) (b.remove(), buttons.delete(p));
  gather(above.items);
  move(playhead);
}

/** Draws what moves, once a plan; with the playhead only its places change. */
function gather(items) {
  parts = items.filter((i) => MOVES.has(i.kind) && i.end === 0).map((item) => {
    const at = (end) => items.filter((j) => j.kind === item.kind && j.end === end);
    return { item, far: at(1)[at(0).indexOf(item)], el: shape(item) };
  });
  product = draw("g", {}, items.filter((i) => ["product", "face"].includes(i.kind)).map((i) => shape(i)));
  live.replaceChildren(...parts.map((p) => p.el), product);
}

function named(item) {
  const [x, y] = item.points[0];
  const left = x > 0;
  return draw("text.name", { x: x + (left ? -16 : 16) * mm, y: -y - 12 * mm, "text-anchor": left ? "end" : "start" }, item.name ?? "");
}

const described = (above) => above.items.filter((i) => i.label || i.name).map((i) => [i.kind, i.name, i.label].filter(Boolean).join(" ")).join("; ");

/** What the carriage carries and what the table turns, at the instant of the playhead. */
function move(p) {
  if (!shot.view?.above) return;
  const share = carried(p.frame);
  for (const { item, far, el } of parts) if (far && share !== null && item.points.length > 1) el.setAttribute("d", path(between(item, far, share), item.closed));
  product?.setAttribute("transform", `rotate(${-turned(p.frame)})`);
}

const between = (item, far, share) => item.points.map(([x, y], k) => [x + (far.points[k][0] - x) * share, y + (far.points[k][1] - y) * share]);

/** How far the carriage is from the place it is drawn at first to the other. */
function carried(frame) {
  const ends = shot.view.above.drags.filter((d) => d.kind === "carriage");
  if (ends.length !== 2) return null;
  const axis = shot.view.axes.find((a) => ends[0].paths[0].startsWith(`axis.${a.name}.`));
  const [a, b] = ends.map((d) => axis.handles.find((h) => h.path === d.paths[0])?.pos);
  return a === b ? 0 : (position(axis, frame) - a) / (b - a);
}

function turned(frame) {
  const axis = shot.view.axes.find((a) => shot.view.values.some((v) => v.path === `scene.axis.${a.name}.role` && v.value === "table"));
  if (axis) return position(axis, frame) - axis.pos[0];
  const stand = shot.view.stands[0];
  return stand ? position(stand, frame) - stand.pos[0] : 0;
}

function grip(d) {
  let g = buttons.get(d.path);
  if (!g) {
    g = draw("g.grip." + d.kind, { role: "button", tabindex: "0", "aria-roledescription": "movable point", "data-path": d.path });
    g.append(draw("circle.target", {}), draw("path.sign", {}));
    g.addEventListener("pointerdown", (e) => take(e, g));
    g.addEventListener("pointermove", (e) => pull(e, g));
    g.addEventListener("pointerup", (e) => leave(e, g));
    g.addEventListener("pointercancel", (e) => leave(e, g));
    g.addEventListener("keydown", (e) => press(e, g.drag));
    buttons.set(d.path, g);
    grips.append(g);
  }
  g.drag = d;
  const aside = d.kind === "carriage" ? (d.path.endsWith("[1]") ? -1 : 1) * BESIDE : 0;
  g.setAttribute("transform", `translate(${d.x} ${-d.y}) scale(${mm})`);
  for (const part of g.children) part.setAttribute("transform", `translate(${aside} 0)`);
  g.setAttribute("aria-label", `${d.label}: ${number(d.x, 0)} mm to the right, ${number(d.y, 0)} mm away from the table's axis; the arrow keys move it`);
  g.firstChild.setAttribute("r", GRIP);
  g.lastChild.setAttribute("d", { lamp: "M-6-6L6 6M6-6L-6 6", carriage: aside < 0 ? "M-6-5V5M-6 0H30" : "M6-5V5M6 0H-30", product: "M0-7V7M-7 0H7" }[d.kind] ?? "");
}

function place(e) {
  const p = new DOMPoint(e.clientX, e.clientY).matrixTransform(dragging.toDrawing);
  return { x: dragging.drag.x + p.x - dragging.from.x, y: dragging.drag.y - (p.y - dragging.from.y) };
}

function take(e, g) {
  e.preventDefault();
  g.focus({ preventScroll: true });
  g.setPointerCapture(e.pointerId);
  const toDrawing = svg.getScreenCTM().inverse();
  dragging = { text: shot.text, drag: { ...g.drag }, toDrawing, from: new DOMPoint(e.clientX, e.clientY).matrixTransform(toDrawing), moved: false };
  g.classList.add("held");
}

function pull(e, g) {
  if (!dragging || !g.hasPointerCapture(e.pointerId)) return;
  dragging.moved = true;
  void change([{ path: dragging.drag.path, ...place(e) }], { text: dragging.text, before: dragging.text, last: false });
}

function leave(e, g) {
  const was = dragging;
  if (!was) return;
  const to = place(e);
  dragging = null;
  g.classList.remove("held");
  if (was.moved) void change([{ path: was.drag.path, ...to }], { text: was.text, before: was.text, label: was.drag.label });
}

function press(e, d) {
  const way = { ArrowUp: [0, 1], ArrowDown: [0, -1], ArrowLeft: [-1, 0], ArrowRight: [1, 0] }[e.key];
  if (!way || e.ctrlKey || e.metaKey) return;
  e.preventDefault();
  e.stopPropagation();
  const by = e.shiftKey ? COARSE : e.altKey ? FINE : PLAIN;
  void change([{ path: d.path, x: d.x + way[0] * by, y: d.y + way[1] * by }], { label: d.label });
}

on("view", show);
follow(move);
new ResizeObserver(() => shot.view && show()).observe(svg);
