// drive is the bench from which the rig is run.
import { at, button, fill, make, words } from "./make.js";
import { number, on, shot } from "./shot.js";
import { mine, moving, open, rig, want } from "./driver.js";
import { goTo, pause, playhead } from "./playhead.js";
import { showTakes } from "./takes.js";
import { ofPlan } from "./marking.js";
import { fetchFile } from "./deliver.js";
import { extent, onCurve } from "./rigwords.js";

/** What each request is called, in the order of a run. */
const WORDS = {
  home: "Find the switches", here: "All axes stand at the start", unlock: "Unlock", go: "Go to the start", confirm: "Arm: all clear, count in",
  decline: "Not yet", finish: "End after this round", taken: "Frame taken", resume: "Go on", restart: "From the start again, as another take", quit: "Let go of the rig",
};

function ports() {
  const list = [["virtual", "a rig made of software"], ...shot.start.ports.map((p) => [p.name, [p.name, p.about].filter(Boolean).join(", ")])];
  at("port").replaceChildren(...list.map(([value, text]) => make("option", { value }, text)));
}
on("start", ports);

at("drive-open").addEventListener("click", () => {
  void open(at("port").value, {
    fast: at("fast").checked, countIn: Number(at("count-in").value) || 0, endless: at("endless").checked && !shot.view?.byFrame, keepWire: at("keep-wire").checked,
    group: at("group").value.trim(), pass: at("pass").value.trim(), goOn: Boolean(shot.view?.byFrame) && at("go-on").checked,
  });
});
at("wire-get").addEventListener("click", () => void fetchFile("drive/wire", {}));

const asks = new Map(Object.entries(WORDS).map(([request, text]) => [request, button(text, () => ask(request), { id: "drive-" + request })]));
at("drive-asks").append(...asks.values());

/** @param {string} request */
const ask = (request) => void (request === "go" ? ofPlan("go") : want(request));

/** A rig that is set and started by hand has its steps here, and nothing to take hold of. */
on("view", () => {
  const steps = shot.view?.byHand ?? [];
  at("drive-by-hand").hidden = steps.length === 0;
  at("drive-setup").hidden = Boolean(rig?.open) || steps.length > 0;
  at("rig-read").hidden = at("drive-setup").hidden;
  at("sync-words").hidden = !shot.view?.syncMark;
  rows();
  at("presses").replaceChildren(...steps.map((step) => make("li", {}, step)));
  at("press-cautions").replaceChildren(...(shot.view?.cautions ?? []).map((caution) => make("li", {}, caution)));
});

/** A take frame by frame goes on, and ends by itself. */
function rows() {
  at("go-on-row").hidden = !shot.view?.byFrame;
  at("endless-row").hidden = Boolean(shot.view?.byFrame);
}

let held = "";

on("drive", () => {
  const open = Boolean(rig?.open);
  document.body.classList.toggle("driving", open);
  document.body.classList.toggle("moving", moving());
  at("drive-setup").hidden = open || !at("drive-by-hand").hidden;
  rows();
  at("rig-read").hidden = at("drive-setup").hidden; // while something is driven its port is not asked
  at("drive-run").hidden = !rig || (!open && !rig.ended);
  at("wire").hidden = !rig?.wire;
  if (rig) show(open);
  const holds = open && mine() ? (rig.state === "cautions" ? "cautions" : "else") : "";
  if (holds && holds !== held) at("drive-run").scrollIntoView(); // the button that was pressed may be far below
  held = holds;
});

