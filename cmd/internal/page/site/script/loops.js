// loops shows the loops that spin and fit found, each with what takes it up.
import { button, make } from "./make.js";
import { change } from "./planner.js";
import { number, shot } from "./shot.js";

const seconds = (text) => {
  const [a, b = 1] = String(text).split("/").map(Number);
  return `${(a / b).toFixed(3)} s shown`;
};

const loopEdit = (frames) => ({ path: "clock.loop", value: `${frames} frames` });

/** What spin answers: loops that close, the shot's own, and what each table needs. */
export function spun(told) {
  const some = told.loops.length > 0 || told.own_loop;
  return make("div.answers", {},
    some ? make("p", {}, told.loops.length ? `${told.loops.length} of ${told.considered} loops close, the best first.` : `None of ${told.considered} loops closes.`) : make("p", {}, "No display stand is in this shot: nothing has to be paired."),
    told.own_loop ? part("The loop as it is", [found(told.own_loop, null)]) : null,
    told.loops.length ? part("Loops that close", told.loops.map((l) => found(l, "Take this loop"))) : null,
    told.fits.length ? part("What would do", told.fits.map((f) => make("li", {}, typeof f === "string" ? f : f.text ?? JSON.stringify(f)))) : null,
    told.tables.length ? part("Turntables", told.tables.map((t) => make("li", {}, `${t.name}: ${t.turns} turn a round, ${number(t.degrees_a_second, 2)} deg/s, ${t.steps_a_round} steps; whole steps after ${t.rounds_to_whole_steps} ${t.rounds_to_whole_steps === 1 ? "round" : "rounds"}; run-up ${t.run_up_frames} and run-out ${t.run_out_frames} frames`))) : null);
}

const part = (name, items) => make("section", {}, make("h3", {}, name), make("ul.found", {}, items));

function found(l, take) {
  const edits = [loopEdit(l.timeline_frames), ...l.seams.filter((s) => shot.view.values.some((v) => v.path === `spin.${s.stand}.speed`)).map((s) => ({ path: `spin.${s.stand}.speed`, value: s.speed }))];
  return make("li", {}, make("p", {}, make("span.mark", { role: "img", "aria-label": l.closes ? "closes" : "does not close" }, l.closes ? "\u25cf" : "\u25b2"),
    make("b", {}, ` ${l.timeline_frames} frames`), `, ${seconds(l.screen_seconds)}${l.closes && !l.closes_for_sure ? "; it may miss by what the stopwatch leaves open" : ""}`),
  l.seams.map((s) => make("p.text", {}, `${s.stand} on ${s.speed}: off by ${number(s.error_degrees, 3)} deg${off(s.error_mm, "mm")}${off(s.error_pixels, "px")}; allowed ${number(s.bound_degrees, 3)} deg; seen after ${s.rounds_until_it_shows} ${s.rounds_until_it_shows === 1 ? "round" : "rounds"}`)),
  take ? button(take, () => change(edits, { label: `a loop of ${l.timeline_frames} frames` }), { class: "fit" }) : null);
}

const off = (value, unit) => (typeof value === "number" ? `, ${number(value, 2)} ${unit}` : "");

/** What fit answers: the quickest and the gentlest loop. */
export function fitted(told) {
  const moved = shot.view.axes.find((a) => a.lawTried);
  const choice = (name, f) => f && make("li", {}, make("p", {}, make("b", {}, name), `: ${f.timeline_frames} frames, ${seconds(f.screen_seconds)}, law ${f.law}`),
    button("Take this loop", () => change([loopEdit(f.timeline_frames), ...(moved ? [{ path: `axis.${moved.name}.law`, value: f.law }] : [])], { label: name.toLowerCase() }), { class: "fit" }));
  const held = Object.entries(told.held_back ?? {}).map(([what, n]) => `${what} (${n})`).join(", ");
  return make("div.answers", {},
    make("p", {}, `${told.tried} loops of ${told.between[0]} to ${told.between[1]} frames were tried${held ? "; held back by " + held : ""}.`),
    told.quickest || told.gentlest ? make("ul.found", {}, choice("The quickest", told.quickest), choice("The gentlest", told.gentlest)) : make("p", {}, "None keeps the picture and the rig's limits."));
}
