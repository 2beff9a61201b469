// controller asks what the rig's controller makes of a plan, once nothing has been
// changed for a moment: it takes longer than drawing.
import { ask } from "./server.js";
import { on, shot, tell } from "./shot.js";
import { sayError } from "./notice.js";
import { working } from "./work.js";

const QUIET = 400; // ms

let waiting = 0;
/** @type {AbortController | null} the question under way */
let own = null;
/** @type {Wire.View | null} the view of which it was asked, or given up */
let known = null;
let planned = ""; // the text of the view; that at hand may have been typed on

on("view", () => (planned = shot.text));
on("asked", () => {
  clearTimeout(waiting);
  own?.abort();
});
on("planned", () => {
  if (shot.view && shot.view !== known && !shot.dragged) waiting = setTimeout(work, QUIET);
});

async function work() {
  const of = shot.view;
  const before = shot.asked;
  own?.abort();
  const mine = (own = new AbortController());
  try {
    const found = await working("what the controller makes of it", (signal) => ask("controller", { text: planned }, signal), mine.signal);
    if (shot.view === of) show(found);
  } catch (err) {
    if (shot.view === of) sayError(err); // given up, it stays unknown
  }
  if (shot.asked === before) known = of;
}

/** @param {Wire.Follows} found */
function show(found) {
  Object.assign(shot.view, { headline: found.headline, verdicts: [...shot.view.verdicts.filter((v) => !v.pending), ...found.verdicts] });
  tell("controller");
}
