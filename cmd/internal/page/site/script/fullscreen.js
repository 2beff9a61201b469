// fullscreen keeps the strip, Stop and what is said of a program that has died in sight and in
// reach over a part of the page that is shown alone.
import { at, make } from "./make.js";

const over = make("div.stays", { id: "over" });
const kept = [at("strip"), at("stop"), at("gone"), at("dead")].map((el) => {
  const place = document.createComment(el.id);
  el.before(place);
  return { el, place };
});

/** Has them in the part that is shown alone; with null where they belong. @param {HTMLElement | null} part */
export function keepOver(part) {
  over.remove();
  if (!part) for (const { el, place } of kept) place.after(el);
  else {
    over.append(...kept.map(({ el }) => el));
    part.prepend(over);
  }
}
