// filmbench is the bench on which a take is told: how far it is looked through, whether it is the
// plan, what differs, where frame 0 is, which loops are in it, and what was accepted.
import { at, button, make, words } from "./make.js";
import { frameOf, number, on, shot } from "./shot.js";
import { follow, goTo, pause, playhead } from "./playhead.js";
import { drawnFrom, drawnFromNothing } from "./older.js";
import { MARKS } from "./marks.js";
import { say, sayError } from "./notice.js";
import { accept, film, giveUp, keep, layAgain, lies, putAway, take } from "./film.js";
import { styled, whenDropped } from "./filmdrop.js";
import { placeIn, planAt, zeroWords } from "./filmplace.js";
import { FilmCurve, moving } from "./filmcurve.js";
import { seams, still } from "./filmseam.js";
import "./filmseen.js";

/** @type {FilmCurve[]} */
let curves = [];
/** @type {Wire.Filmed | null} what the bench was made of */
let drawn = null;
/** @type {(() => void)[]} what is told anew when a hand has set something */
let anew = [];

whenDropped((files) => {
  at("tab-film").click();
  void styled().then(() => take(files));
});
at("film-give-up").addEventListener("click", giveUp);
at("film-away").addEventListener("click", () => {
  putAway();
  at("film-choose").focus();
});

const DOES = { coming: "is read", looking: "is looked through", laying: "is laid on the plan", "": "" };

/** How far it is. */
function far() {
  const { doing, done, of, wrong, name, told } = film;
  at("film-under-way").hidden = !doing;
  const bar = at("film-bar");
  if (of > 0 && doing !== "laying") bar.value = done / of;
  else bar.removeAttribute("value");
  words(at("film-far"), doing === "looking" ? `frame ${done}${of ? ` of ${of}` : ""}` : doing === "coming" ? `${Math.round(done / 1e6)} of ${Math.max(Math.round(of / 1e6), 1)} MB` : "");
  words(at("film-said"), doing ? `${name} ${DOES[doing]}.` : wrong ? `${name}: ${wrong}`.replace(`${name}: ${name}`, name) : told ? told.name : "");
  words(at("film-heard"), !doing && told ? `${told.stamp}: ${told.words}` : "");
  at("film-said").classList.toggle("wrong", Boolean(!doing && wrong));
  at("film-hint").hidden = Boolean(name);
  at("film-away").hidden = !name || Boolean(doing);
  words(at("film-choose"), name ? "Choose another" : "Choose a film or stills");
}

on("film", () => {
  far();
  if (film.told !== drawn) draw(film.told);
  for (const f of anew) f();
  move();
});

on("text", () => {
  for (const f of anew) f();
});

/** @param {Wire.Filmed | null} told */
function draw(told) {
  drawn = told;
  for (const c of curves) c.close();
  curves = told ? moving(told.panels).map((p) => new FilmCurve(p, goToPlace)) : [];
  anew = [];
  still();
  const out = at("film-told");
  out.hidden = !told;
  out.replaceChildren(...(told ? [verdict(told), frame0(told), measured(told), seams(told), accepted(), all(told)] : []));
  at("bench-film").scrollTop = 0;
  if (told) drawnFrom(out, { step: 0, text: film.text, words: "The shot has changed since." });
  else drawnFromNothing(out);
}

/** Whether it is the plan, and what differs. @param {Wire.Filmed} told */
function verdict({ level, stamp, words: said, plan, pace, cramped }) {
  const causes = (plan?.causes ?? []).map((c) => make("li", {}, c.text, " ", c.frame === null ? null : show(c.frame)));
  const why = [...(plan?.why_not_known ?? []), ...(pace?.sentences ?? []), ...(cramped ? [cramped] : [])].map((w) => make("li", {}, w));
  const from = plan?.differs_from_frame ?? null;
  const again = button("Lay it on the shot as it is now", () => void layAgain(), { hidden: true });
  anew.push(() => (again.hidden = shot.text === film.text));
  return make("section.film-verdict." + level, { "aria-label": "Is it the plan?" },
    make("p", {}, make("span.mark", { "aria-hidden": "true" }, MARKS[level].sign), " ", make("b", {}, stamp), " ", make("span", {}, said)),
    from === null ? null : make("p", {}, "It differs from ", toFrame(from), " of the film on."),
    causes.length ? make("div", {}, make("h3", {}, "What most likely did it, by a model"), make("ul.points", {}, ...causes)) : null,
    why.length ? make("ul.points", {}, ...why) : null, again);
}

/** @param {number} frame of the recording */
const toFrame = (frame) => button(`frame ${Math.round(frame)}`, () => goToPlace(frame), { class: "when" });

/** The same where the words have the number. @param {number} frame */
const show = (frame) => button("show", () => goToPlace(frame), { class: "when", "aria-label": `Show frame ${Math.round(frame)} of the film` });

/** The playhead goes to a place in the recording. @param {number} place */
function goToPlace(place) {
  const how = lies();
  if (!how || !film.told) return;
  const { round, frame } = planAt(how, place, film.told.rounds);
  pause();
  film.round = round;
  goTo(frame);
  tellRound();
}

