// marks are how a verdict looks: by shape and by word, and only then by colour.

export const MARKS = {
  good: { sign: "\u25cf", word: "holds" },
  fair: { sign: "\u25c6", word: "look" },
  bad: { sign: "\u25b2", word: "does not hold" },
  unknown: { sign: "\u25cb", word: "not known" },
};
