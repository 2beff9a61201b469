// make builds elements. Text goes in as text: nothing is ever parsed as HTML.

const SVG = "http://www.w3.org/2000/svg";

/** An element such as make("button.quiet", {type: "button", onclick: f}, "Undo"). */
export function make(kind, props, ...children) {
  return filled(document.createElement(kind.split(".")[0]), kind, props, children);
}

/** The same for a part of a drawing. */
export function draw(kind, props, ...children) {
  return filled(document.createElementNS(SVG, kind.split(".")[0]), kind, props, children);
}

function filled(el, kind, props, children) {
  const classes = kind.split(".").slice(1);
  if (classes.length) el.classList.add(...classes);
  for (const [name, value] of Object.entries(props ?? {})) set(el, name, value);
  el.append(...children.flat().filter((c) => c !== null && c !== undefined && c !== false));
  return el;
}

function set(el, name, value) {
  if (value === null || value === undefined || value === false) return;
  if (name.startsWith("on")) el.addEventListener(name.slice(2), value);
  else if (name === "value") el.value = value;
  else el.setAttribute(name, value === true ? "" : value);
}

export const at = (id) => document.getElementById(id);

/** Shows text where it is not there already, so that nothing is read out twice. */
export function words(el, text) {
  if (el.textContent !== text) el.textContent = text;
}

/** A button that is not a form's. */
export function button(text, onclick, props) {
  return make("button", { type: "button", onclick, ...props }, text);
}

/** Puts new content only where it is new, so that nothing is read out twice. */
export function fill(el, as, content) {
  if (el.dataset.as === as) return;
  el.dataset.as = as;
  el.replaceChildren(...content());
}
