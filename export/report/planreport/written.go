// # The document
//
// "seamrail plan --json" and plan.json hold one document of the schema seamrail-plan/1, which
// report.JSON writes; schema.json beside this file is the same for programs that check one (JSON
// Schema, draft 2020-12). Keys may be added; a key that changes its meaning or goes changes the
// schema's name. Exact numbers are strings such as "24000/1001"; lengths are mm, angles degrees,
// times seconds. A peak without bound is null.
//
//   - `schema`: `seamrail-plan/1`
//   - `title`, `rig`: the names of the shot and of the rig
//   - `plan`: the hash of the motion: same hash, same moves
//   - `verdict`: `ready`: nothing keeps the rig from being driven; the `stamp` and the `words` of
//     the headline; what `fails` all the same and what is `unknown`, the picture's checks too; the
//     `breaches` of limits, the `fits` that would mend them
//   - `other_checks`: cadence, strobing, after-shake, torque, what falls, what hands leave: each
//     as a check of the picture
//   - `clock`: `capture`, `playback`, `retime`, the `cadence` in words and whether it is `even`
//   - `loop`: what was `asked`, whether it was `rounded`, `timeline_frames`, `captured_frames`,
//     `screen_seconds`, `real_seconds`
//   - `music`: in a shot that names times by music or markers: `tempo`, `first_seconds`,
//     `bar_beats`, `markers_file` and how many `markers`, what of it should be `told`; each of the
//     `moments` with the key it is `for`, when it is heard, its `timeline_frame` and how much later
//     that is, in `off_seconds` and `off_frames`; and the `loop` where it is counted in beats,
//     with the `exact_tempo`
//   - `take`: `rounds`, `run_up_frames`, `run_out_frames`, `recorded_frames`, and of these
//     `deliver_first` to `deliver_last`; `handle_frames`, `timecode_first`, `timecode_last`; of a
//     loop that is cut back to its first frame, in `cut`, the `way_back_frames`, `round_frames`,
//     `round_seconds` and `take_seconds`
//   - `sync_mark`: in a shot with one: `with` what and `what` is done, when it `begins_seconds` and is
//     `seen_seconds`, from frame 0; the same as captured `frame`, and the `second_frame` after the
//     take; the `first` frame to look for, the `count` from there to frame 0, before it was made whole
//     (`from`), `give_or_take`, of which the camera's phase makes `phase_frames`, what makes the mark
//     `means_frames`, the clocks `clocks_frames` at `clocks_ppm`; by how much those open the seam
//     (`seam_px`); where the round to keep begins (`kept`, `kept_give_or_take`); what is `left_open`
//   - `by_frame`: of a shot that is taken frame by frame: how many `frames`, `every_seconds` one,
//     `whole_seconds` for all; whether each `waits_for_the_hand`, or on which `output` the release
//     hangs and is held (`bulb`) for `exposure_seconds`; `card_seconds` after it; and of the frame
//     that `needs_most` what it needs, `needs_seconds`, `settle_seconds` among them
//   - `axes`: for each axis its move, reach, `peaks` against their limits and when, `steps` of a
//     round, run-up and run-out, the jumps at the `seam`, and the `strobe` of a product of stated
//     symmetry
//   - `lamps`: of each that changes over the loop: `words`, its `least_level` and `most_level` of
//     1, the `dimmer_curve` that it was taken to have, the `hand` that dims it, if one does, and
//     its `fades`: from when to when, in real seconds from frame 0, and between which levels
//   - `picture`: in a shot with a camera and a scene: the `worst` level of any check; the
//     `checks`, each with its level, its words, its figures, when, what is missing, the `cures`
//     that were tried and help, those tried that `failed`, and `advice` that could not be tried;
//     what was `assumed`; the `points` that smear was followed at; what each missing number
//     `would_tell`, the `bounds` it was looked at by, each with its source, and in `pulls` the ways
//     of a hand on the focus ring
//   - `stands`: for each display stand that turns by itself: its speed and `period`, how far off
//     its match it is at the `seam`, and its `strobe`
//   - `closing_loops`: in a shot with stands: the `loops` that suit them, best first, `closing` of
//     so many `considered`, or what would close; `nearest_timeline_frames` with nothing but the
//     length changed
//   - `after_shake`: for each axis whose swing the rig states: the `worst` distance of its load
//     from the carriage and when, the part of it that shakes, and what swings in each of its
//     `rests`
//   - `by_hand`: of a rig that is set and started by hand: what to set, `way_seconds` and
//     `pause_seconds` as its buttons say, or that one has to `press_each_way`; its `ramp`; how its
//     clock was measured, `clock_measured`; its own round, `round_real_seconds`, by how many frames
//     the loop is longer, `loop_longer_captured_frames`, and its standard uncertainty,
//     `known_to_captured_frames`; within how many the press is, `start_known_to_captured_frames`; the
//     `steps` of the person at it; and the loops next to this one that it `offers`
//   - `motors`: for each axis whose load the rig states: what torque the move `needs` of what the
//     motor `has` at its worst moment, the `margin`, what would do, and what the load does with
//     the `power_off`
//   - `controller`: what the rig's own controller is expected to make of the take, found by
//     running the very lines of `rounds_run` rounds on a model of the board: whether it `follows`,
//     all within `within_seconds` and each axis within what is `wanted`, or is `exact` because it
//     plays steps; `lines_a_round` and `longest_line_seconds`; `round_seconds` beside
//     `round_executed_seconds` and `round_late_seconds`; `take_seconds` beside
//     `take_executed_seconds`; `last_round_late_seconds`; in `rests_late_seconds` by what each
//     round may differ, give or take, by what is not known of host and board; each of the `axes`
//     at its worst captured frame; what was `assumed` where the rig file is silent, and what
//     another value would cost; the `reasons` why it does not follow and what would fit
//   - `findings`: each check of the verifier, `ok` or not, with its numbers
//   - `left_out`: what the shot file says and the plan goes without, where something was asked to
//     be left out, and why
//   - `defaults`: each value that was filled in, and why
//   - `cautions`: what to mind before it moves
package planreport
