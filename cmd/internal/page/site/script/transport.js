// transport is the row of buttons that move the playhead.
import { at, button, make, words } from "./make.js";
import { frameOf, shot, timelinePerFrame } from "./shot.js";
import { PACES, follow, holdSeam, loopSeam, playOrPause, playhead, setPace, stepBy } from "./playhead.js";

const go = button("Go round", playOrPause, { id: "play", "aria-keyshortcuts": "Space" });
const back = button("\u2212 1", () => stepBy(-1), { id: "back", "aria-label": "\u2212 1 frame", "aria-keyshortcuts": "ArrowLeft" });
const on = button("+ 1", () => stepBy(1), { id: "onward", "aria-label": "+ 1 frame", "aria-keyshortcuts": "ArrowRight" });
const hold = button("Hold seam", holdSeam, { id: "hold-seam", "aria-keyshortcuts": "Home", title: "Stand at the joint of the round" });
const loop = button("Loop seam", () => loopSeam(!playhead.seam), { id: "loop-seam", "aria-pressed": "false", title: "Go over the joint again and again" });
const paces = /** @type {[import("./playhead.js").Pace, string][]} */ (Object.entries(PACES)).map(([name, text]) => button(text, () => setPace(name), { id: "pace-" + name, "aria-pressed": "false" }));
const now = at("now");

at("transport").append(
  go, make("span.joined", {}, back, on),
  make("span.joined", { role: "group", "aria-label": "Pace" }, ...paces),
  make("span.joined", { role: "group", "aria-label": "Seam" }, hold, loop),
);

follow((p) => {
  words(go, p.playing ? "Stand still" : "Go round");
  go.classList.toggle("on", p.playing);
  loop.setAttribute("aria-pressed", String(p.seam));
  for (const b of paces) b.setAttribute("aria-pressed", String(b.id === "pace-" + p.pace));
  if (!shot.view) return;
  const frame = p.frame * timelinePerFrame(shot.view);
  const sec = (p.frame / shot.view.frames) * shot.view.loopScreenSeconds;
  words(now, `${sec.toFixed(2)} s shown\n${(p.frame / shot.view.captureHz).toFixed(3)} s on the rig\ncaptured ${frameOf(p.frame)}`);
  now.dataset.frame = frame.toFixed(3);
});
