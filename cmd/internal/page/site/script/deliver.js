// deliver writes files: one to download, or a whole folder beside the shot.
import { at, button, make, words } from "./make.js";
import { ask, askFile } from "./server.js";
import { shot } from "./shot.js";
import { say, sayError } from "./notice.js";
import { working } from "./work.js";

/** The forms that the export command has, and whom each is for. @type {[form: string, name: string, help: string][]} */
const FORMS = [
  ["frames", "Frames", "a row a captured frame: where each axis is, for edit and rig"],
  ["steps", "Steps", "a row a motor step, for a board that plays steps"],
  ["ticks", "Ticks", "steps at a fixed beat, for a board that counts"],
  ["gcode", "G-code", "for a controller that reads RS-274/NGC"],
  ["picture", "Picture", "smear, focus and clearance of each frame"],
  ["selects", "Selects", "which frames of each kept take to use"],
  ["otio", "Timeline", "the same in OpenTimelineIO"],
  ["gltf", "Scene", "camera and turntable as binary glTF"],
  ["motion", "Motion", "every axis and the lens at each frame, JSON"],
  ["json", "Report", "the whole report, JSON"],
];

at("forms").append(...FORMS.map(([form, name, help]) => make("li", {}, button(name, () => download(form), { id: "export-" + form, "aria-describedby": "export-help-" + form }), make("small", { id: "export-help-" + form }, help))));

/** @param {string} form */
const download = (form) => fetchFile("export", { text: shot.text, form });

/**
 * Downloads the file that answers a question.
 * @template {"export" | "drive/wire"} P
 * @param {P} question
 * @param {Question<P>} more
 */
export async function fetchFile(question, more) {
  try {
    const { name, blob } = await working("the file", (signal) => askFile(question, more, signal));
    const a = make("a", { href: URL.createObjectURL(blob), download: name });
    a.click();
    setTimeout(() => URL.revokeObjectURL(a.href), 10000);
    say(`Downloaded ${name}.`);
  } catch (err) {
    sayError(err);
  }
}

at("make").addEventListener("click", async () => {
  const out = at("made");
  words(out, "Writing\u2026");
  at("make").disabled = true;
  try {
    const question = { text: shot.text, folder: at("make-folder").value.trim() };
    const answer = await working("the folder", (signal) => ask("make", question, signal));
    words(out, answer.text);
    say(`Made the folder ${answer.folder}.`);
  } catch (err) {
    words(out, "");
    sayError(err);
  }
  at("make").disabled = false;
});
