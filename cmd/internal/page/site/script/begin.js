// begin asks what a new shot needs to know, shows what comes of it, and has it written.
import { at, make, words } from "./make.js";
import { addressOf, ask } from "./server.js";
import { Small } from "./small.js";
import { sayError } from "./notice.js";
import { MARKS } from "./marks.js";
import { refusal } from "./refusal.js";

const PAUSE = 220; // ms after the last key until it is looked at
const RESTED = 700; // ms of rest until the controller is looked at too
const WIDE = 320; // px of the picture

const dialog = at("begin");
const small = new Small(at("begin-picture"), 0);
const inputs = /** @type {Map<string, {input: HTMLInputElement, range: HTMLElement, wrong: HTMLElement}>} */ (new Map()); // by their questions
let of = /** @type {{ kind?: string } & OnRig} */ ({});
let answers = /** @type {Record<string, string>} */ ({});
let waiting = 0;
let asked = 0;
let resting = 0;

/** Opens the questions of a kind, on a rig. @param {Wire.KindAnswer} kind @param {OnRig} rig */
export async function begin(kind, rig) {
  of = { kind: kind.name, ...rig };
  answers = {};
  words(at("begin-name"), kind.name.replaceAll("-", " "));
  words(at("begin-line"), kind.line);
  words(at("begin-file-wrong"), "");
  at("begin-questions").replaceChildren();
  at("begin-headline").replaceChildren();
  const told = await look(true);
  if (!told) return;
  at("begin-file").value = told.file;
  dialog.showModal();
  (at("begin-questions").querySelector("input") ?? at("begin-file")).focus();
}

/** Asks the program, and shows what it says. */
async function look(first = false) {
  const number = ++asked;
  let told;
  try {
    told = await ask("kind", { ...of, answers });
  } catch (err) {
    if (number === asked) sayError(err);
    return null;
  }
  if (number !== asked) return null;
  if (first) inputs.clear();
  if (first) at("begin-questions").replaceChildren(...told.questions.map(question));
  for (const q of told.questions) mark(q);
  const wrong = told.questions.some((q) => q.wrong);
  at("begin-go").disabled = wrong || told.why !== "";
  words(at("begin-rig"), told.rigFile ? `Its rig is ${told.rigFile}${told.writes ? ", which is written beside it" : ""}.` : "");
  headline(told, wrong);
  clearTimeout(resting);
  if (!wrong && !told.why && told.headline.ready) resting = window.setTimeout(() => void fully(number), RESTED);
  if (told.frames) small.show({ path: "kind/picture", question: { ...of, answers: { ...answers } }, frames: told.frames, seconds: told.seconds, width: WIDE });
  return told;
}

/** Has the controller looked at as well, once nothing has changed for a while. @param {number} number */
async function fully(number) {
  try {
    const told = await ask("kind", { ...of, answers, fully: true });
    if (number === asked) headline(told, false);
  } catch (err) {
    if (number === asked) sayError(err);
  }
}

/** @param {Wire.KindAnswer} told @param {boolean} wrong */
function headline(told, wrong) {
  const bad = told.why || told.faults.map((f) => f.text).join("; ") || (wrong ? "One of the numbers would not do." : "");
  const h = told.headline;
  const level = bad ? "bad" : h.level;
  at("begin-headline").className = level;
  at("begin-headline").replaceChildren(make("span.mark", { "aria-hidden": "true" }, MARKS[level].sign),
    " " + (bad || `${told.seconds.toFixed(1)} s. ${h.words}`));
}

/** @param {Wire.Asked} q */
function question(q) {
  const id = "asked-" + q.name;
  const input = make("input", { id, name: q.name, type: "text", value: q.value, spellcheck: "false", "aria-describedby": id + "-range " + id + "-wrong" });
  input.addEventListener("input", () => {
    answers[q.name] = input.value.trim();
    if (answers[q.name] === "") delete answers[q.name];
    clearTimeout(waiting);
    waiting = window.setTimeout(() => void look(), PAUSE);
  });
  const range = make("small", { id: id + "-range" });
  const wrong = make("small.wrong", { id: id + "-wrong", role: "alert" });
  inputs.set(q.name, { input, range, wrong });
  return make("label.asked", { for: id }, make("span.ask", {}, q.ask), input, range, wrong);
}

/** Marks what is wrong, and follows what the program puts where nothing was answered. @param {Wire.Asked} q */
function mark(q) {
  const parts = inputs.get(q.name);
  if (!parts) return;
  const { input, range, wrong } = parts;
  if (answers[q.name] === undefined && document.activeElement !== input) input.value = q.value;
  input.placeholder = q.value;
  input.setAttribute("aria-invalid", String(q.wrong !== ""));
  words(range, `${q.name}, ${q.least} to ${q.most}`);
  words(wrong, q.wrong);
}

at("begin-form").addEventListener("submit", async (e) => {
  e.preventDefault();
  at("begin-go").disabled = true;
  try {
    const { file } = await ask("begin", { ...of, answers, file: at("begin-file").value });
    location.assign(addressOf(file));
  } catch (err) {
    words(at("begin-file-wrong"), refusal(err).first);
    at("begin-go").disabled = false;
  }
});
at("begin-file").addEventListener("input", () => words(at("begin-file-wrong"), ""));
at("begin-away").addEventListener("click", () => dialog.close());
dialog.addEventListener("close", () => {
  asked++; // what is under way is of no use
  clearTimeout(waiting);
  clearTimeout(resting);
  small.show(null);
});
