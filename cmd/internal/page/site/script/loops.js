// loops shows the loops that spin and fit found, each with what takes it up.
import { make } from "./make.js";
import { number } from "./shot.js";
import { part, shown } from "./found.js";
import { MARKS } from "./marks.js";
import { cureOf, curesOf } from "./cures.js";

/** What takes a loop up: the program says what that is. @param {Wire.Fit | null} fit */
const take = (fit) => fit && cureOf(fit.edits.length ? { ...fit, text: "Take " + fit.text } : fit, "take");

/** What spin answers: loops that close, the shot's own, and what each table needs. @param {Wire.Spun} told */
export function spun(told) {
  const some = told.loops.length > 0 || told.own_loop;
  return make("div.answers", {},
    some ? make("p", {}, told.loops.length ? `${told.loops.length} of ${told.considered} loops close, the best first.` : `None of ${told.considered} loops closes.`) : make("p", {}, "No display stand is in this shot: nothing has to be paired."),
    told.own_loop ? part("The loop as it is", [found(told.own_loop)]) : null,
    told.loops.length ? part("Loops that close", told.loops.map((l, i) => found(l, told.take[i]))) : null,
    told.offers.length ? make("section", {}, make("h3", {}, "What would do"), curesOf(told.offers, "spin")) : null,
    told.tables.length ? part("Turntables", told.tables.map((t) => make("li", {}, `${t.name}: ${t.turns} turn a round, ${number(t.degrees_a_second, 2)} deg/s, ${t.steps_a_round} steps; whole steps after ${t.rounds_to_whole_steps} ${t.rounds_to_whole_steps === 1 ? "round" : "rounds"}; run-up ${t.run_up_frames} and run-out ${t.run_out_frames} frames`))) : null);
}

/** @param {spinreport.Loop} l @param {Wire.Fit} [fit] */
function found(l, fit) {
  return make("li", {}, make("p", {}, make("span.mark", { role: "img", "aria-label": l.closes ? "closes" : "does not close" }, MARKS[l.closes ? "good" : "bad"].sign),
    make("b", {}, ` ${l.timeline_frames} frames`), `, ${shown(l.screen_seconds)}${l.closes && !l.closes_for_sure ? "; it may miss by what the stopwatch leaves open" : ""}`),
  l.seams.map((s) => make("p.text", {}, `${s.stand} on ${s.speed}: off by ${number(s.error_degrees, 3)} deg${off(s.error_mm, "mm")}${off(s.error_pixels, "px")}; allowed ${number(s.bound_degrees, 3)} deg; ${seenAfter(s.rounds_until_it_shows)}`)),
  take(fit ?? null));
}

/** @param {number | null} rounds */
const seenAfter = (rounds) => (rounds === null ? "never seen" : `seen after ${rounds} ${rounds === 1 ? "round" : "rounds"}`);

/** @param {number | null} value @param {string} unit */
const off = (value, unit) => (typeof value === "number" ? `, ${number(value, 2)} ${unit}` : "");

/** What fit answers: the quickest and the gentlest loop. @param {Wire.Fitted} told */
export function fitted(told) {
  const choice = (/** @type {string} */ name, /** @type {fitreport.Loop | null} */ f, /** @type {Wire.Fit | null} */ fit) => f && make("li", {}, make("p", {}, make("b", {}, name), `: ${f.timeline_frames} frames, ${shown(f.screen_seconds)}${f.law ? ", law " + f.law : ""}`), take(fit));
  const held = Object.entries(told.held_back ?? {}).map(([what, n]) => `${what} (${n})`).join(", ");
  return make("div.answers", {},
    make("p", {}, `${told.tried} loops of ${told.between[0]} to ${told.between[1]} frames were tried${held ? "; held back by " + held : ""}.`),
    told.quickest || told.gentlest ? make("ul.found", {}, choice("The quickest", told.quickest, told.take_quickest), choice("The gentlest", told.gentlest, told.take_gentlest)) : make("p", {}, "None keeps the picture and the rig's limits."));
}
