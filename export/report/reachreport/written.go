// # The document
//
// "seamrail reach --json" holds one document of the schema seamrail-reach/1, which report.JSON
// writes; schema.json beside this file is the same for programs that check one (JSON Schema, draft
// 2020-12). Keys may be added; a key that changes its meaning or goes changes the schema's name.
// Exact numbers are strings such as "24000/1001".
//
//   - `schema`: `seamrail-reach/1`
//   - `axis`, `unit`: the axis, and `mm` or `deg`, in which travels are
//   - `travels`: how far it goes there and back
//   - `laws`: of each `law` the `loops`, one a `travel`: the `shortest`, or null where none will do,
//     in `timeline_frames`, `captured_frames`, `screen_seconds`, `real_seconds`; and as `binding`
//     the limit that decides it, or that no loop keeps
//   - `fits`: what would fit instead of a shot that the rig cannot do
package reachreport
