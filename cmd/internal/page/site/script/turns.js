// turns does one thing after the other, so that a folder of many shots leaves this machine
// room for a plan: what is in sight first, and what is quick before what is not.

/** @type {{ rank: number, wanted: () => boolean, work: () => Promise<void> }[]} */
const waiting = [];
let busy = false;

/**
 * Has work done when its turn comes and it is wanted then.
 * @param {number} rank what is lower comes first
 * @param {() => boolean} wanted
 * @param {() => Promise<void>} work
 */
export function inTurn(rank, wanted, work) {
  waiting.push({ rank, wanted, work });
  void next();
}

/** Looks again at what waits: something may be wanted by now. */
export async function next() {
  if (busy || document.hidden) return;
  const turn = waiting.filter((w) => w.wanted()).sort((a, b) => a.rank - b.rank)[0];
  if (!turn) return;
  waiting.splice(waiting.indexOf(turn), 1);
  busy = true;
  await turn.work().catch(() => {});
  busy = false;
  void next();
}

document.addEventListener("visibilitychange", () => void next());
