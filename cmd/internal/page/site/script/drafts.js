// drafts keeps what is not saved: in a hidden file beside the shot, through the program,
// so that it outlives tab, browser and program; and in this tab, for the moment before.
// Each tab has its own, and says by a lock of the browser that it is alive.
import { at, button, make } from "./make.js";
import { ask } from "./server.js";
import { refusal } from "./refusal.js";
import { on, shot } from "./shot.js";
import { say, sayError } from "./notice.js";
import { retext } from "./planner.js";

const PAUSE = 500; // ms of rest until it is on disk
const HERE = "seamrail-draft";
const TAB = "seamrail-tab";
const LOCK = "seamrail-draft-";

/** @type {{ file: string, text: string, revision: string } | null} */
const left = JSON.parse(sessionStorage.getItem(HERE) ?? "null"); // by this tab, before it was loaded anew
let id = "";
let waiting = 0;
/** @type {Promise<Wire.keptAnswer> | null} the question under way */
let sending = null;
let kept = ""; // what is on disk, "" for nothing
let told = false; // that nothing can be kept

/** This tab takes the name that it had; a tab that was doubled has another's, which is held, and takes a new one. */
async function name() {
  id = sessionStorage.getItem(TAB) ?? fresh();
  if (!(await hold())) {
    id = fresh();
    await hold();
  }
  sessionStorage.setItem(TAB, id);
}

const fresh = () => Array.from(crypto.getRandomValues(new Uint8Array(12)), (b) => (b % 36).toString(36)).join("");

/** @returns {Promise<boolean>} */
function hold() {
  if (!navigator.locks) return Promise.resolve(true);
  return new Promise((resolve) => {
    void navigator.locks.request(LOCK + id, { ifAvailable: true }, (lock) => {
      resolve(lock !== null);
      return lock && new Promise(() => {}); // for as long as the tab lives
    });
  });
}

async function alive() {
  const all = await navigator.locks?.query();
  return new Set((all?.held ?? []).map((l) => (l.name ?? "").replace(LOCK, "")));
}

on("disk", () => {
  const { text, revision } = shot;
  if (text === shot.saved) sessionStorage.removeItem(HERE);
  else sessionStorage.setItem(HERE, JSON.stringify({ file: shot.start.folder + "/" + shot.start.file, text, revision }));
  later();
});

/** After a rest; at once where nothing is to be kept any more, or a page that is loaded anew just then finds what was before it was saved. */
function later() {
  clearTimeout(waiting);
  waiting = window.setTimeout(keep, shot.text === shot.saved ? 0 : PAUSE);
}

document.addEventListener("visibilitychange", () => document.hidden && keep());

/** Puts on disk what is not saved, or takes it away; one question at a time. */
async function keep() {
  clearTimeout(waiting);
  if (!id || !shot.start || sending) return;
  const text = shot.text;
  const asOnDisk = text === shot.saved && !shot.start.new;
  if (asOnDisk ? kept === "" : text === kept) return;
  sending = ask("draft", { id, text, revision: shot.revision });
  try {
    kept = (await sending).kept ? text : "";
    told = false;
  } catch (err) {
    const { status, message } = refusal(err);
    if (status && !told) say(`What is not saved cannot be kept beside the shot: ${message}`, "bad");
    told = status > 0;
    kept = "";
  }
  sending = null;
  if (shot.text !== text) later();
}

/**
 * Brings back what was not saved: by this tab, or by one that is no more. Of several the newest, and the others are offered. Calls apart where the file has changed since.
 * @param {(disk: Wire.Disk) => void} apart
 */
export async function restore(apart) {
  await name();
  const living = await alive();
  const file = shot.start.folder + "/" + shot.start.file;
  const orphans = shot.start.drafts.filter((d) => d.id === id || !living.has(d.id));
  if (left?.file === file && left.text !== shot.saved) {
    await take({ ...left, id }, apart);
    offer(orphans.filter((d) => d.id !== id && d.text !== left.text));
  } else if (orphans.length > 0) {
    await take(orphans[0], apart);
    offer(orphans.slice(1));
  }
}

/** @param {Omit<Wire.Draft, "when">} draft @param {(disk: Wire.Disk) => void} apart */
async function take(draft, apart) {
  const disk = { text: shot.saved, revision: shot.revision };
  if (draft.text !== shot.text) await retext(draft.text, "what was not saved", shot.saved);
  await keep();
  if (draft.id !== id && kept === draft.text) void ask("draft", { id: draft.id, text: draft.text, drop: true }).catch(() => {});
  if (shot.start.new) say("What was not saved is back. There is no file of it any more; Save writes one.", "fair");
  else if (draft.revision === disk.revision) say("What was not saved is back. Undo takes the file as it is.", "fair");
  else apart(disk);
}

/** More than one tab had something that was not saved. @param {Wire.Draft[]} drafts */
function offer(drafts) {
  at("left").hidden = drafts.length === 0;
  at("left").replaceChildren(...drafts.map((d) => {
    const when = new Date(d.when).toLocaleString([], { dateStyle: "medium", timeStyle: "short" });
    /** @type {HTMLElement} */
    const p = make("p", {}, `Another tab had something that was not saved either, of ${when}. `,
      button("Take it", () => (gone(p), retext(d.text, "what another tab had not saved")), { title: "Undo brings back what is here" }), " ",
      button("Throw it away", () => (gone(p), ask("draft", { id: d.id, text: d.text, drop: true }).catch(sayError)), { class: "quiet" }));
    return p;
  }));
}

/** @param {HTMLElement} p */
function gone(p) {
  p.remove();
  at("left").hidden = at("left").children.length === 0;
}

/** What is not saved of the shot is saved elsewhere by now. It goes, under the name that the shot has still. */
export async function letGo() {
  clearTimeout(waiting);
  await sending?.catch(() => {});
  if (kept) await ask("draft", { id, text: kept, drop: true }).catch(sayError);
  kept = "";
}

/** What belongs to the shot is called otherwise by now, and so is what is kept of it. */
export async function renamed() {
  kept = "";
  await keep();
}
