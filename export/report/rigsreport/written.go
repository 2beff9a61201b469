// # The document
//
// "seamrail fit --rig A --rig B --json" holds one document of the schema seamrail-rigs/1, which
// report.JSON writes; schema.json beside this file is the same for programs that check one (JSON
// Schema, draft 2020-12). Keys may be added; a key that changes its meaning or goes changes the
// schema's name. Exact numbers are strings such as "24000/1001"; times are seconds.
//
//   - `schema`, `title`: `seamrail-rigs/1`, and the name of the shot
//   - `rigs`: the shot on each, in the order in which they were named: the `file` and `name` of
//     the rig; whether the shot `holds` on it, as it stands or in another loop; the axes and stands
//     that the rig `lacks`, and what of the shot `remains` without them, of which all else is told
//   - `fault`: why it cannot be planned at all; else the `verdict`: whether it is `ready` to be
//     driven, the `stamp` and the `words` of the headline, what `fails` all the same and what is
//     `unknown`; what `fits` instead, in words, and the `command` that plans it
//   - `unasked`: why no loop was looked for; else how many were `tried`, and the `quickest` and the
//     `gentlest` that keep every bound, null where none does: `timeline_frames`,
//     `captured_frames`, `screen_seconds`, the `law`, the `strain` on the rig as the greatest share
//     of an acceleration or jerk limit, and the `command` that plans it
package rigsreport
