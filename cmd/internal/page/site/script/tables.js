// tables are those of a file, each as fields: what it has, and folded what else it takes.
import { make } from "./make.js";
import { field } from "./fields.js";

/**
 * Values by their tables; what a table takes besides stands below what it has.
 * @param {Wire.Value[]} values
 * @param {Wire.Value[]} takes
 * @param {(table: string) => boolean} [bare] whether a table without values is shown too
 */
export function byTable(values, takes, bare = () => false) {
  /** @type {Map<string, Wire.Value[]>} */
  const by = new Map();
  const put = (/** @type {Wire.Value} */ v) => by.set(v.group, [...(by.get(v.group) ?? []), v]);
  values.forEach(put);
  for (const v of takes) if (by.has(v.group) || bare(v.group)) put(v);
  return by;
}

/** What a table is called: "axis \u203a rail". @param {string} table @param {string} top where it is the file itself */
export const titled = (table, top) => table.replaceAll(".", " \u203a ") || top;

/** Drops tables that are no longer there. @param {Map<string, Table>} tables @param {Map<string, unknown>} there */
export function dropOthers(tables, there) {
  for (const [name, t] of tables) if (!there.has(name)) (t.el.remove(), tables.delete(name));
}

/** One table. */
export class Table {
  /** @type {Map<string, import("./fields.js").Field>} by their paths */
  fields = new Map();
  more = make("details", {}, make("summary", {}, "What else this takes"));

  /** @param {(string | Node)[]} legend */
  constructor(...legend) {
    this.el = make("fieldset", {}, make("legend", {}, ...legend), this.more);
  }

  /** Shows its values, the fields of new ones being made. @param {Wire.Value[]} values @param {(v: Wire.Value) => import("./fields.js").Field} made */
  show(values, made = field) {
    const paths = new Set(values.map((v) => v.path));
    for (const [path, f] of this.fields) if (!paths.has(path)) (f.el.remove(), this.fields.delete(path));
    for (const v of values) {
      const f = this.fields.get(v.path) ?? made(v);
      this.fields.set(v.path, f);
      const away = v.value === "";
      if (f.el.parentElement !== (away ? this.more : this.el)) away ? this.more.append(f.el) : this.more.before(f.el);
      f.show(v);
    }
    this.more.hidden = !values.some((v) => v.value === "");
  }
}
