// fields are values of the shot as they are typed, with their units.
import { make, words } from "./make.js";
import { change, retext } from "./planner.js";
import { say, sayError } from "./notice.js";
import { ask } from "./server.js";
import { shot } from "./shot.js";

let made = 0;

/** A field for a value; show it again with each plan. */
export function field(value, key = value.path) {
  const id = "field-" + ++made;
  const help = make("small", { id: id + "-help" });
  const input = control(value, id);
  const label = make("label", { for: id }, value.label);
  const wrong = make("small.wrong", { id: id + "-wrong", role: "alert" });
  const home = make("small.home", { id: id + "-home" });
  const there = make("input", { type: "checkbox", "aria-describedby": id + "-home" });
  const common = make("label.tick", { hidden: true }, there, make("span"));
  const el = make("div.field", { "data-path": key }, label, input, home, common, help, wrong);
  const f = { el, input, value, wrong, home, there, common, show: (v) => show(f, label, help, v) };
  input.addEventListener("change", () => put(f));
  input.addEventListener("keydown", (e) => e.key === "Escape" && ((input.value = f.value.value), e.stopPropagation()));
  f.show(value);
  return f;
}

function control(value, id) {
  const described = { id, "aria-describedby": `${id}-home ${id}-help ${id}-wrong` };
  if (!value.choices?.length) return make("input", { type: "text", autocomplete: "off", spellcheck: "false", ...described });
  return make("select", described);
}

function show(f, label, help, v) {
  f.value = v;
  words(label, v.label);
  words(help, v.help);
  if (f.input.tagName === "SELECT") options(f.input, v);
  else f.input.placeholder = v.value === "" ? "left out" : "";
  if (document.activeElement !== f.input || f.sent) f.input.value = v.value;
  f.sent = false;
  stands(f, v);
  told(f, []);
  f.el.classList.toggle("left-out", v.value === "");
}

/** Says in which file a value stands that is not the shot's own, or what it stands over. */
function stands(f, v) {
  words(f.home, v.file ? `stands in ${v.file}` : v.over ? `over ${v.over.value} in ${v.over.file}` : "");
  f.common.hidden = !v.file;
  if (v.file) words(f.common.lastElementChild, `change it there, for all shots over ${v.file}`);
  else f.there.checked = false;
}

/** Says beside the field what is wrong with what was typed. */
function told(f, faults) {
  words(f.wrong, faults.map((x) => [x.text, x.fit].filter(Boolean).join("; ")).join(". "));
  if (faults.length) f.input.setAttribute("aria-invalid", "true");
  else f.input.removeAttribute("aria-invalid");
}

function options(select, v) {
  const names = v.value !== "" && v.choices.includes(v.value) ? v.choices : [v.value, ...v.choices];
  if (select.dataset.names === names.join()) return;
  select.dataset.names = names.join();
  select.replaceChildren(...names.map((n) => make("option", { value: n }, n === "" ? "left out" : n)));
}

async function put(f) {
  const text = f.input.value.trim();
  if ((text === f.value.value && !f.wrong.textContent) || text === "") return void (f.input.value = f.value.value);
  f.sent = true;
  if (f.there.checked) return void putThere(f, text);
  const answer = await change([{ path: f.value.path, value: text }], { label: f.value.path });
  told(f, answer?.faults ?? []);
}

/** Writes a value into the file under the shot that it stands in, at once. */
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
