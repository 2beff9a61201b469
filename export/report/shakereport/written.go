// # The document
//
// "seamrail shake --json" holds one document of the schema seamrail-shake/1, which report.JSON
// writes; schema.json beside this file is the same for programs that check one (JSON Schema, draft
// 2020-12). Keys may be added; a key that changes its meaning or goes changes the schema's name.
//
//   - `schema`, `title`, `axis`, `unit`: `seamrail-shake/1`, the name of the shot, the axis, and
//     `mm` or `deg`, in which lengths are
//   - `spring`: frequency, damping as a share of critical, their standard uncertainties (0 = not
//     known), and where they come from
//   - `pixels_per_unit`: the scale of the picture; 0 where it is not known
//   - `move`: the move as it is: `worst` distance from the carriage and when, the part of it that
//     shakes, what is `left` as a rest begins, the `rests`, and after how many rounds a take has
//     settled; null where nothing can be told
//   - `words`: why not, or what is surprising
//   - `laws`, `shapers`: what each law and each shaper would leave, and its acceleration
//   - `clean_ways`, `loops`, `dwells`: durations of one way, loops and dwells at the far end that
//     leave least, best first
//   - `frames`, `frames_apart`, `captured_frames`: the distance from the carriage at every so-
//     manieth captured frame
package shakereport
