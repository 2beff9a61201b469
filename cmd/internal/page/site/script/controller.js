// controller asks what the rig's controller makes of a plan, once nothing has been
// changed for a moment: it takes longer than drawing.
import { ask } from "./server.js";
import { on, shot, tell } from "./shot.js";

const QUIET = 400; // ms

let waiting = 0;
let asking = false;
let planned = ""; // the text of the view; that at hand may have been typed on

on("view", () => {
  planned = shot.text;
  clearTimeout(waiting);
  if (!shot.dragged) waiting = setTimeout(work, QUIET);
});

async function work() {
  if (asking || !shot.view) return;
  asking = true;
  const of = shot.view;
  try {
    const found = await ask("controller", { text: planned });
    if (shot.view === of) show(found);
  } catch {
    // That nobody answers is told by whatever is asked next.
  }
  asking = false;
  if (shot.view !== of && !shot.dragged) void work();
}

function show(found) {
  Object.assign(shot.view, { ready: found.ready, level: found.level, words: found.words, verdicts: [...shot.view.verdicts, ...found.verdicts] });
  tell("controller");
}
