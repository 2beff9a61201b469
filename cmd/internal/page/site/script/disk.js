// disk saves the text, and hears when another program has written the file.
// Where both have changed it, both are shown, and nothing goes before it is told to.
import { at, make, words } from "./make.js";
import { ask } from "./server.js";
import { on, shot, tell, unsaved } from "./shot.js";
import { retext } from "./planner.js";
import { say, sayError } from "./notice.js";

let theirs = null; // { text, revision } that stands against this page's text

export async function save() {
  if (theirs) return void at("conflict-name").focus();
  await write(shot.text, shot.revision);
}

async function write(text, revision) {
  try {
    const answer = await ask("save", { text, revision });
    written(text, answer.revision);
    say(`Saved as ${shot.start.file}.`);
  } catch (err) {
    if (err.status === 409) return against(err.body);
    sayError(err);
  }
}

function written(text, revision) {
  shot.saved = text;
  shot.revision = revision;
  shot.start.new = false;
  settle();
  tell("disk");
}

/** Hears what the file holds now. */
export function heard(news) {
  if (news.error) return say(news.error, "bad");
  if (news.revision === shot.revision && !shot.start.new) return settle();
  if (news.revision === "") return;
  if (news.text === shot.text) return written(news.text, news.revision);
  if (unsaved() && !shot.start.new) return against(news);
  const was = shot.text;
  shot.saved = news.text;
  shot.revision = news.revision;
  shot.start.new = false;
  void retext(news.text, "what was written on disk", was);
  say("Another program wrote the file; this is it now. Undo brings back what was here.", "fair");
}

/** Hears that files under the shot have changed, and plans anew with them. */
export function heardUnder({ files, own }) {
  void retext(shot.text);
  if (!own) say(`Another program wrote ${files.join(", ")}, which this shot lies over. This is the plan with it.`, "fair");
}

function against(news) {
  theirs = { text: news.text, revision: news.revision };
  at("conflict").hidden = false;
  const [mine, other] = apart(shot.text.split("\n"), theirs.text.split("\n"));
  at("conflict-here").replaceChildren(...mine);
  at("conflict-there").replaceChildren(...other);
  at("conflict-name").focus();
}

function settle() {
  theirs = null;
  at("conflict").hidden = true;
}

at("conflict-mine").addEventListener("click", () => {
  const { revision } = theirs;
  settle();
  void write(shot.text, revision);
});
at("conflict-theirs").addEventListener("click", () => {
  const was = shot.text;
  const { text, revision } = theirs;
  written(text, revision);
  void retext(text, "the text on disk", was);
  say("This is the text on disk. Undo brings back what was here.");
});

/** The lines of two texts, those that only one has marked. */
function apart(a, b) {
  const common = longest(a, b);
  const side = (lines, kept) => lines.map((line, i) => make(kept.has(i) ? "span" : "span.only", {}, (kept.has(i) ? "  " : "\u25c6 ") + line + "\n"));
  return [side(a, new Set(common.map((p) => p[0]))), side(b, new Set(common.map((p) => p[1])))];
}

/** Pairs of lines that both texts have in order, as many as can be. */
function longest(a, b) {
  const n = Array.from({ length: a.length + 1 }, () => new Uint32Array(b.length + 1));
  for (let i = a.length - 1; i >= 0; i--) for (let j = b.length - 1; j >= 0; j--) n[i][j] = a[i] === b[j] ? n[i + 1][j + 1] + 1 : Math.max(n[i + 1][j], n[i][j + 1]);
  const out = [];
  for (let i = 0, j = 0; i < a.length && j < b.length;) {
    if (a[i] === b[j]) out.push([i++, j++]);
    else if (n[i + 1][j] >= n[i][j + 1]) i++;
    else j++;
  }
  return out;
}

const DRAFT = "seamrail-draft";
const left = JSON.parse(sessionStorage.getItem(DRAFT) ?? "null"); // by this tab, before it was loaded anew

/** Keeps what is not saved over a reload or a crash of this tab. */
function keep() {
  const { text, revision } = shot;
  if (shot.text === shot.saved) sessionStorage.removeItem(DRAFT);
  else sessionStorage.setItem(DRAFT, JSON.stringify({ file: shot.start.folder + "/" + shot.start.file, text, revision }));
}

/** Brings back what this tab had not saved. Where the file has changed since, both are shown. */
export async function restore() {
  if (!left || left.file !== shot.start.folder + "/" + shot.start.file || left.text === shot.saved) return;
  const disk = { text: shot.saved, revision: shot.revision };
  await retext(left.text, "what was not saved", shot.saved);
  if (left.revision === disk.revision) return say("What was not saved is back. Undo takes the file as it is.", "fair");
  against(disk);
}

on("disk", () => {
  const open = unsaved();
  keep();
  words(at("save-state"), shot.start.new ? "not on disk yet" : open ? "changed, not saved" : "as on disk");
  at("save-state").classList.toggle("open", open);
  at("save").disabled = !open;
  document.title = `${open ? "\u25c6 " : ""}${shot.view?.title ?? shot.start.file} \u2013 seamrail`;
});
addEventListener("beforeunload", (e) => unsaved() && !shot.start.new && e.preventDefault());