/** Another round is looked at. */
function tellRound() {
  const select = /** @type {HTMLSelectElement | null} */ (document.getElementById("film-round"));
  if (select) select.value = String(film.round);
}

/** Where frame 0 is: as it was found, set by a hand, and accepted. @param {Wire.Filmed} told */
function frame0({ zero }) {
  const said = make("p", { role: "status" });
  const field = make("input", { type: "number", step: "any", "aria-label": "Frame 0 of the plan is this frame of the film" });
  const set = (/** @type {number} */ to) => {
    if (!Number.isFinite(to)) return;
    film.zero = to;
    seen();
  };
  const by = (/** @type {number} */ n) => set((film.zero ?? 0) + n);
  field.addEventListener("change", () => set(field.valueAsNumber));
  const takes = button("Accept frame 0", () => void accept({ frame0: film.zero }).catch(sayError), { id: "film-accept-zero", class: "strong" });
  anew.push(() => {
    words(said, zeroWords(film.zero, zero));
    if (document.activeElement !== field) field.value = film.zero === null ? "" : String(Number(film.zero.toFixed(2)));
    takes.disabled = film.zero === null;
  });
  const others = zero.others.map((o) => button(number(o, 2), () => set(o)));
  return make("section.film-part", {}, make("h3", {}, "Frame 0"), said,
    make("div.pair", {}, button("\u2212 1", () => by(-1), { "aria-label": "Frame 0 a frame earlier", id: "film-less" }), field, button("+ 1", () => by(1), { "aria-label": "Frame 0 a frame later", id: "film-more" }), takes),
    others.length ? make("p.pair", {}, "It may as well be at ", ...others) : null);
}

/** Frame 0 is another: what hangs on it is told anew. */
function seen() {
  for (const f of anew) f();
  goTo(playhead.frame);
}

/** @param {Wire.Filmed} told */
function measured({ panels }) {
  const small = panels.filter((p) => !curves.some((c) => c.panel === p)).map((p) => p.name);
  return make("section.film-part", {}, make("h3", {}, "Where the picture went, over the plan"),
    make("p.film-key", { "aria-hidden": "true" }, make("span.planned", {}, "planned"), make("span.measured", {}, "measured")),
    ...curves.map((c) => c.el), small.length ? make("p.hint", {}, `No motion to speak of: ${small.join(", ")}.`) : null);
}

/** What was accepted, and as which take it is kept. */
function accepted() {
  const out = make("section.film-part.film-accepted", { "aria-label": "Accepted", hidden: true });
  const said = make("p", { role: "status" }), why = make("p.hint", {}), kept = make("ul.points", {});
  const which = make("select", { "aria-label": "As which take" });
  const keeps = button("Keep it", () => void keepIt(""), { id: "film-keep", class: "strong" });
  const asked = make("p.pair", { hidden: true }, "Which counts? ", button("The picture", () => void keepIt("picture")), button("The sync mark", () => void keepIt("mark")));
  const choice = make("div.pair", {}, make("label", {}, "as take ", which), keeps);
  const copies = button("Copy", () => void navigator.clipboard.writeText(said.textContent ?? "").then(() => say("Copied."), () => say("The browser does not let it be copied; mark it with the mouse.", "fair")));
  out.append(make("h3", {}, "Accepted"), said, choice, asked, why, kept, copies);
  const keepIt = async (/** @type {string} */ trust) => {
    asked.hidden = true;
    try {
      const { take: number, log, words: told } = await keep(Number(which.value), trust);
      words(why, "");
      kept.replaceChildren(...[`It is take ${number} in ${log}.`, ...told].map((w) => make("li", {}, w)));
      say(`Kept as take ${number}.`);
    } catch (e) {
      asked.hidden = trust !== "" || !String(e).includes("--trust");
      sayError(e);
    }
  };
  /** @type {Wire.Accepted | null} */
  let held = null;
  anew.push(() => {
    const now = film.accepted;
    out.hidden = !now;
    if (!now || now === held) return;
    held = now;
    words(said, `${now.film}: ${now.words}.`);
    which.replaceChildren(...now.takes.map((n) => make("option", { value: String(n) }, String(n))));
    choice.hidden = !now.takes.length;
    asked.hidden = true;
    words(why, now.takes.length ? "Nothing is written yet. Kept, the log has the file, its timecode, frame 0 and the seam, and the edit is told of them." : `Nothing is written: ${now.why}.`);
    kept.replaceChildren();
    out.scrollIntoView({ block: "nearest" });
  });
  return out;
}

/** @param {Wire.Filmed} told */
const all = ({ report, plan }) => make("details", {}, make("summary", {}, "All that it tells"),
  plan?.not_proven.length ? make("ul.points", {}, ...plan.not_proven.map((n) => make("li", {}, n))) : null, make("pre", { tabindex: "0", class: "film-report" }, report));

function move() {
  const how = lies();
  if (how) for (const c of curves) c.follow(placeIn(how, frameOf(playhead.frame)));
}

follow(() => drawn && move());
