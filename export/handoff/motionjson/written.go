// # The document
//
// "seamrail export motion" and motion.json hold one document of the schema seamrail-motion/1,
// which Write writes; schema.json beside this file is the same for programs that check one (JSON
// Schema, draft 2020-12). Keys may be added; a key that changes its meaning or goes changes the
// schema's name. Exact numbers are strings such as "24000/1001"; lengths are mm, angles degrees,
// times seconds.
//
//   - `schema`, `title`, `rig`, `plan`: `seamrail-motion/1`, the names, the hash of the plan
//   - `checks`, `fails`, `unknown`: whether frames, limits, seam and steps passed; the names of
//     other checks that fail, and of those that could not be made
//   - `clock`: `capture`, `playback` in frames a second, `retime`
//   - `loop`: `timeline_frames`, `captured_frames`, `screen_seconds`, `real_seconds`
//   - `axes`, `stands`: of each axis its `name`, `unit` and the `gain` of a loop; the names of the
//     display stands
//   - `picture`: `pixels_wide`, `pixels_high`; null where it is not known how the lens looks
//   - `takes`: what is kept: `take` (0 is as planned), `notes`, `rounds` and which `round` of
//     them, `first`, `last`, `seam`, handles `before` and `after`, `recorded`; in a shot with a
//     sync mark `sync`: `with` what, `mark_frame` and `second_frame` as planned; counted from the
//     first frame of the mark or, where that was told, `in_recording`: `frame_0`, `give_or_take`,
//     the `first` that is kept, `first_give_or_take`; the rate it was captured at by the clock of
//     the computer, `capture` and `capture_give_or_take`
//   - `left_out`: kept takes whose frames cannot be told: `take`, `why`
//   - `frames`: each captured `frame`, when it begins, `screen_s` and `real_s`, where `axes` and
//     `stands` are, in mm or degrees, and the `lens`
//   - `lens`: where its entrance pupil is `at` in mm, its unit vectors `right`, `up` and
//     `forward`, its `view` in degrees from foot to head, its `focus` in mm, and by how many
//     degrees the `product` has turned; x is right of the camera, y away from it, z up, the
//     turntable's top the origin
package motionjson
