// filmplace is which frame of a recording is of which instant of the plan, and how both are told.
import { number } from "./shot.js";

/** @typedef {{ zero: number, round: number, frames: number, per: number, slower: number }} Lies how a recording lies on the plan: where frame 0 is, which round is looked at, how many frames the recording and a round have */

/** The place in the recording, a fraction, at a captured frame of the round. @param {Lies} lies @param {number} frame */
export const placeIn = ({ zero, round, per, slower }, frame) => zero + (round * per + frame) * (1 + slower);

/** Its frame there. @param {Lies} lies @param {number} frame */
export const frameIn = (lies, frame) => Math.round(placeIn(lies, frame));

/** The round and the captured frame in it, at a place in the recording; the first round where it is before that, the last where it is after. @param {Lies} lies @param {number} place @param {number} rounds */
export function planAt({ zero, per, slower }, place, rounds) {
  const all = (place - zero) / (1 + slower);
  const round = Math.min(Math.max(Math.floor(all / per + 1e-9), 0), rounds - 1);
  return { round, frame: Math.min(Math.max(all - round * per, 0), per - 1) };
}

/** Why there is no picture of a frame; "" where there may be one. @param {Lies} lies @param {number} frame @param {number} pictures that were kept */
export function missing({ frames }, frame, pictures) {
  if (frame < 0) return `Before the recording: it begins ${-frame} ${-frame === 1 ? "frame" : "frames"} later.`;
  if (frame >= frames) return `After the recording: it ends with frame ${frames - 1}.`;
  return frame >= pictures ? `Of this frame no picture was kept; there are ${pictures}.` : "";
}

/** Where frame 0 is, in words. @param {number | null} zero @param {Wire.FilmZero} found */
export function zeroWords(zero, found) {
  if (zero === null) return "Nothing tells where frame 0 of the plan is in it.";
  const by = found.at === null ? NaN : zero - found.at, moved = Math.round(by);
  if (!(Math.abs(by - moved) < 1e-6)) return `Frame 0 of the plan is frame ${number(zero, 2)} of the film, set by hand.`;
  const sure = found.sure === null ? "" : ` \u00b1 ${sureWords(found.sure)}`;
  const hand = moved ? `, moved by hand by ${moved > 0 ? "+" : "\u2212"}${Math.abs(moved)}` : "";
  return `Frame 0 of the plan is frame ${number(zero, 2)}${sure} of the film${hand}.`;
}

/** @param {number} sure */
const sureWords = (sure) => (sure < 0.01 ? "under 0.01" : number(sure, 2));

/** All stretches that may be shown, the best first. @param {Wire.Filmed} told @returns {Stretch[]} */
export function stretches(told) {
  const whole = told.asWhole ? [{ from: 0, to: told.frames - 1, unseen: told.asWhole.unseen, words: told.asWhole.last_shows_first_again ? "all of it; seen, since the last frame shows the first again" : told.asWhole.unseen ? "all of it; the seam is not seen" : "all of it; the seam is seen" }] : [];
  const found = told.loops.map((l) => ({ from: l.from, to: l.to, unseen: l.unseen, words: seamWords(l) }));
  return [...whole, ...found].sort((a, b) => Number(b.unseen) - Number(a.unseen));
}

/** @param {footagereport.Loop} loop */
function seamWords(loop) {
  const others = loop.as_good_to - loop.as_good_from;
  if (loop.unseen) return "the seam is not seen" + (others ? `; as good from any of ${others + 1} frames` : "");
  return loop.dissolve_frames ? `dissolve over ${loop.dissolve_frames} frames` : "the seam is seen";
}

/** Those frames that are asked for next: from one on, as far ahead as is looked, then behind it. @param {number} from @param {number} count @param {(frame: number) => boolean} there @param {number} ahead @param {number} behind @param {number} many */
export function nextWanted(from, count, there, ahead, behind, many) {
  const out = [];
  for (let away = 0; away <= ahead + behind && out.length < many; away++) {
    const frame = away <= ahead ? from + away : from - (away - ahead);
    if (frame >= 0 && frame < count && !there(frame)) out.push(frame);
  }
  return out;
}
