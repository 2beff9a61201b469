// film has the one take that is looked at: it is sent to the program, looked through there, and
// laid on the plan of the shot.
import { showTakes } from "./takes.js";
import { ask, lastWord, lines, sendFile } from "./server.js";
import { shot, tell } from "./shot.js";
import { say } from "./notice.js";
import { working } from "./work.js";
import { givenUp, refusal } from "./refusal.js";

export const film = {
  id: "", // by which it is asked for; "" for none
  name: "",
  doing: /** @type {"" | "coming" | "looking" | "laying"} */ (""),
  done: 0, // bytes that have come, or frames that were looked at
  of: 0, // 0 where nobody knows
  wrong: "", // why there is nothing to tell
  told: /** @type {Wire.Filmed | null} */ (null),
  text: "", // of the shot that it was laid on
  zero: /** @type {number | null} */ (null), // the frame of the recording that is taken for frame 0
  round: 0, // that is looked at
  accepted: /** @type {Wire.Accepted | null} */ (null),
};

/** @type {AbortController | null} */
let own = null;

/** How the take lies on the plan, null where nothing tells. @returns {import("./filmplace.js").Lies | null} */
export function lies() {
  const { told, zero, round } = film;
  return told && zero !== null ? { zero, round, frames: told.frames, per: told.round, slower: told.zero.slower } : null;
}

export const giveUp = () => own?.abort();

/** Looks a take through. One that is there goes, wherever it has got to. @param {File[]} files */
export async function take(files) {
  own?.abort();
  const mine = (own = new AbortController());
  const before = film.name;
  Object.assign(film, { id: "", name: nameOf(files), doing: "coming", done: 0, of: files.reduce((sum, f) => sum + f.size, 0), wrong: "", told: null, text: "", zero: null, round: 0, accepted: null });
  tell("film");
  if (before) say(`${film.name} takes the place of ${before}.`);
  await until(mine, async (signal) => {
    const begun = await ask("film/begin", { files: files.map((f) => ({ file: f.name, bytes: f.size })) }, signal);
    Object.assign(film, { id: begun.film, name: begun.name });
    await send(files, signal);
    await look(signal);
    await lay(signal);
  });
}

/** @param {File[]} files */
const nameOf = (files) => (files.length === 1 ? files[0].name : `${files.length} stills`);

/** Lays the take on the shot as it is now. */
export async function layAgain() {
  own?.abort();
  await until((own = new AbortController()), lay);
}

/** @param {AbortController} mine @param {(signal: AbortSignal) => Promise<void>} f */
async function until(mine, f) {
  try {
    await working("the take", f, mine.signal);
  } catch (err) {
    if (own !== mine) return; // another is at work
    film.wrong = givenUp(err) ? "Given up." : refusal(err).words;
  }
  film.doing = "";
  tell("film");
}

/** @param {File[]} files @param {AbortSignal} signal */
async function send(files, signal) {
  let before = 0;
  for (const [part, file] of files.entries()) {
    await sendFile(film.id, part, file, (gone) => ((film.done = before + gone), tell("film")), signal);
    before += file.size;
  }
}

/** @param {AbortSignal} signal */
async function look(signal) {
  Object.assign(film, { doing: "looking", done: 0, of: 0 });
  tell("film");
  let wrong = "It was not looked through to its end.";
  await lines("film/look", { film: film.id }, (/** @type {Wire.FilmNews} */ news) => {
    Object.assign(film, { done: news.frame, of: news.of });
    wrong = news.looked ? "" : news.error || wrong;
    tell("film");
  }, signal);
  if (wrong) throw new Error(wrong);
}

/** @param {AbortSignal} signal */
async function lay(signal) {
  Object.assign(film, { doing: "laying", wrong: "" });
  tell("film");
  const text = shot.text;
  const told = await ask("film/lay", { film: film.id, text }, signal);
  Object.assign(film, { told, text, zero: told.zero.at, round: 0, accepted: null });
}

/** Puts the take away. */
export function putAway() {
  own?.abort();
  own = null;
  if (film.id) lastWord("film/drop", { film: film.id });
  Object.assign(film, { id: "", name: "", doing: "", wrong: "", told: null, text: "", zero: null, accepted: null });
  tell("film");
}

addEventListener("pagehide", (e) => e.persisted || (film.id && lastWord("film/drop", { film: film.id })));

/** What was accepted is held by the program, which says as which take it can be kept. @param {{ frame0?: number | null, from?: number, to?: number }} more */
export async function accept(more) {
  const { frame0, from, to } = { ...film.accepted, ...more };
  film.accepted = await ask("film/accept", { film: film.id, frame0: frame0 ?? null, from: from ?? null, to: to ?? null });
  tell("film");
}

/** What was accepted is kept as a take of the log. @param {number} number @param {string} trust "picture" or "mark" where they differ */
export async function keep(number, trust) {
  const kept = await ask("film/keep", { film: film.id, take: number, trust });
  void showTakes();
  return kept;
}
