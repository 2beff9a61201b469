// fields are values of the shot as they are typed, with their units.
import { button, make, words } from "./make.js";
import { change, retext } from "./planner.js";
import { say, sayError } from "./notice.js";
import { ask } from "./server.js";
import { shot } from "./shot.js";

let made = 0;

/** @typedef {{ faults: Pick<Wire.Fault, "text" | "fit">[], fits: Wire.Fit[], refused: boolean }} Written what became of an edit */
/** @typedef {(edit: Wire.Edit) => Promise<Written | null>} Writes */

/** Writes an edit of a field into the shot. @type {Writes} */
const written = (edit) => change([edit], { label: edit.path });

/** @typedef {ReturnType<typeof field>} Field */

/**
 * A field for a value; show it again with each plan. What is typed goes to write, which is the shot's.
 * @param {Wire.Value} value
 */
export function field(value, key = value.path, write = written) {
  const id = "field-" + ++made;
  const help = make("small.help", { id: id + "-help" });
  const input = control(value, id);
  const named = make("span"), file = make("small.key");
  const label = make("label", { for: id }, named, file);
  const wrong = make("small.wrong", { id: id + "-wrong", role: "alert" });
  const home = make("small.home", { id: id + "-home" });
  const there = make("input", { type: "checkbox", "aria-describedby": id + "-home" });
  const thereWords = make("span");
  const common = make("label.tick", { hidden: true }, there, thereWords);
  const fits = make("div.fits");
  const el = make("div.field", { "data-path": key }, label, input, home, common, help, wrong, fits);
  const f = {
    el, input, named, file, help, value, wrong, fits, write, home, there, thereWords, common, sent: false, rests: false,
    show: (/** @type {Wire.Value} */ v) => show(f, v),
  };
  input.addEventListener("change", () => void put(f));
  el.addEventListener("keydown", (e) => {
    if (e.key !== "Escape" || e.target !== input) return;
    input.value = f.value.value;
    e.stopPropagation();
  });
  f.show(value);
  return f;
}

/** @param {Wire.Value} value @param {string} id */
function control(value, id) {
  const described = { id, "aria-describedby": `${id}-home ${id}-help ${id}-wrong` };
  if (!value.choices?.length) return make("input", { type: "text", autocomplete: "off", spellcheck: "false", ...described });
  return make("select", described);
}

/** Whether a field shows a value already: with each step of a drag all are shown, and few have changed. @param {Field} f @param {Wire.Value} v */
function shows(f, v) {
  const of = (/** @type {Wire.Value} */ w) => [w.value, w.words, w.label, w.help, w.file, w.example, w.over?.value, w.over?.file, w.choices?.join()];
  const had = of(f.value);
  return f.rests && !f.sent && f.input.value === v.value && of(v).every((x, i) => x === had[i]);
}

/** @param {Field} f @param {Wire.Value} v */
function show(f, v) {
  const rests = shows(f, v);
  f.value = v;
  if (rests) return;
  words(f.named, v.words ?? v.label);
  words(f.file, keyBeside(v));
  words(f.help, v.help);
  if (f.input instanceof HTMLSelectElement) options(f.input, v);
  else f.input.placeholder = v.value !== "" ? "" : v.example ? `left out, such as ${v.example}` : "left out";
  if (document.activeElement !== f.input || f.sent) f.input.value = v.value;
  f.sent = false;
  stands(f, v);
  told(f, []);
  f.el.classList.toggle("left-out", v.value === "");
  f.rests = true;
}

/** The key of the file, where its words are other ones. @param {Wire.Value} v */
const keyBeside = (v) => (v.words?.toLowerCase() === v.label ? "" : v.label);

/** Says in which file a value stands that is not the shot's own, or what it stands over. @param {Field} f @param {Wire.Value} v */
function stands(f, v) {
  words(f.home, v.file ? `stands in ${v.file}` : v.over ? `over ${v.over.value} in ${v.over.file}` : "");
  f.common.hidden = !v.file;
  if (v.file) words(f.thereWords, `change it there, for all shots over ${v.file}`);
  else f.there.checked = false;
}

/**
 * Says beside the field what is wrong with what was typed, and what would do as buttons.
 * @param {Field} f
 * @param {Pick<Wire.Fault, "text" | "fit">[]} faults
 * @param {Wire.Fit[]} [fits]
 */
function told(f, faults, fits = []) {
  f.rests = false;
  words(f.wrong, faults.map((x) => [x.text, x.fit].filter(Boolean).join("; ")).join(". "));
  f.fits.replaceChildren(...fits.map((x) => button(x.text, async () => {
    await change(x.edits, { label: f.value.path });
    f.input.focus();
  }, { class: "fit" })));
  if (faults.length) f.input.setAttribute("aria-invalid", "true");
  else f.input.removeAttribute("aria-invalid");
}

/** @param {HTMLSelectElement} select @param {Wire.Value} v */
function options(select, v) {
  const names = [...new Set(["", v.value, ...(v.choices ?? [])])];
  if (select.dataset.names === names.join()) return;
  select.dataset.names = names.join();
  select.replaceChildren(...names.map((n) => make("option", { value: n }, n === "" ? "left out" : n)));
}

/** @param {Field} f */
async function put(f) {
  const text = f.input.value.trim();
  if (text === f.value.value && !f.wrong.textContent) return void (f.input.value = f.value.value);
  if (text === f.value.value) return told(f, []);
  if (text === "" && f.there.checked) return void (f.input.value = f.value.value);
  f.sent = true;
  if (f.there.checked) return void putThere(f, text);
  const edit = text === "" ? { do: "remove", path: f.value.path } : { path: f.value.path, value: text };
  const answer = await f.write(edit);
  told(f, answer?.faults ?? [], answer?.fits);
  if (answer?.refused && f.input instanceof HTMLSelectElement) f.input.value = f.value.value;
}

/** Writes a value into the file under the shot that it stands in, at once. @param {Field} f @param {string} text */
async function putThere(f, text) {
  try {
    const { file, path } = await ask("set-up", { text: shot.text, path: f.value.path, value: text, was: f.value.value });
    say(`Written into ${file}, for all shots over it: ${path} = ${text}, where ${f.value.value} was. Undo does not change that file.`, "fair");
    await retext(shot.text);
  } catch (err) {
    f.input.value = f.value.value;
    sayError(err);
  }
}
