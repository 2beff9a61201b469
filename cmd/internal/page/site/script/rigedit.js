// rigedit shows the values of the rig's file as fields, each with how it is
// known. What is changed is written into the file at once, for all shots on it.
import { at, button, make, words } from "./make.js";
import { ask } from "./server.js";
import { say, sayError } from "./notice.js";
import { on, shot } from "./shot.js";
import { besideShot, change, remember, retext } from "./planner.js";
import { field } from "./fields.js";
import { refusal, told as inWords } from "./refusal.js";
import { Table, byTable, dropOthers, titled } from "./tables.js";

/** @type {Wire.RigBench | null} */
let file = null;
let asked = ""; // for which rig and which text of it the fields are

/** @type {Map<string, Table>} */
const tables = new Map();
const told = make("p.hint", {});
/** @type {HTMLSelectElement} */
const pick = make("select", { id: "rig-pick", onchange: () => void use(pick.value) });
const fields = make("div");
const choose = make("label", {}, "Rig of this shot ", pick);
at("rig").append(told, choose, fields);

const rigOf = () => shot.view?.values.find((v) => v.path === "rig.file")?.value ?? "";

async function look() {
  try {
    shown(await ask("rig/file", { text: shot.text }));
  } catch (err) {
    sayError(err);
  }
}

on("view", () => {
  if (!at("bench-rig").hidden && rigOf() !== asked) void look();
});
at("tab-rig").addEventListener("click", () => void look());

/** @param {Wire.RigBench} news */
function shown(news) {
  file = news;
  asked = rigOf();
  words(told, news.why || `What ${news.file} says of the machine, for all shots on it. A change is written into the file at once; Undo takes it back.`);
  words(at("rig-text"), news.text);
  words(at("rig-file"), news.file);
  const names = [...new Set([asked, ...news.files])].filter(Boolean);
  pick.replaceChildren(...names.map((n) => make("option", { value: n, selected: n === asked }, n)));
  choose.hidden = names.length === 0;
  const by = byTable(news.values, news.takes);
  dropOthers(tables, by);
  for (const [name, values] of by) group(name, values);
}

/** @param {string} name @param {Wire.Value[]} values */
function group(name, values) {
  const t = tables.get(name) ?? new Table(values[0]?.in ?? "", make("small.key", {}, titled(name, "rig")));
  if (!tables.has(name)) fields.append(t.el);
  tables.set(name, t);
  t.show(values, (v) => field(v, "rig:" + v.path, write));
  for (const v of values) words(t.fields.get(v.path)?.home ?? t.el, v.known ? `${v.known}${v.why ? ": " + v.why : ""}` : "");
}

/** Writes changes into the file, which Undo takes back as one. @param {Wire.Edit[]} edits @param {string} label */
async function written(edits, label) {
  if (!file) return [];
  const done = await ask("rig/edit", { text: shot.text, file: file.file, revision: file.revision, edits });
  if (done.faults.length) return done.faults;
  remember(shot.text, `rig: ${label}`, { file: done.rig.file, whole: done.was });
  say(`Written into ${done.rig.file}, for all shots on it.`);
  shown(done.rig);
  await retext(shot.text);
  return [];
}

/** Writes what would do for a fault of the rig's file. @param {{ text: string, edits: Wire.Edit[] }} mend @param {string} name */
export async function mendRig(mend, name) {
  try {
    const now = await ask("rig/file", { text: shot.text });
    if (now.file !== name) throw new Error(`The shot is on another rig by now; ${name} stays as it is.`);
    shown(now);
    for (const f of await written(mend.edits, mend.text)) say(inWords(f, name), "bad");
  } catch (err) {
    sayError(err);
  }
}

/** Writes one change; what is wrong with it is told beside the field. @type {import("./fields.js").Writes} */
async function write(edit) {
  if (!file) return null;
  try {
    const faults = await written([edit], edit.path);
    return { faults, fits: [], refused: faults.length > 0 };
  } catch (err) {
    const { status, faults, message } = refusal(err);
    if (status === 409) void look();
    return { faults: faults.length ? faults : [{ text: message, fit: "" }], fits: [], refused: true };
  }
}

/** Puts a whole text of the rig back, as Undo asks; returns what was there. @param {import("./planner.js").Beside} beside */
async function putBack({ file: name, whole }) {
  const now = await ask("rig/file", { text: shot.text });
  if (now.file !== name) throw new Error(`The shot is on another rig by now; ${name} stays as it is.`);
  const done = await ask("rig/edit", { text: shot.text, file: name, revision: now.revision, edits: [], whole });
  if (done.faults.length) throw new Error(`${name} stays as it is: ${done.faults[0].text}`);
  shown(done.rig);
  say(`${name} is as it was.`);
  return { file: name, whole: done.was };
}

besideShot(putBack);

/** Puts the shot on another rig file of the folder. */
export const use = (/** @type {string} */ name) => change([{ path: "rig.file", value: name }], { label: `rig: ${name}` }).then((answer) => {
  if (answer && !answer.refused) return void look();
  pick.value = asked;
});

at("rig-save").after(button("Save it, and use it for this shot", async () => {
  const name = at("rig-new-file").value.trim();
  try {
    await ask("rig/new", { file: name, text: at("rig-new-text").value });
  } catch (err) {
    return sayError(err);
  }
  const answer = await change([{ path: "rig.file", value: name }], { label: `rig: ${name}` });
  say(answer?.refused ? `Saved ${name}. This shot cannot be planned on it, and stays on its rig.` : `Saved ${name}; this shot is on it now.`, answer?.refused ? "fair" : "good");
}, { id: "rig-use" }));
