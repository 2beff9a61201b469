// broken puts the faults in front while there is nothing else to show: a text that was
// never planned has no picture, no curves and no verdicts, and none are pretended.
import { at } from "./make.js";
import { on, shot } from "./shot.js";

let fronted = false;

on("faults", () => {
  document.body.classList.toggle("no-plan", !shot.view);
  if (shot.view) return;
  if (!fronted) at("tab-text").click();
  fronted = true;
});