/** @param {boolean} open */
function show(open) {
  words(at("drive-state"), rig.state);
  words(at("drive-where"), open ? `${rig.where === "virtual" ? "a rig made of software" : rig.where}${mine() ? "" : ", driven by another page"}` : rig.ended ?? "");
  at("drive-lost").hidden = !rig.lost;
  for (const [request, b] of asks) b.hidden = !(open && mine() && rig.takes.includes(request));
  const armed = rig.state === "cautions";
  at("cautions").hidden = rig.cautions.length === 0;
  unfold(open, armed);
  fill(at("caution-list"), rig.cautions.join("\n"), () => rig.cautions.map((c) => make("li", {}, c)));
  fill(at("readback"), JSON.stringify(rig.readback), () => rig.readback.map((r) => make("tr", {},
    make("td", {}, r.axis), make("td", {}, r.what), make("td", {}, r.wanted), make("td", {}, r.compared ? "\u25cf the same" : r.setting ? "\u25cb not read yet" : "\u25cb not asked"))));
  at("readback-table").hidden = rig.readback.length === 0;
  words(at("count"), rig.count > 0 ? String(rig.count) : "");
  at("count").hidden = !(rig.count > 0);
  fill(at("said"), JSON.stringify(rig.said), () => rig.said.map((s) => make("p", {}, s.text)));
  at("said").scrollTop = at("said").scrollHeight;
  fill(at("passes"), JSON.stringify(rig.passes), () => rig.passes.map((p) => make("li", {}, `${rig.where === "virtual" ? "virtual take" : "take"} ${p.take}: ${p.end}, ${extent(p)}${p.lasted ? `, ${p.lasted.toFixed(3)} s (planned ${p.planned.toFixed(3)} s)` : ""}${p.detail ? "; " + p.detail : ""}`)));
  if (passes !== rig.passes.length) (passes = rig.passes.length, void showTakes());
  live();
}

let unread = true;
let unfolded = false;

/**
 * The cautions are open from when hold is taken, above all that moves the rig, until the word of a take is said, and again for each word.
 * @param {boolean} open
 * @param {boolean} armed
 */
function unfold(open, armed) {
  unread = !open || unread && (armed || !at("cautions").classList.contains("now"));
  const now = open && (armed || unread);
  if (now !== unfolded) at("cautions").open = unfolded = now;
  at("cautions").classList.toggle("now", armed);
}

let passes = 0;
let wasRunning = false;

const ON_FRAMES = new Set(["running", "waiting for the hand", "held"]);

/** How far a take frame by frame has come, and what is to be done for the next. */
function framesWords() {
  const call = rig.state === "waiting for the hand" && rig.calls.length ? `take ${rig.calls.at(-1)?.text}` : `next is frame ${rig.frame}`;
  const next = rig.taken < rig.of ? `; ${call}, ${rig.timecode}` : "";
  return `${rig.taken} of ${rig.of} frames taken${next}${rig.left > 0 ? `; ${Math.ceil(rig.left / 60)} min left` : ""}`;
}

function live() {
  const running = rig.state === "running";
  if (running && !wasRunning) pause(); // the playhead goes with the rig
  wasRunning = running;
  words(at("drive-round"), rig.of > 0 && ON_FRAMES.has(rig.state) ? framesWords() : running ? (rig.round < 0 ? "run-up" : `round ${rig.round + 1}, frame ${rig.frame}, ${rig.timecode}`) : "");
  fill(at("live"), rig.axes.map((a) => a.name).join(), () => rig.axes.map((a, i) => make("tr", { "data-axis": i }, make("th", { scope: "row" }, a.name), make("td", {}), make("td", {}), make("td", {}))));
  const { seen } = rig;
  rig.axes.forEach((a, i) => {
    const cells = at("live").children[i].children;
    const put = (/** @type {number} */ n, /** @type {number[] | undefined} */ list, /** @type {number} */ places) => words(cells[n], list && list.length > i ? `${number(list[i], places)} ${a.unit}` : "\u2013");
    put(1, seen?.at ?? rig.pos, 2);
    put(2, seen?.plan, 2);
    put(3, seen?.off, 3);
  });
  words(at("live-source"), seen ? `${seen.reported ? "as the controller reported" : "as worked out from what was answered"}, all of one instant${seen.round >= 0 ? `, frame ${seen.frame.toFixed(1)}` : ""}` : "");
  at("buffer").value = rig.buffer;
  follow();
}

let followed = /** @type {number | null} */ (null);

/** The playhead goes with the rig, and stands where it is held; from there it can be taken elsewhere. */
function follow() {
  const where = onCurve(rig, shot.view?.plan)?.frame ?? null;
  if (where !== null && where !== followed && !playhead.playing) goTo(where);
  followed = where;
}
