// filmdrop takes what is dropped on the page, or chosen by a button: a film, stills, or a folder of
// stills.
import { at, make } from "./make.js";
import { sayError } from "./notice.js";

const STILL = /^[^.].*\.(png|jpe?g|tiff?)$/i;

/** @param {DragEvent} e */
const ofFiles = (e) => Boolean(e.dataTransfer?.types.includes("Files"));

/** @type {HTMLElement | null} */
let sign = null;
let asked = false;
let over = 0; // elements that it is over: it enters one before it leaves another

/** The style sheet of all that is of a take: no page waits for it that has none. @type {Promise<unknown> | null} */
let sheet = null;

/** Loads it. Where it does not come, things are there all the same. */
export const styled = () => (sheet ??= new Promise((there) => {
  const beside = /** @type {HTMLLinkElement} */ (document.querySelector('link[href$="style/page.css"]')).href;
  document.head.append(make("link", { rel: "stylesheet", href: beside.replace("page.css", "film.css"), onload: there, onerror: there }));
}));

/** @param {boolean} shown */
async function show(shown) {
  asked = shown;
  if (shown) await styled();
  if (shown !== asked) return;
  if (shown && !sign) document.body.append((sign = make("div.drop", { "aria-hidden": "true" }, make("p", {}, "Drop the take here"), make("p.hint", {}, "A film, or all its stills: it is looked through and laid beside the plan."))));
  if (sign) sign.hidden = !shown;
}

/** Calls f with the files of each take that is dropped or chosen. @param {(files: File[]) => void} f */
export function whenDropped(f) {
  addEventListener("dragenter", (e) => ofFiles(e) && (over++, void show(true)));
  addEventListener("dragleave", (e) => ofFiles(e) && (over = Math.max(over - 1, 0)) === 0 && void show(false));
  addEventListener("dragover", (e) => ofFiles(e) && e.preventDefault());
  addEventListener("drop", (e) => {
    if (!ofFiles(e) || !e.dataTransfer) return;
    e.preventDefault();
    over = 0;
    void show(false);
    void filesOf(e.dataTransfer).then(f, sayError);
  });
  at("film-choose").addEventListener("click", () => at("film-files").click());
  at("film-files").addEventListener("change", () => {
    const files = [...(at("film-files").files ?? [])];
    at("film-files").value = ""; // or the same one again would be no change
    if (files.length) f(files);
  });
}

/** Those of a drop; of folders, the stills that lie in them. @param {DataTransfer} data */
async function filesOf(data) {
  const files = [...data.files];
  const folders = [...data.items].map((i) => i.webkitGetAsEntry?.()).filter((e) => e?.isDirectory);
  if (!folders.length) return files;
  const out = [];
  for (const folder of folders) {
    const reader = /** @type {FileSystemDirectoryEntry} */ (folder).createReader();
    for (let some; (some = await entries(reader)).length; ) for (const e of some) if (e.isFile && STILL.test(e.name)) out.push(await fileOf(/** @type {FileSystemFileEntry} */ (e)));
  }
  if (!out.length) throw new Error("There are no stills (PNG, JPEG, TIFF) in what was dropped.");
  return out;
}

/** @param {FileSystemDirectoryReader} reader @returns {Promise<FileSystemEntry[]>} */
const entries = (reader) => new Promise((there, fails) => reader.readEntries(there, fails));

/** @param {FileSystemFileEntry} entry @returns {Promise<File>} */
const fileOf = (entry) => new Promise((there, fails) => entry.file(there, fails));
