// sound calls hands by tones, as the click track has them: a count is at 1000 Hz, its last
// beat, the moment itself, an octave above and twice as long; the count-in softer. Tones
// begin by the clock of the sound itself. A browser lets a page sound once it was touched.
import { at, words } from "./make.js";
import { on, shot } from "./shot.js";
import { refusal } from "./refusal.js";
import { mine, rig } from "./driver.js";

const WARN = { hz: 1000, ms: 40 }, NOW = { hz: 2000, ms: 80 }, BEGINS = { hz: 1000, ms: 80 };
const LOUD = 0.45, BEHIND = 0.35; // of full scale, and of that for the count-in
const FADE = 0.005; // s, so that the end of a tone is no click
const KEPT = "seamrail-sound";
const PLAIN = "Sound is on.", OFF = "Sound is off.";
const FRAMES = 2; // captured: what comes later than that is told

/** @type {AudioContext | null} */
let ctx = null;
let here = false; // switched on in this tab, whichever drives
let off = localStorage.getItem(KEPT) === "off";
let fails = "";

const wanted = () => !off && (mine() || here);

/** Asks the browser for sound; it says yes where a hand has just touched the page. */
function wake() {
  if (fails || off) return;
  try {
    ctx ??= new AudioContext({ latencyHint: "interactive" });
    ctx.onstatechange = show;
    if (ctx.state !== "running") void ctx.resume().then(show, show);
  } catch (err) {
    fails = refusal(err).message;
  }
  show();
}

/**
 * Begins a tone now; returns how many ms after that it is heard, as far as the browser knows.
 * @param {AudioContext} ctx
 * @param {{ hz: number, ms: number }} what
 * @param {number} loud
 */
function tone(ctx, { hz, ms }, loud) {
  const from = ctx.currentTime, to = from + ms / 1000;
  const source = new OscillatorNode(ctx, { frequency: hz }), gain = new GainNode(ctx, { gain: loud });
  gain.gain.setValueAtTime(loud, to - FADE);
  gain.gain.linearRampToValueAtTime(0, to);
  source.connect(gain).connect(ctx.destination);
  source.start(from);
  source.stop(to);
  return 1000 * ((ctx.outputLatency || 0) + (ctx.baseLatency || 0));
}

let late = 0; // ms after its beat, the worst of this run

/** Sounds a call. @param {Wire.Call} call */
export function called(call) {
  if (!wanted() || ctx?.state !== "running") return show();
  const what = call.left > 0 ? WARN : call.hand ? NOW : BEGINS;
  const out = tone(ctx, what, call.hand ? LOUD : LOUD * BEHIND);
  const after = performance.timeOrigin + performance.now() - call.at;
  late = Math.max(late, after + out);
  Object.assign(at("sound").dataset, { hz: what.hz, began: after.toFixed(1), out: out.toFixed(1), n: call.n });
  show();
}

function state() {
  if (off || (!mine() && !here)) return OFF;
  if (fails) return `No sound: ${fails}`;
  if (ctx?.state !== "running") return "No sound yet: the browser wants a click or a key here first.";
  const most = shot.view ? (1000 * FRAMES) / shot.view.captureHz : Infinity;
  return late > most ? `Tones come up to ${Math.ceil(late)} ms late, ${Math.ceil((late * shot.view.captureHz) / 1000)} frames.` : PLAIN;
}

function show() {
  words(at("sound-words"), state());
  at("sound-words").classList.toggle("plain", [PLAIN, OFF].includes(state()));
  at("sound").setAttribute("aria-pressed", String(wanted()));
}

at("sound").addEventListener("click", () => {
  off = wanted();
  here = !off;
  if (off) localStorage.setItem(KEPT, "off");
  else localStorage.removeItem(KEPT);
  if (off) void ctx?.suspend();
  wake();
  show();
});
at("sound-test").addEventListener("click", async () => {
  off = false;
  here = true;
  wake();
  await ctx?.resume().catch(() => {});
  if (ctx?.state === "running") tone(ctx, NOW, LOUD);
  show();
});
at("drive-open").addEventListener("click", wake);
for (const kind of /** @type {const} */ (["pointerdown", "keydown"])) addEventListener(kind, () => wanted() && ctx?.state !== "running" && wake(), { capture: true });

let was = false;
on("drive", () => {
  if (Boolean(rig?.open) !== was) late = 0;
  was = Boolean(rig?.open);
  show();
});
