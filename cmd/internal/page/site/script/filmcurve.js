// filmcurve draws what was measured of a take over what was planned of it, frame by frame.
import uPlot from "../vendor/uplot/uPlot.esm.js";
import { make } from "./make.js";
import { number } from "./shot.js";
import { look } from "./look.js";

const HIGH = 130; // px of a curve
const AIR = 0.08; // of its extent, above and below

/** Those panels in which something moves, or else the first. @param {Wire.FilmPanel[]} panels */
export function moving(panels) {
  const list = panels.filter((p) => {
    const [low, high] = extent(p);
    return high - low > p.least;
  });
  return list.length ? list : panels.slice(0, 1);
}

/** @param {Wire.FilmPanel} panel @returns {[number, number]} */
function extent({ measured, planned }) {
  const all = [...measured, ...planned].map((p) => p[1]);
  return all.length ? [Math.min(...all), Math.max(...all)] : [0, 1];
}

/** Both on the frames of what was measured: planned is there at the same ones. @param {Wire.FilmPanel} panel */
function columns({ measured, planned }) {
  const of = new Map(measured), frames = [...new Set([...measured, ...planned].map((p) => p[0]))].sort((a, b) => a - b), as = new Map(planned);
  return [frames, frames.map((f) => of.get(f) ?? null), frames.map((f) => as.get(f) ?? null)];
}

/** How far both are apart at the most, in words. @param {Wire.FilmPanel} panel */
export function apart({ measured, planned, unit }) {
  const as = new Map(planned);
  let worst = -1, at = 0;
  for (const [frame, value] of measured) {
    const off = Math.abs(value - (as.get(frame) ?? NaN));
    if (off > worst) (worst = off), (at = frame);
  }
  return worst < 0 ? "" : `at most ${number(worst, unit === "px" ? 2 : 4)} ${unit} off, at frame ${at}`;
}

export class FilmCurve {
  /** @param {Wire.FilmPanel} panel @param {(frame: number) => void} goTo */
  constructor(panel, goTo) {
    this.plot = make("div.film-plot", { role: "img", "aria-label": `${panel.name}, ${panel.unit}, over the frames of the film: ${apart(panel)}` });
    this.el = make("figure.film-curve", {}, make("figcaption", {}, make("b", {}, panel.name), ` ${panel.unit}`, make("small", {}, apart(panel))), this.plot);
    this.head = make("div.playhead", {});
    this.data = columns(panel);
    this.frames = /** @type {number[]} */ (this.data[0]);
    this.at = 0;
    this.panel = panel;
    this.goTo = goTo;
    /** @type {uPlot | null} */
    this.u = null;
    new ResizeObserver(() => this.fit()).observe(this.plot);
  }

  fit() {
    const width = this.plot.clientWidth;
    if (width < 1) return;
    if (!this.u) this.build(width);
    else if (this.u.width !== width) this.u.setSize({ width, height: HIGH });
    this.follow(this.at);
  }

  /** @param {number} width */
  build(width) {
    const { ink, faint, font, axes } = look();
    const text = { stroke: ink, font, grid: { stroke: faint, width: 1 }, ticks: { stroke: faint, width: 1 } };
    const [low, high] = extent(this.panel), air = Math.max((high - low) * AIR, this.panel.least / 2);
    this.u = new uPlot({
      width, height: HIGH, legend: { show: false }, cursor: { show: false }, padding: [8, 6, 0, 0],
      scales: { x: { time: false }, y: { range: [low - air, high + air] } },
      axes: [{ ...text, size: 30, space: 60 }, { ...text, size: 54, space: 28 }],
      series: [{}, { stroke: ink, width: 0, points: { show: true, size: 6, fill: ink, stroke: ink, width: 0 }, paths: () => null }, { stroke: axes[0].stroke, width: 2, points: { show: false } }],
      hooks: { setSize: [() => this.follow(this.at)] },
    }, this.data, this.plot);
    this.u.over.append(this.head);
    this.u.over.addEventListener("click", (e) => this.u && this.goTo(this.u.posToVal(e.offsetX, "x")));
  }

  /** Has the playhead at a place in the recording. @param {number} place */
  follow(place) {
    this.at = place;
    if (!this.u) return;
    this.head.hidden = place < this.frames[0] || place > this.frames[this.frames.length - 1];
    this.head.style.transform = `translateX(${this.u.valToPos(place, "x")}px)`;
  }

  close() {
    this.u?.destroy();
    this.el.remove();
  }
}
