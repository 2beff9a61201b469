// What the scripts of the page share beside the wire.

/** Properties of an element that is made: what listens, or an attribute; null leaves it out. */
type Props = { [K in keyof HTMLElementEventMap as `on${K}`]?: (e: HTMLElementEventMap[K]) => unknown } & Record<string, string | number | boolean | null | undefined | ((e: never) => unknown)>;
type Inside = string | Node | null | undefined | false | (string | Node | null | undefined | false)[];

/** "button.quiet" is a button. */
type HtmlOf<K extends string> = K extends `${infer T}.${string}` ? HtmlOf<T> : K extends keyof HTMLElementTagNameMap ? HTMLElementTagNameMap[K] : HTMLElement;
type SvgOf<K extends string> = K extends `${infer T}.${string}` ? SvgOf<T> : K extends keyof SVGElementTagNameMap ? SVGElementTagNameMap[K] : SVGElement;

/** A question: what is left out is nothing. */
type Some<T> = T extends (infer U)[] ? Some<U>[] : T extends object ? { [K in keyof T]?: Some<T[K]> } : T;
type Question<P> = P extends keyof Wire.Questions ? Wire.Questions[P] : undefined;

type Level = Wire.Verdict["level"];

/** A change that is to be planned. */
interface Job {
  text: string;
  edits: Wire.Edit[];
  before: string; // the text that Undo goes back to
  last: boolean; // no step of a drag
  label: string;
  whole: boolean; // a text as it stands
  atHand: boolean; // of the text as it is when its turn comes
  earlier: Job[]; // that wait before it
  began: number; // ms of the page's clock
  id: number;
}

/** What is told on the page, by its name. */
interface Tellings {
  asked: Job; // with each change
  asking: void; // before a plan
  planned: void; // after plans
  view: void;
  controller: void; // its verdicts have come
  text: void;
  faults: void;
  disk: void;
  drive: void;
  call: Wire.Call[];
  start: void;
  history: void;
  named: void;
  film: void; // the take, or what is known of it
}

/** What has a curve: an axis, or a display stand, which turns by itself and has nothing to drag. */
type Curved = Wire.Axis | (Wire.Stand & { unit: string, handles: Wire.Handle[], travel: null, moveKeys: Wire.Value[], speedLimit?: undefined });

/** What a new shot is to be filmed on. */
type OnRig = Pick<Wire.Questions["kind"], "rig" | "controller" | "noTable">;

/** A stretch of a take that may be shown round and round. */
interface Stretch {
  from: number;
  to: number; // the last frame that is shown
  unseen: boolean;
  words: string;
}
