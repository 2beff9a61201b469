// # The document
//
// "seamrail ramp TAKE --json" holds one document of the schema seamrail-ramp/1, which report.JSON
// writes; schema.json beside this file is the same for programs that check one (JSON Schema, draft
// 2020-12). Keys may be added; a key that changes its meaning or goes changes the schema's name.
//
//   - `schema`: `seamrail-ramp/1`
//   - `fits`: whether one law of the catalogue was found for all takes: `law`, and `words` say how it
//     goes; `other_laws` fit all of them as well and are not told from it by these readings
//   - `rig_file`: the lines for the rig file, none where no law fits or the takes differ
//   - `takes`: each `file` with how many `readings` of one way it has and how unsure each was taken
//     to be, `reading_uncertainty`, in the unit of its positions; and its `laws`, likeliest first:
//     the `law`, whether it `fits` as the readings are sure, `start_seconds`, the time of the way
//     (`way_seconds`, `way_uncertainty_seconds`), the ramp as a share of that (`ramp_share`,
//     `ramp_share_uncertainty`) and as a time (`ramp_seconds`, `ramp_uncertainty_seconds`), its
//     `jerk_share` and `jerk_share_uncertainty`, and what is left over on the average and at the
//     worst, `left_over` and `left_over_worst`. Uncertainties are standard ones; 0 is what a law does
//     not have
package rampreport
