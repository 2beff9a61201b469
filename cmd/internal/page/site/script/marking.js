// marking makes places that were found on the rig values of the shot, and shows single
// frames and the whole round on it.
import { at, button, fill, make, words } from "./make.js";
import { frameOf, on, shot } from "./shot.js";
import { mine, rig, want } from "./driver.js";
import { follow, playhead } from "./playhead.js";
import { change } from "./planner.js";
import { say } from "./notice.js";
import { chosen } from "./byhand.js";

/** Asks something that is of the plan, as the shot is now. @param {string} request @param {{ frame?: number }} [more] */
export async function ofPlan(request, more) {
  const answer = await want(request, { text: shot.text, ...more });
  if (answer?.anew) say("The shot has changed since, and is planned anew; look at what is said, and ask again.", "fair");
}

const frame = () => frameOf(playhead.frame) % (shot.view?.frames ?? 1);
at("go-frame").addEventListener("click", () => void ofPlan("pose", { frame: frame() }));
at("walk").addEventListener("click", () => void ofPlan("walk"));
follow(() => words(at("go-frame"), `Go to frame ${frame()}, under the playhead`));

let marked = 0;

function show() {
  const can = Boolean(rig?.open && mine() && rig.takes.includes("mark"));
  at("showing").hidden = !can;
  if (can) places();
  const fresh = rig?.marks?.slice(marked) ?? [];
  marked = rig?.marks?.length ?? 0;
  if (mine()) fresh.forEach(take); // every page hears of them
}

/** A button for each place of the axis that is moved. */
function places() {
  const axis = chosen(), { name } = rig.axes[axis];
  const list = shot.view?.axes.find((a) => a.name === name)?.places ?? [];
  fill(at("mark-places"), JSON.stringify([name, list]), () => list.map((p) => button(`${p.name}, now ${p.now}`, () => void want("mark", { axis, name: p.name, text: shot.text }),
    { "data-place": p.name, title: p.means })));
  at("mark-places").setAttribute("aria-label", `Mark where ${name} stands as`);
}

/** Sets a mark; one with which the rig could not run the plan is asked about first. @param {Wire.Mark} mark */
function take(mark) {
  if (mark.wrong.length === 0) return void set(mark);
  const away = () => {
    at("mark-asks").replaceChildren();
    at("showing").scrollIntoView();
  };
  const leave = button("Leave the shot as it is", away, { id: "mark-leave" });
  at("mark-asks").replaceChildren(make("p", {}, `With ${mark.path} = ${mark.value} the rig cannot run the plan:`),
    make("ul", {}, mark.wrong.map((w) => make("li", {}, w)), mark.fits.map((f) => make("li.fit-words", {}, f))),
    make("div.pair", {}, leave, button("Set it all the same", () => (away(), void set(mark)), { id: "mark-set" })));
  leave.focus({ preventScroll: true });
  at("mark-asks").scrollIntoView();
}

/** @param {Wire.Mark} mark */
async function set({ path, value, over }) {
  await change([{ path, value }], { label: "a place marked on the rig" });
  if (over) say(`${path} now stands in the shot, over what ${over} says.`);
}

on("drive", show);
on("view", () => rig && show());
at("byhand-axis").addEventListener("change", show);
