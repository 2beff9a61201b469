// memory tells what a tab takes: of its process as the computer has it, and of the
// scripts on it as the browser has it.
import { readFile } from "node:fs/promises";
import { browser } from "./harness.mjs";

const KB = 1024;

/** The processes that show pages. */
async function showing() {
  const session = await browser.target().createCDPSession();
  const { processInfo } = await session.send("SystemInfo.getProcessInfo");
  await session.detach();
  return processInfo.filter((p) => p.type === "renderer").map((p) => p.id);
}

/** Opens a tab by f, and returns it with a function that tells what it takes, in bytes. */
export async function watched(f) {
  const before = new Set(await showing());
  const tab = await f();
  await tab._client().send("Network.disable"); // else the tab keeps its answers for the debugger, up to 200 MB of them
  const session = await tab.createCDPSession();
  await session.send("Performance.enable");
  return {
    tab,
    /** All processes that came with the tab, one that the browser keeps ready among them: their own memory, and with their part of what is shared; what scripts hold. */
    async takes() {
      const sum = { own: 0, proportional: 0, scripts: 0 };
      for (const pid of await showing()) {
        if (before.has(pid)) continue;
        const part = await readFile(`/proc/${pid}/smaps_rollup`, "utf8").catch(() => ""); // it may have ended
        const of = (name) => KB * Number(new RegExp(`^${name}:\\s+(\\d+) kB`, "m").exec(part)?.[1] ?? 0);
        sum.own += of("Private_Clean") + of("Private_Dirty") + of("SwapPss");
        sum.proportional += of("Pss") + of("SwapPss");
      }
      const { metrics } = await session.send("Performance.getMetrics");
      sum.scripts = metrics.find((m) => m.name === "JSHeapUsedSize").value;
      return sum;
    },
  };
}
