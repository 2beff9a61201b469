// # The document
//
// "seamrail connect --json" holds one document of the schema seamrail-connect/1, which report.JSON
// writes; schema.json beside this file is the same for programs that check one (JSON Schema, draft
// 2020-12). Keys may be added; a key that changes its meaning or goes changes the schema's name.
//
//   - `schema`: `seamrail-connect/1`
//   - `from`: where it was read, in words
//   - `kind`, `because`, `baud`: the kind of controller, what tells it, and the speed at which it answers
//   - `greeting`, `said`, `state`, `alarm`: what it says unasked and asked, as it says it, what it reports
//     that it does, and whether it is in an alarm
//   - `settings`: the `name` and `value` of each setting that it prints
//   - `notes`: what to mind of that: what cannot be, units that seem mistaken
//   - `lines`: each line of the rig file by its `key`, with its `value`, how it is `known` (read,
//     guessed, to be measured) and `why`
//   - `file`: the rig file that was written
//   - `against`, `differences`: the rig file that it was compared with, and each `key` of it of which the
//     `file` says something else than the `controller`, with its `line`
package connectreport
