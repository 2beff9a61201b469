// # The document
//
// "seamrail takes --json" holds one document of the schema seamrail-takes/1; schema.json beside this
// file is the same for programs that check one (JSON Schema, draft 2020-12). Keys may be added; a
// key that changes its meaning or goes changes the schema's name. Times are real seconds.
//
//   - `schema`, `log`, `there`: `seamrail-takes/1`, the file of the log, and whether there is one
//   - `takes`, `virtual`: those on a rig of metal and those on one made of software, in the order they
//     began: the number of the `take`, whether to `keep` it or why it is
//     `rejected`, the `clip` that the camera calls it, the `driver`, its `group` and what `pass` of it it is, whether it was taken `by_hand`, driven by another program or none, and logged once
//     it was over; when it `began`, the hash of its `plan`,
//     `rounds_asked`, 0 being until stopped, and `rounds` run, null where the log breaks off;
//     `planned_seconds`, `took_seconds`, 0 where that was not measured, known to `out_by_seconds`; the
//     `worst` deviation of each `axis`, its `value` in its `unit`; whether it was `held` on the way, its
//     `outcome` in a word and in `detail`; of the `hands` that were late or early which `hand` it was and
//     by how much, `late_seconds`; the `notes`; of a take with a sync mark, in `sync`, what made the
//     `mark`, when, from its frame 0 (`first_seconds`, below 0, known to `first_out_by_seconds`, and
//     `second_seconds`, 0 where there was none, known to `second_out_by_seconds`), and in which frames of
//     the recording they were seen, `seen_frame` and `seen_last_frame`, null where nobody has looked;
//     of a take whose film was looked through and kept, in `film`, the name of its `file`, its
//     `frames_per_second`, exactly, and the `timecode` of its first frame as it has them, how many
//     `film_frames` it has; the frame at which the plan begins, `frame_0`, with its
//     `frame_0_standard_uncertainty` and what told it, `frame_0_by` ("picture", "times", "mark", "hand", or ""
//     where it is not known), and whether that is `trusted` whatever the other says;
//     which `film_round` of it is kept, from 0, by how many frames that began late beside frame 0 and
//     lasted longer, `late_frames` and `longer_frames`; its first frame, `loop_in`, and its seam,
//     `loop_out`, which is not shown; how it was found to be that take,
//     `take_by` ("number", "clip", "time"); its `verdict`, and by how much it is `apart_px`; its best
//     loop from `best_from` on of `best_frames`, whether its seam is `best_unseen`, and whether the one
//     that is kept is `best_as_good`; the `still` that is its first frame, and the `actions` of hands:
//     which `cue` in which `action_round`, `how` it was and by how many frames, `off_frames`, seen from
//     `seen_from` to `seen_to`;
//     of a take `frame_by_frame` the frame that it began with, `from_frame`, how many `frames` are exposed,
//     those before it among them, and `of_frames` how many, null in logs that do not say
//   - `torn_lines`: lines of the log that cannot be read
//   - `position_known`: whether it is known where the rig stands after the last take
package takelog
