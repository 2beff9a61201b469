// answers asks what the commands answer: spin, cues, sequence and what fits.
// What has no look of its own is shown as it is, table by table.
import { at, make } from "./make.js";
import { ask } from "./server.js";
import { on, shot } from "./shot.js";
import { sequenced } from "./clip.js";
import { fitted, spun } from "./loops.js";

const OWN = { "seamrail-spin/1": spun, "seamrail-fit/1": fitted, "seamrail-sequence/1": sequenced };

for (const [name, question] of Object.entries({
  spin: () => ({ text: shot.text }),
  cues: () => ({ text: shot.text }),
  fit: () => ({ text: shot.text }),
  sequence: () => ({ file: at("sequence-file").value.trim() }),
})) at("ask-" + name).addEventListener("click", () => answer(name, question()));

async function answer(name, question) {
  const out = at("answer-" + name);
  out.setAttribute("aria-busy", "true");
  out.classList.remove("old");
  out.replaceChildren(make("p", {}, "Working it out\u2026"));
  try {
    const told = await ask(name, question);
    out.replaceChildren(typeof told.text === "string" && Object.keys(told).length === 1 ? make("pre", { tabindex: "0" }, told.text) : (OWN[told.schema] ?? shown)(told));
  } catch (err) {
    out.replaceChildren(make("p.bad", {}, make("span.mark", { "aria-hidden": "true" }, "\u25b2"), " ", err.faults?.map((f) => [f.axis, f.text, f.fit].filter(Boolean).join(": ")).join(". ") || err.message));
  }
  out.removeAttribute("aria-busy");
}

/** An answer is of the shot as it was when it was asked. */
on("text", () => {
  for (const out of document.querySelectorAll(".answer")) out.classList.toggle("old", out.childElementCount > 0);
});

/** Keys that say what the JSON is, and nothing of the shot. */
const SILENT = new Set(["schema", "plan", "hash", "title", "capture", "playback", "retime"]);

function shown(value) {
  const list = make("dl", {});
  for (const [key, v] of Object.entries(value)) {
    if (SILENT.has(key) || v === null || v === "" || (Array.isArray(v) && v.length === 0)) continue;
    list.append(make("dt", {}, key.replaceAll("_", " ")), make("dd", {}, part(v)));
  }
  return list;
}

function part(v) {
  if (Array.isArray(v)) return v.every((x) => x !== null && typeof x === "object") ? table(v) : v.map(plain).join(", ");
  if (v !== null && typeof v === "object") return shown(v);
  return plain(v);
}

/** What is less, in any unit of a document, is what floats that cancel have left. */
const NOTHING = 1e-9;

const plain = (v) => (typeof v === "boolean" ? (v ? "yes" : "no") : typeof v === "number" ? String(Math.abs(v) < NOTHING ? 0 : Number(v.toPrecision(6))) : v === null ? "\u2013" : RATIO.test(v) ? decimal(v) : typeof v === "object" ? Object.values(v).map(plain).join(" ") : String(v));

/** A fraction of long numbers, such as 31031/4800, is told as a decimal. */
const RATIO = /^-?\d+\/\d{3,}$/;

function decimal(text) {
  const [a, b] = text.split("/").map(Number);
  return String(Number((a / b).toPrecision(6)));
}

function table(rows) {
  const keys = [...new Set(rows.flatMap((r) => Object.keys(r)))];
  if (keys.length > 5) return make("ol.cards", {}, rows.map((r) => make("li", {}, shown(r))));
  return make("div.wide", { tabindex: "0", role: "region", "aria-label": "table" }, make("table", {},
    make("thead", {}, make("tr", {}, keys.map((k) => make("th", { scope: "col" }, k.replaceAll("_", " "))))),
    make("tbody", {}, rows.map((r) => make("tr", {}, keys.map((k) => make("td", {}, part(r[k] ?? null))))))));
}

