// marks are how a verdict looks: by shape and by word, and only then by colour.

/** @type {Record<Level, { sign: string, word: string, many: string }>} */
export const MARKS = {
  good: { sign: "\u25cf", word: "holds", many: "hold" },
  fair: { sign: "\u25c6", word: "look at it", many: "to look at" },
  bad: { sign: "\u25b2", word: "does not hold", many: "do not hold" },
  unknown: { sign: "\u25cb", word: "not known", many: "not known" },
};
