// # The document
//
// "seamrail footage FILM --json" holds one document of the schema seamrail-footage/1, which
// report.JSON writes; schema.json beside this file is the same for programs that check one (JSON
// Schema, draft 2020-12). Keys may be added; a key that changes its meaning or goes changes the
// schema's name. Exact numbers are strings such as "24000/1001". Frames are those of the recording,
// counted from 0 as they were recorded; pixels those of a recorded frame. Whatever is uncertain has
// its standard uncertainty beside it, one sigma (JCGM 100), and is null where nothing tells it.
//
//   - `schema`: `seamrail-footage/1`
//   - `recording`: what was looked through: `name`, `width_px`, `height_px`, `bits`,
//     `frames_per_second` as it says itself and which of the shot's that `rate_is`, `timecode` of
//     its first frame, `first_frame` and how many `frames` were looked at, `pixel_step`, the recorded
//     pixels to one that was looked at, `remarks` on what is odd, why it was `cut_short`, and the
//     file of each frame in `stills`
//   - `shot`: the title of the shot, "" where there is none; `headline`, the stamp that the report
//     begins with, and `but`, what is wrong with a recording whose motion is the plan's
//   - `plan`: the take beside its plan, null without a shot: the `verdict` ("plan", "differs", "not
//     known") in `words`, whether `recording_alone_differs`, since it lacks frames or has some twice,
//     and whether it has `frames_of_the_timeline` in place of those that were captured, the `bound_px` up to which it is the plan and by how much it is
//     `apart_px`, `differs_from_frame`; `causes` that most likely did it, which are a model,
//     `why_not_known`, `not_proven`; `frame_0`, whether it is known, and where else it may be;
//     `slower_share`, by how much its clock is slower; what is left over; `rounds`, `axes`,
//     `after_shake` with the `rig_file_lines` that keep it, `blows` and the drift
//   - `pace`: what is known of a take whose picture has no one shift, by how much it changes; null
//     where its course tells
//   - `loops`: loops in it, best first: shown `from` a frame `to` another, so many `frames`, as good
//     from `as_good_from` to `as_good_to`; its `score`, and the jumps of `picture`, `motion` and
//     `brightness_percent`; whether it is `unseen`, and over how many frames to dissolve it
//   - `as_a_whole`: how it goes on from its last frame to its first: by what share of white it is not
//     where it leads, in `jump`, and up to what that is not seen, in `bound`; by how much it is lighter
//     there; whether it is `unseen`, and whether the last frame only shows the first once more
//   - `amiss`: what is wrong with frames: those that are `doubled`, `dropped` before one, `cuts`,
//     `black`, `white`, whether `nothing_moves`, and the shift by which the picture
//     repeats itself
//   - `light`: `steps`, `flicker` with the lamps that would beat so, what the plan `foretold`
//     of it and whether it was `seen`, and drift; null for few frames
//   - `again`: after how many `frames` the picture is the same again, and a turn where it is known
//     how many `faces` look alike, by how many degrees it was `uneven_deg`, with the `hidden_share`
//     by which turns may differ and not be told; null where nothing comes again
//   - `kept`: as which `take` it is kept with --keep and how it was found to be that one (`take_by`:
//     "number", "clip", "time"), in which `log`; the name of its `file`, frame 0 in it and what told
//     that, which `round` is kept, from 1, by which frames of the file: `loop_in`, and `loop_out`, the
//     seam, which is not shown; the same by its timecode; by how much `loop_in` is later than what was
//     found, and all of it in `sentences`; null where it is not kept
//   - `hands`: of each cue in each round the window in which the picture was to begin to change, `how`
//     that was ("inside", "early", "late", "not seen", "not told"), by how many `off_frames`, from and
//     to which frame it was seen, and where, in shares of the picture
//   - `frames`: of each frame whether it is `known` how it lies beside the first that was looked at,
//     and how: `x_px`, `y_px`, `turn_deg`, `scale`, which share of the picture says so, and its
//     `mean` brightness as it is encoded, 0 to 1
//
// Of several FILMs there is a list of such documents, the likeliest to be kept first.
package footagereport
