// refusal is why there is no answer.

/** An answer that is no answer: status, words and faults. */
export class Refusal extends Error {
  /**
   * @param {number} status 0 where nobody answers
   * @param {{ error?: string, faults?: Wire.Fault[] } & Partial<Wire.Disk>} body
   */
  constructor(status, body) {
    super(body.error || "The answer makes no sense.");
    this.status = status;
    this.body = body;
    this.faults = body.faults ?? [];
  }

  /** Its first fault alone. */
  get first() {
    return this.faults[0]?.text || this.message;
  }

  /** What it says, fault by fault where it knows them. */
  get words() {
    return this.faults.map((f) => told(f)).join(". ") || this.message;
  }
}

/**
 * A fault in one line.
 * @param {Partial<Wire.Fault>} fault
 * @param {string} [before] where it is
 */
export const told = ({ axis, text, fit }, before) => [before, axis, text, fit].filter(Boolean).join(": ");

/** What was thrown, as a refusal; what no program has refused has no status. @param {unknown} err */
export const refusal = (err) => (err instanceof Refusal ? err : new Refusal(NaN, { error: err instanceof Error ? err.message : String(err) }));

/** Whether it was given up, and nothing is wrong. @param {unknown} err */
export const givenUp = (err) => err instanceof DOMException && err.name === "AbortError";
