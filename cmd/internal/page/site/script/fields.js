// fields are values of the shot as they are typed, with their units.
import { make, words } from "./make.js";
import { change } from "./planner.js";

let made = 0;

/** A field for a value; show it again with each plan. */
export function field(value, key = value.path) {
  const id = "field-" + ++made;
  const help = make("small", { id: id + "-help" });
  const input = control(value, id);
  const label = make("label", { for: id }, value.label);
  const wrong = make("small.wrong", { id: id + "-wrong", role: "alert" });
  const el = make("div.field", { "data-path": key }, label, input, help, wrong);
  const f = { el, input, value, wrong, show: (v) => show(f, label, help, v) };
  input.addEventListener("change", () => put(f));
  input.addEventListener("keydown", (e) => e.key === "Escape" && ((input.value = f.value.value), e.stopPropagation()));
  f.show(value);
  return f;
}

function control(value, id) {
  const described = { id, "aria-describedby": `${id}-help ${id}-wrong` };
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
  told(f, []);
  f.el.classList.toggle("left-out", v.value === "");
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
  const answer = await change([{ path: f.value.path, value: text }], { label: f.value.path });
  told(f, answer?.faults ?? []);
}
