// naming gives the shot another name: a second file, or the same one called otherwise.
// It stays open under it, with all that can be undone.
import { at, make, words } from "./make.js";
import { refusal } from "./refusal.js";
import { ask, nameShot } from "./server.js";
import { shot, tell, unsaved } from "./shot.js";
import { mine, rig } from "./driver.js";
import { letGo, renamed } from "./drafts.js";
import { say, sayError } from "./notice.js";
import { written } from "./disk.js";

const dialog = at("naming");
const DRIVES = "This page drives a rig, whose takes are logged under the name of the shot. Let go of the rig first.";

const ways = /** @type {const} */ ({
  "save-as": { name: "Save as", go: "Save", words: "The file that is open stays as it is on disk. The new one is open from then on, with a log of takes of its own." },
  rename: { name: "Rename", go: "Rename", words: "The file, its log of takes and what is not saved of it get the name together." },
});
let way = /** @type {keyof typeof ways} */ ("rename");
let looked = 0; // what was asked before counts no more

/** @param {keyof typeof ways} which */
function open(which) {
  at("file-more").open = false;
  if (rig?.open && mine()) return say(DRIVES, "fair");
  if (which === "rename" && shot.start.new) return say("There is no file to rename yet; Save writes it.", "fair");
  looked++;
  way = which;
  words(at("naming-name"), ways[way].name);
  words(at("naming-words"), ways[way].words);
  words(at("naming-go"), ways[way].go);
  words(at("naming-wrong"), "");
  at("naming-file").value = shot.start.file.replace(/^.*\//, "").replace(/\.toml$/, "");
  at("naming-go").disabled = true;
  dialog.showModal();
  at("naming-file").select();
}

at("naming-file").addEventListener("input", async () => {
  const number = ++looked;
  try {
    const { wrong } = await ask("name", { file: at("naming-file").value });
    if (number !== looked) return;
    words(at("naming-wrong"), wrong);
    at("naming-go").disabled = wrong !== "";
  } catch (err) {
    if (number === looked) words(at("naming-wrong"), refusal(err).message);
  }
});

at("naming-form").addEventListener("submit", async (e) => {
  e.preventDefault();
  looked++;
  at("naming-go").disabled = true;
  const text = shot.text;
  try {
    const moved = await ask(way, way === "rename" ? { file: at("naming-file").value } : { file: at("naming-file").value, text });
    dialog.close();
    if (way === "save-as") await letGo();
    take(moved, text);
  } catch (err) {
    const why = refusal(err);
    if (why.status === 0) sayError(why);
    words(at("naming-wrong"), why.first);
  }
});

/** The file by its name, and where there is room with the folder that it is in. */
export function tellFile() {
  const { folder, file } = shot.start;
  at("file").replaceChildren(make("span.folder", {}, folder + "/"), file);
}

/** @param {Wire.Moved} moved @param {string} text */
function take(moved, text) {
  shot.start.file = moved.file;
  nameShot(moved.file);
  tellFile();
  if (way === "save-as") {
    written(text, moved.revision);
    say(`Saved as ${moved.file}, which is open now.`);
  } else {
    shot.revision = moved.revision;
    void renamed();
    tell("disk");
    say(`It is ${moved.file} now${moved.with.length ? `, and its log ${moved.with.join(", ")}` : ""}.`);
  }
  tell("named");
}

at("save-as").addEventListener("click", () => open("save-as"));
at("rename").addEventListener("click", () => open("rename"));
at("naming-away").addEventListener("click", () => dialog.close());

// Whoever goes to another shot would leave the rig alone.
at("to-shots").addEventListener("click", (e) => {
  if (!rig?.open || !mine()) return;
  e.preventDefault();
  say("This page drives a rig and has to stay in front. Let go of the rig first, then go to the other shots.", "fair");
});
at("file-more").addEventListener("keydown", (e) => {
  if (e.key !== "Escape") return;
  at("file-more").open = false;
  at("file-more").querySelector("summary")?.focus();
});
document.addEventListener("click", (e) => e.target instanceof Node && !at("file-more").contains(e.target) && (at("file-more").open = false));
addEventListener("beforeunload", (e) => unsaved() && e.preventDefault());
