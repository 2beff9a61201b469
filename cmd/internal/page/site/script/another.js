// another opens the page in another window of this browser, by a word that is good once.
// The new one takes nothing over from this one: neither what is not saved, nor a hold on the rig.
import { make } from "./make.js";
import { ask } from "./server.js";
import { sayError } from "./notice.js";

/** Opens an address of this page there. @param {string} address */
export async function openBeside(address) {
  try {
    const { once } = await ask("window", {});
    make("a", { href: `${address}#once=${once}`, target: "_blank", rel: "noopener" }).click();
  } catch (err) {
    sayError(err);
  }
}
