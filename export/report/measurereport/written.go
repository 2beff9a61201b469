// # The document
//
// "seamrail measure --json" holds one document of the schema seamrail-measure/1, which
// report.JSON writes; schema.json beside this file is the same for programs that check one (JSON
// Schema, draft 2020-12). Keys may be added; a key that changes its meaning or goes changes the
// schema's name.
//
//   - `schema`: `seamrail-measure/1`
//   - `rig`: the rig file that was measured
//   - `found`: each measurement by its `axis` and `what` was measured, with its `value` (`null`
//     where nothing was found) in a `unit`, its standard uncertainty `sigma` and the `bound` within
//     which the truth is in 95 of 100 cases; what is `told` of it, each a `text` under a `label`;
//     the `doubts` at which it stopped; and the `lines` of the file that come of it, each by its
//     `path` with the `old` value (empty for none) and the `new`, and whether they are `written`
package measurereport
