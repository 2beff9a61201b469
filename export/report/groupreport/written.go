// # The document
//
// "seamrail takes --group NAME --json" holds one document of the schema seamrail-group/1, which
// report.JSON writes; schema.json beside this file is the same for programs that check one (JSON
// Schema, draft 2020-12). Keys may be added; a key that changes its meaning or goes changes the
// schema's name. Places are mm or degrees, times real seconds, the picture px of the near face.
//
//   - `schema`, `group`, `virtual`: `seamrail-group/1`, its name, and whether a rig of software ran it
//   - `alike`: whether there are two passes or more and all were filmed alike
//   - `within_px`: how far apart any two of them are in the picture at the worst, null where that is not
//     known, and `within_out_by_px`, how far that may be out
//   - `answer`: `matches` where both together are at most `unseen_px`, `differ` where the first less the
//     second is more, `not-sure` between these, and `not-known` where they are not known or not alike
//   - `camera`: what no log tells, since a camera's clock does not run with the rig's: frames of two
//     passes differ by `up_to_seconds`, and by `up_to_px` where the picture moves fastest
//   - `passes`: of each `pass` the `take` that counts, its `plan`, its `clip`, `rounds`, of one frame by frame the
//     frame that it begins with, `from_frame`, and how many `frames` are exposed, else null; `took_seconds`, 0
//     where that was not measured, known to `out_by_seconds`, and whether it is one to `keep`
//   - `against_first`: of each `take` but the first how it `differs` so that it cannot match; by how much
//     later it ends than the first, `late_seconds`, known to `late_out_by_seconds`, and the `rate_ppm` by
//     which it went slower, known to `rate_out_by_ppm`; of the `axes` each `axis` with its `unit`, how far apart they stood at the
//     `start` and `on_the_way` at most; and all that in `px`, known to `px_out_by`; and
//     in `align`, null where sync marks do not tell, how many captured frames later to lay it on the first,
//     `frames_later`, known to `out_by_frames`, first frame on first frame before that (`from_first_frames`)
//     or the first of its sync mark on that of the other
//   - `left_out`: each `take` that does not count, and `why`
package groupreport
