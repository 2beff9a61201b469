// # The document
//
// "seamrail fit --json" holds one document of the schema seamrail-fit/1, which report.JSON writes;
// schema.json beside this file is the same for programs that check one (JSON Schema, draft
// 2020-12). Keys may be added; a key that changes its meaning or goes changes the schema's name.
// Exact numbers are strings such as "24000/1001"; lengths are mm, angles degrees, times seconds.
//
//   - `schema`, `title`: `seamrail-fit/1`, and the name of the shot
//   - `between`, `laws`, `accept`, `tried`: the timeline frames and laws looked among, the worst
//     level accepted, how many loops were tried
//   - `quickest`, `gentlest`: a loop: its frames and seconds, its law, its `strain` on the rig,
//     the `command` that plans it, and its picture as in the plan's report; null where none keeps
//     every bound
//   - `held_back`: how many loops each check held back
//   - `standing`, `unknown`: checks that no pace changes, and checks that want a number more
package fitreport
