// main begins: asks for the shot, plans it, and listens from then on.
import { at, words } from "./make.js";
import { refusal } from "./refusal.js";
import { ask, nameShot } from "./server.js";
import { on, shot, tell } from "./shot.js";
import { redoes, retext, undoes } from "./planner.js";
import { play, refresh } from "./playhead.js";
import { openBeside } from "./another.js";
import { heardDrive } from "./driver.js";
import { against, heard, heardUnder } from "./disk.js";
import { restore } from "./drafts.js";
import { gone } from "./dead.js";
import { listen, listenAnew } from "./listen.js";
import { showTakes } from "./takes.js";
import "./dial.js";
import "./transport.js";
import "./overview.js";
import "./curves.js";
import "./above.js";
import "./older.js";
import "./lens.js";
import "./headline.js";
import "./whole.js";
import "./verdicts.js";
import "./controller.js";
import "./shape.js";
import "./moves.js";
import "./numbers.js";
import "./editor.js";
import "./tabs.js";
import "./answers.js";
import "./deliver.js";
import "./drive.js";
import "./rigread.js";
import "./rigedit.js";
import "./byhand.js";
import "./marking.js";
import "./stop.js";
import "./strip.js";
import "./calls.js";
import "./filmbench.js";
import "./keys.js";
import { tellFile } from "./naming.js";
import "./broken.js";

export { say } from "./notice.js"; // for whoever looks at the page from outside

on("view", () => {
  words(at("title"), shot.view.title);
  const { timelineFrames, loopScreenSeconds, loopRealSeconds } = shot.view;
  words(at("round-words"), `${timelineFrames} frames, ${loopScreenSeconds.toFixed(3)} s shown, ${loopRealSeconds.toFixed(3)} s on the rig`);
  refresh();
});

on("history", () => {
  for (const [id, label, word] of /** @type {const} */ ([["undo", undoes(), "Undo"], ["redo", redoes(), "Redo"]])) {
    at(id).disabled = label === undefined;
    at(id).title = label ? `${word}: ${label}` : word;
  }
});

async function begin() {
  try {
    shot.start = await ask("start");
  } catch (err) {
    document.body.classList.add("no-shot");
    gone(refusal(err).message);
    return;
  }
  nameShot(shot.start.file);
  Object.assign(shot, { text: shot.start.text, saved: shot.start.new ? "" : shot.start.text, revision: shot.start.revision });
  tellFile();
  words(at("rig-text"), shot.start.rigText);
  words(at("rig-file"), shot.start.rigFile);
  words(at("version"), shot.start.version);
  tell("start");
  tell("text");
  tell("history");
  await retext(shot.start.text);
  await restore(against);
  document.body.classList.add("ready");
  if (!matchMedia("(prefers-reduced-motion: reduce)").matches) play();
  void showTakes();
  void listen("watch", () => ({ revision: shot.revision }), hear);
}

at("another").addEventListener("click", () => void openBeside(location.pathname + location.search));
on("named", listenAnew); // it is another file that is listened to

/** @param {Wire.News} news */
function hear(news) {
  if (news.disk) heard(news.disk);
  if (news.under) heardUnder(news.under);
  if (news.drive) heardDrive(news.drive);
}

void begin();
