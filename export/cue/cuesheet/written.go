// # The document
//
// "seamrail cues --json" holds one document of the schema seamrail-cues/1, which report.JSON writes;
// schema.json beside this file is the same for programs that check one (JSON Schema, draft 2020-12).
// Keys may be added; a key that changes its meaning or goes changes the schema's name. Times are
// exact real seconds, strings such as "1001/1000".
//
//   - `schema`, `title`, `plan`: `seamrail-cues/1`, the name of the shot, the hash of its motion
//   - `round_seconds`, `rounds`: how long a round is, and how many there are
//   - `count_in_beats`, `run_up_seconds`, `takes_seconds`: beats of a second before it moves, from
//     then to frame 0, and from the first beat to rest
//   - `cues`: of each its `name`, whose `hand`, `in` which rounds, when it is `seen` in words, at which
//     `timeline_frame`; from frame 0 of its round `seen_seconds`, when the hand moves
//     (`moves_seconds`), is told to (`told_seconds`) and the count to that begins
//     (`count_from_seconds`), of so many `beats` of `beat_seconds`; and that it is so `because`
//   - `calls`: from the first beat of the count-in on, at so many `seconds`: the `cue`, the `hand` and
//     the `round`, from 1; without a cue it is the rig that moves,
//     and `sync mark` is the mark by which frame 0 is found
//   - `cautions`: what to mind
package cuesheet
