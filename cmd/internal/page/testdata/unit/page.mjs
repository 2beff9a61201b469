// page stands in for a browser where scripts are tested by node alone: elements that hold what
// is put into them, frames that are drawn when a test says so, and a program that answers as a
// test says. It is imported before the scripts.

class Classes extends Set {
  contains(name) {
    return this.has(name);
  }

  remove(name) {
    this.delete(name);
  }

  toggle(name, is = !this.has(name)) {
    if (is) this.add(name);
    else this.delete(name);
  }
}

export class Part extends EventTarget {
  children = [];
  attributes = new Map();
  dataset = {};
  classList = new Classes();
  style = { setProperty() {}, removeProperty() {} };
  hidden = false;
  isConnected = true;
  words = "";

  get textContent() {
    return this.words + this.children.map((c) => c.textContent ?? c).join("");
  }

  set textContent(text) {
    this.words = text;
    this.children = [];
  }

  get childElementCount() {
    return this.children.length;
  }

  append(...others) {
    for (const o of others) {
      this.children.push(o);
      if (o instanceof Part) o.parent = this;
    }
  }

  replaceChildren(...others) {
    this.words = "";
    this.children = [];
    this.append(...others);
  }

  remove() {
    if (this.parent) this.parent.children = this.parent.children.filter((c) => c !== this);
  }

  setAttribute(name, value) {
    this.attributes.set(name, value);
  }

  getAttribute(name) {
    return this.attributes.get(name) ?? null;
  }

  removeAttribute(name) {
    this.attributes.delete(name);
    if (name.startsWith("data-")) delete this.dataset[name.slice("data-".length)];
  }

  toggleAttribute(name, is) {
    if (is) this.setAttribute(name, "");
    else this.removeAttribute(name);
  }

  closest() {
    return null;
  }

  click() {
    this.dispatchEvent(new Event("click"));
  }
}

class Kept {
  has = new Map();

  getItem(key) {
    return this.has.get(key) ?? null;
  }

  setItem(key, value) {
    this.has.set(key, value);
  }

  removeItem(key) {
    this.has.delete(key);
  }
}

const parts = new Map();

/** A part of the page by its name; it is there as soon as it is asked for. */
export function part(id) {
  if (!parts.has(id)) parts.set(id, new Part());
  return parts.get(id);
}

let waiting = [];

/** Draws a frame, at an instant in ms. */
export function frame(now = performance.now()) {
  const due = waiting;
  waiting = [];
  for (const f of due) f(now);
}

/** Whether motion is to be less. */
export const wants = { less: false };

/** What the program answers: by path a value, or what makes one of the question; a Response is sent as it is. Otherwise there is no such question. */
export const program = {};

/** What was asked, the newest at the end. */
export const asked = [];

async function fetched(address, { body, headers, signal } = {}) {
  const path = address.replace("/api/", ""), question = body === undefined ? undefined : JSON.parse(body);
  asked.push({ path, question, headers });
  signal?.throwIfAborted();
  const of = program[path];
  const given = typeof of === "function" ? of(question, signal) : of;
  const gone = new Promise((_, no) => signal?.addEventListener("abort", () => no(signal.reason)));
  const answer = await Promise.race([given, gone]);
  if (answer instanceof Response) return answer.clone();
  return answer === undefined ? new Response("{}", { status: 404 }) : Response.json(answer);
}

/** An answer that refuses. */
export const refuses = (status, error) => Response.json({ error, faults: [] }, { status });

/** Lets all that can go on do so. */
export const rests = () => new Promise((resolve) => setImmediate(resolve));

const made = () => new Part();
Object.assign(globalThis, {
  document: Object.assign(new EventTarget(), {
    getElementById: part, createElement: made, createElementNS: made, querySelectorAll: () => [], body: made(), documentElement: made(), hidden: false,
  }),
  location: { hash: "", search: "", pathname: "/" }, history: { replaceState: (_, __, address) => (globalThis.location.put = address) },
  sessionStorage: new Kept(), localStorage: new Kept(),
  matchMedia: () => ({ matches: wants.less }), requestAnimationFrame: (f) => waiting.push(f), fetch: fetched,
  addEventListener() {}, removeEventListener() {}, HTMLElement: Part, Element: Part,
});
