// make builds elements. Text goes in as text: nothing is ever parsed as HTML.

const SVG = "http://www.w3.org/2000/svg";

/**
 * An element such as make("button.quiet", {type: "button", onclick: f}, "Undo").
 * @template {string} K
 * @param {K} kind
 * @param {Props} [props]
 * @param {...Inside} children
 * @returns {HtmlOf<K>}
 */
export function make(kind, props, ...children) {
  return /** @type {HtmlOf<K>} */ (filled(document.createElement(kind.split(".")[0]), kind, props, children));
}

/**
 * The same for a part of a drawing.
 * @template {string} K
 * @param {K} kind
 * @param {Props} props
 * @param {...Inside} children
 * @returns {SvgOf<K>}
 */
export function draw(kind, props, ...children) {
  return /** @type {SvgOf<K>} */ (filled(document.createElementNS(SVG, kind.split(".")[0]), kind, props, children));
}

/**
 * @param {Element} el
 * @param {string} kind
 * @param {Props | undefined} props
 * @param {Inside[]} children
 */
function filled(el, kind, props, children) {
  const classes = kind.split(".").slice(1);
  if (classes.length) el.classList.add(...classes);
  for (const [name, value] of Object.entries(props ?? {})) set(el, name, value);
  for (const c of children.flat()) if (c !== null && c !== undefined && c !== false) el.append(c);
  return el;
}

/**
 * @param {Element} el
 * @param {string} name
 * @param {Props[string]} value
 */
function set(el, name, value) {
  if (value === null || value === undefined || value === false) return;
  if (typeof value === "function") el.addEventListener(name.slice(2), /** @type {EventListener} */ (value)); // its name begins with on
  else if (name === "value") /** @type {HTMLInputElement} */ (el).value = String(value);
  else el.setAttribute(name, value === true ? "" : String(value));
}

/**
 * A part of the page by its name in index.html.
 * @template {keyof Parts} K
 * @param {K} id
 * @returns {Parts[K]}
 */
export const at = (id) => /** @type {Parts[K]} */ (document.getElementById(id));

/**
 * Shows text where it is not there already, so that nothing is read out twice.
 * @param {Element} el
 * @param {string} text
 */
export function words(el, text) {
  if (el.textContent !== text) el.textContent = text;
}

/**
 * Tells something of an element where it is told otherwise: with each step of a drag much is told, and little of it is new.
 * @param {Element} el
 * @param {string} name
 * @param {string | number} value
 */
export function mark(el, name, value) {
  if (el.getAttribute(name) !== String(value)) el.setAttribute(name, String(value));
}

/**
 * A button that is not a form's.
 * @param {string} text
 * @param {(e: MouseEvent) => unknown} onclick
 * @param {Props} [props]
 */
export function button(text, onclick, props) {
  return make("button", { type: "button", onclick, ...props }, text);
}

/**
 * Puts new content only where it is new, so that nothing is read out twice.
 * @param {HTMLElement} el
 * @param {string} as
 * @param {() => (Node | string)[]} content
 */
export function fill(el, as, content) {
  if (el.dataset.as === as) return;
  el.dataset.as = as;
  el.replaceChildren(...content());
}
