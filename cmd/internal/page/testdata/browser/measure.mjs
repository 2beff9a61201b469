// measure tells how long it is from an input to the plan on screen, in the
// browser itself and apart from what the page's own script measures.
import { availableParallelism, loadavg } from "node:os";

/**
 * Where more work is ready than there are processors, each gets its part of them and
 * takes longer by as much: what is asked for is eased by that, and by no more.
 */
export const busy = () => Math.max(1, loadavg()[0] / availableParallelism());

/**
 * Begins to measure. An input counts from the instant the browser made it
 * (Event.timeStamp) to the first task after the frame in which the handle says
 * another place was drawn: by then the frame is on its way to the screen. A window that
 * glides draws the same place again, which is no change.
 */
export async function begin(tab, path) {
  await tab.evaluate((path) => {
    const seen = (window.seenByTest = []);
    let made = 0;
    const note = (e) => (made ||= e.timeStamp);
    for (const kind of ["pointermove", "pointerup", "keydown"]) addEventListener(kind, note, true);
    const drawn = (records) => {
      if (!made || records.every((r) => r.oldValue === r.target.getAttribute(r.attributeName))) return;
      const from = made;
      made = 0;
      requestAnimationFrame(() => {
        const after = new MessageChannel();
        after.port1.onmessage = () => seen.push(performance.now() - from);
        after.port2.postMessage(0);
      });
    };
    new MutationObserver(drawn).observe(document.querySelector(`[role=slider][data-path="${path}"]`), { attributeFilter: ["aria-valuenow"], attributeOldValue: true });
  }, path);
}

/** The milliseconds of each change so far. */
export const seen = (tab) => tab.evaluate(() => window.seenByTest);

/** What the page measured by itself under a name, in ms. */
export const own = (tab, name) => tab.evaluate((n) => performance.getEntriesByName(n).map((e) => e.duration), name);

/** The one that a quarter stay below, the middle one, and the one that nine of ten stay below. */
export function spread(times) {
  const sorted = times.toSorted((a, b) => a - b);
  return { quarter: sorted[Math.floor(sorted.length / 4)], median: sorted[Math.floor(sorted.length / 2)], ninth: sorted[Math.floor(sorted.length * 0.9)], least: sorted[0], most: sorted.at(-1), count: sorted.length };
}

export const told = (m) => `a quarter within ${m.quarter.toFixed(1)} ms, half within ${m.median.toFixed(1)} ms, nine of ten within ${m.ninth.toFixed(1)} ms, ${m.least.toFixed(1)} to ${m.most.toFixed(1)} ms, of ${m.count}`;
