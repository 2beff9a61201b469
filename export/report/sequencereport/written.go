// # The document
//
// "seamrail sequence --json" holds one document of the schema seamrail-sequence/1, which report.JSON
// writes; schema.json beside this file is the same for programs that check one (JSON Schema, draft
// 2020-12). Keys may be added; a key that changes its meaning or goes changes the schema's name.
// Exact numbers are strings such as "24000/1001"; lengths are mm, angles degrees, times seconds.
//
//   - `schema`, `title`, `playback`: `seamrail-sequence/1`, the name of the clip, timeline frames
//     a second
//   - `frames`, `screen_seconds`, `first_label`, `last_label`: the length of the clip, and the
//     timecode of its first and its last frame
//   - `pieces`: each shot in its place: `file`, `title`, `label`, `start` in the clip, `from` in
//     its `loop`, how many `frames`, and which `film` of the `films` it is from
//   - `music`: in a sequence that names cuts by music or markers: as in the report of a plan
//   - `cuts`: `from` and `to` which piece, `frame` and `label`, the `momentum` in words, whether
//     it is `seen` by the picture, `angle_deg` between the two motions and `pace` of the second
//     over the first, `rig_stands_otherwise`, whether the product is in both pictures (`placed`),
//     `jump_widths`, `grows`, the frames `out` and `in` (of the shot, and the `captured_frame`)
//     with the `flow` of the picture (what the eye `follows`, at `x` right of and `y` above the
//     middle, and how fast it goes `right`, `up` and `toward` the lens) and the `axes` (`axis`,
//     `unit`, `speed`), and what the picture `lacks`; the last cut is the clip's own loop
//   - `films`: what there is to film: `file`, `rig`, `light`, `takes`, and for one take
//     `captured_frames`, `motion_seconds`, `record_seconds`, `bytes`, whether the camera
//     `records` film or stills, and where the real time of a `take` goes: `slate_seconds`,
//     `count_in_seconds` (as far as the camera is ahead it runs meanwhile), `lead_seconds`,
//     `run_up_seconds`, `rounds_seconds`, `run_out_seconds`, `return_seconds` to where it begins
//     (an estimate), `all_seconds`
//   - `order`: the `films` in the order to film them, `rig_changes`, `light_changes`, whether it
//     is the `least`, and whether changes were `counted` or timed
//   - `needs`: of all takes: `takes`, `motion_seconds`, `record_seconds`, `change_seconds`,
//     `between_seconds` beside the recordings, `day_seconds`, `bytes`, and `card_bytes` of one card; null where it is not known
//   - `headlines`: of the plan of each shot file: whether it is `ready`, `stamp` and `words`, what
//     `fails` and what is `unknown`
//   - `proposals`: of each cut (`cut` in `cuts`) whose motion is seen the `out_frame` and
//     `in_frame` that carry it best, whether that is `better` by more than a tenth, and how the
//     picture goes on as it `was` and as it `would`: `jump_px` of the product's place and size,
//     `kick_px_per_frame` of its motion, which makes a `turn_deg`
//   - `events`: the stretches that the clip is handed on in: `piece`, `take` (1 where it is not
//     `filmed` yet), `reel`, `start` and `frames` in the clip, `first_captured` and
//     `used_captured` of the take's frames (exact), how many are `recorded`, the `round`, frames
//     of the timeline `before` and `after` that may serve as handles, and whether it is the
//     clip's beginning `again`, which it dissolves into; how its shot's `loop` meets its own
//     beginning, and whether that is seen (`loop_shows`)
//   - `joins`: how each leads into the next, the last into the first: `kind` (`goes on`, `cut`
//     or `seam` of a loop), `frame`, the `carry` with keys as above, whether it `shows`, frames
//     it dissolves over (`dissolve_before`, `dissolve_after`), whether that is `stated`, what it
//     `lacks`, and by how many px the takes may be off there (`off_px`)
//   - `troubles`: shots whose plan must not run as it is; the command then ends with 1
//   - `defaults`: what was filled in: `key`, `value`, `why`
package sequencereport
