// main begins: asks for the shot, plans it, and listens from then on.
import { at, words } from "./make.js";
import { GONE, ask, lines } from "./server.js";
import { on, shot, tell } from "./shot.js";
import { redoes, retext, undoes } from "./planner.js";
import { play, refresh } from "./playhead.js";
import { heardDrive, mine } from "./driver.js";
import { heard, heardUnder, restore } from "./disk.js";
import { showTakes } from "./takes.js";
import "./dial.js";
import "./transport.js";
import "./curves.js";
import "./above.js";
import "./lens.js";
import "./verdicts.js";
import "./controller.js";
import "./moves.js";
import "./numbers.js";
import "./editor.js";
import "./tabs.js";
import "./answers.js";
import "./deliver.js";
import "./drive.js";
import "./rigread.js";
import "./byhand.js";
import "./marking.js";
import "./keys.js";

const AGAIN = 1000; // ms until it is listened to anew
const SILENCE = 4000; // ms without a beat: the program is gone or held up

let heardAt = 0;

on("view", () => {
  words(at("title"), shot.view.title);
  const { timelineFrames, loopScreenSeconds, loopRealSeconds } = shot.view;
  words(at("round-words"), `${timelineFrames} frames, ${loopScreenSeconds.toFixed(3)} s shown, ${loopRealSeconds.toFixed(3)} s on the rig`);
  refresh();
});

on("history", () => {
  for (const [id, label, word] of [["undo", undoes(), "Undo"], ["redo", redoes(), "Redo"]]) {
    at(id).disabled = label === undefined;
    at(id).title = label ? `${word}: ${label}` : word;
  }
});

async function begin() {
  try {
    shot.start = await ask("start");
  } catch (err) {
    gone(err.message);
    return;
  }
  Object.assign(shot, { text: shot.start.text, saved: shot.start.text, revision: shot.start.revision });
  words(at("file"), `${shot.start.folder}/${shot.start.file}`);
  words(at("rig-text"), shot.start.rigText);
  words(at("rig-file"), shot.start.rigFile);
  words(at("version"), shot.start.version);
  tell("start");
  tell("text");
  tell("history");
  await retext(shot.start.text);
  await restore();
  document.body.classList.add("ready");
  if (!matchMedia("(prefers-reduced-motion: reduce)").matches) play();
  void showTakes();
  void listen();
}

/** A browser has six connections to one program, and each page that listens keeps one: of several pages those behind others let go of theirs, or whoever drives is not heard. */
let listening = null;
const behind = () => document.hidden && !mine();
document.addEventListener("visibilitychange", () => behind() && listening?.abort());

function inSight() {
  heardAt = 0;
  return new Promise((resolve) => document.addEventListener("visibilitychange", resolve, { once: true }));
}

async function listen() {
  for (;;) {
    while (behind()) await inSight();
    listening = new AbortController();
    try {
      await lines("watch", { revision: shot.revision }, hear, listening.signal);
    } catch (err) {
      if (err.status === 403) return gone(err.message);
    }
    if (behind()) continue;
    gone(GONE);
    await new Promise((resolve) => setTimeout(resolve, AGAIN));
  }
}

function hear(news) {
  heardAt = performance.now();
  gone("");
  if (news.disk) heard(news.disk);
  if (news.under) heardUnder(news.under);
  if (news.drive) heardDrive(news.drive);
}

function gone(text) {
  at("gone").hidden = text === "";
  words(at("gone"), text);
}

setInterval(() => heardAt && performance.now() - heardAt > SILENCE && gone(GONE), AGAIN);

void begin();
