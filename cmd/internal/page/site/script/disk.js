// disk saves the text, and hears when another program has written the file.
// Where both have changed it, both are shown, and nothing goes before it is told to.
import { at, words } from "./make.js";
import { ask } from "./server.js";
import { refusal } from "./refusal.js";
import { showApart } from "./apart.js";
import { on, shot, tell, unsaved } from "./shot.js";
import { retext } from "./planner.js";
import { say, sayError } from "./notice.js";

/** @type {Wire.Disk | null} what stands against this page's text */
let theirs = null;

export async function save() {
  if (theirs) return void at("conflict-name").focus();
  await write(shot.text, shot.revision);
}

/** @param {string} text @param {string} revision */
async function write(text, revision) {
  try {
    const answer = await ask("save", { text, revision });
    written(text, answer.revision);
    say(`Saved as ${shot.start.file}.`);
  } catch (err) {
    const { status, body } = refusal(err);
    if (status !== 409) return sayError(err);
    against(/** @type {Wire.conflict} */ (body));
  }
}

/** The file holds a text now. @param {string} text @param {string} revision */
export function written(text, revision) {
  shot.saved = text;
  shot.revision = revision;
  shot.start.new = false;
  settle();
  tell("disk");
}

/** Hears what the file holds now. @param {Wire.DiskNews} news */
export function heard(news) {
  if (news.gone) return gone(news.error ?? "");
  if (news.error) return say(news.error, "bad");
  if (news.revision === shot.revision && !shot.start.new) return settle();
  if (news.revision === "") return;
  if (news.text === shot.text) return written(news.text, news.revision);
  if (unsaved()) return against(news);
  const was = shot.text;
  shot.saved = news.text;
  shot.revision = news.revision;
  void retext(news.text, "what was written on disk", was);
  say("Another program wrote the file; this is it now. Undo brings back what was here.", "fair");
}

/** Another program took the file away. What is here is then not saved anywhere. @param {string} why */
function gone(why) {
  settle();
  shot.revision = "";
  shot.start.new = true;
  say(why, "fair");
  tell("disk");
}

/** Hears that files under the shot have changed, and plans anew with them. @param {Wire.UnderNews} news */
export function heardUnder({ files, own }) {
  void retext(shot.text);
  if (files.includes(shot.start.rigFile)) void rigAgain();
  if (!own) say(`Another program wrote ${files.join(", ")}, which this shot stands on. This is the plan with it.`, "fair");
}

async function rigAgain() {
  try {
    words(at("rig-text"), (await ask("start")).rigText);
  } catch (err) {
    sayError(err);
  }
}

/** @param {Wire.Disk} news */
export function against(news) {
  theirs = { text: news.text, revision: news.revision };
  at("conflict").hidden = false;
  at("conflict-name").focus();
  void showApart(shot.text, news.text);
}

function settle() {
  theirs = null;
  at("conflict").hidden = true;
}

at("conflict-mine").addEventListener("click", () => {
  if (theirs) void write(shot.text, theirs.revision);
  settle();
});
at("conflict-theirs").addEventListener("click", () => {
  if (!theirs) return;
  const was = shot.text;
  const { text, revision } = theirs;
  written(text, revision);
  void retext(text, "the text on disk", was);
  say("This is the text on disk. Undo brings back what was here.");
});

on("disk", () => {
  const open = unsaved();
  words(at("save-state"), shot.start.new ? "not on disk yet" : open ? "changed, not saved" : "as on disk");
  at("save-state").classList.toggle("open", open);
  at("save").disabled = !open;
  document.title = `${open ? "\u25c6 " : ""}${shot.view?.title ?? shot.start.file} \u2013 seamrail`;
});
