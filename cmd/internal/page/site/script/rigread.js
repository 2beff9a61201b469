// rigread asks a board what it is, and offers the rig file that is made of the answer.
import { at, words } from "./make.js";
import { ask } from "./server.js";
import { refusal } from "./refusal.js";
import { say, sayError } from "./notice.js";
import { on, shot } from "./shot.js";

/** A word as a shell takes it. @param {string} word */
const typed = (word) => (/^[\w./:-]+$/.test(word) ? word : `'${word.replaceAll("'", "'\\''")}'`);

/** The command that measures this rig where it is now, if it has a file. */
function measuring() {
  const port = at("port").value;
  at("measure").hidden = !shot.start.rigFile;
  words(at("measure-command"), `seamrail measure ${typed(shot.start.rigFile)} ${port === "virtual" ? "--virtual" : "--port " + typed(port)}`);
}
on("start", measuring);
at("port").addEventListener("change", measuring);

at("rig-ask").addEventListener("click", async () => {
  at("rig-ask").disabled = true;
  at("rig-offer").hidden = true;
  at("rig-report").classList.add("words");
  words(at("rig-report"), "Asking; at a port that nobody answers at it takes half a minute\u2026");
  try {
    const answer = await ask("rig/read", { port: at("port").value, text: shot.text, flags: {} });
    at("rig-report").classList.remove("words");
    words(at("rig-report"), answer.report);
    at("rig-new-text").value = answer.text;
    at("rig-offer").hidden = false;
  } catch (err) {
    const { faults, message } = refusal(err);
    words(at("rig-report"), faults.map((f) => f.text).join("\n") || message);
  }
  at("rig-ask").disabled = false;
});

at("rig-save").addEventListener("click", async () => {
  try {
    const { file } = await ask("rig/new", { file: at("rig-new-file").value.trim(), text: at("rig-new-text").value });
    say(`Saved ${file}. A shot is on this rig where it says file = "${file}" under [rig].`);
  } catch (err) {
    sayError(err);
  }
});
