// answers asks what the commands answer: spin, cues, sequence and what fits.
import { at, make } from "./make.js";
import { ask } from "./server.js";
import { drawnFrom, drawnFromNothing } from "./older.js";
import { working } from "./work.js";
import { on, shot } from "./shot.js";
import { givenUp, refusal } from "./refusal.js";
import { MARKS } from "./marks.js";
import { sequenced } from "./clip.js";
import { fitted, spun } from "./loops.js";

/** @typedef {"spin" | "cues" | "fit" | "sequence"} Asked what a command answers */

/**
 * What each is called while it is worked out, whether it is of the text at hand, and how its answer looks.
 * @type {Record<Asked, { name: string, ofText: boolean, ask: (signal: AbortSignal) => Promise<HTMLElement> }>}
 */
const ASKED = {
  spin: { name: "loops that close", ofText: true, ask: async (signal) => spun(await ask("spin", { text: shot.text }, signal)) },
  cues: { name: "the cues", ofText: true, ask: async (signal) => make("pre", { tabindex: "0" }, (await ask("cues", { text: shot.text }, signal)).text) },
  fit: { name: "the quickest loop", ofText: true, ask: async (signal) => fitted(await ask("fit", { text: shot.text }, signal)) },
  sequence: { name: "the sequence", ofText: false, ask: async (signal) => sequenced(await ask("sequence", { file: at("sequence-file").value.trim() }, signal)) },
};
const names = /** @type {Asked[]} */ (Object.keys(ASKED));
const AGAIN = "The shot has changed since. Ask again.";

/** @type {Map<Asked, { own: AbortController, text: string | null }>} */
const under = new Map(); // questions under way, with the text each is of

for (const name of names) at(`ask-${name}`).addEventListener("click", () => answer(name));

/** @param {Asked} name */
async function answer(name) {
  const out = at(`answer-${name}`);
  under.get(name)?.own.abort();
  const question = { own: new AbortController(), text: ASKED[name].ofText ? shot.text : null };
  under.set(name, question);
  drawnFromNothing(out);
  out.setAttribute("aria-busy", "true");
  out.replaceChildren(make("p", {}, "Working it out\u2026"));
  let told;
  try {
    told = await working(ASKED[name].name, ASKED[name].ask, question.own.signal);
    if (under.get(name) === question && question.text !== null) drawnFrom(out, { step: 0, text: question.text, words: AGAIN });
  } catch (err) {
    told = givenUp(err) ? make("p", {}, question.text === null || question.text === shot.text ? "Given up." : AGAIN)
      : make("p.bad", {}, make("span.mark", { "aria-hidden": "true" }, MARKS.bad.sign), " ", refusal(err).words);
  }
  if (under.get(name) !== question) return;
  under.delete(name);
  out.replaceChildren(told);
  out.removeAttribute("aria-busy");
}

/** What is worked out of another text is never shown. */
on("text", () => {
  for (const { own, text } of under.values()) if (text !== null && text !== shot.text) own.abort();
});
