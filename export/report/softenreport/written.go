// # The document
//
// "seamrail soften --json" holds one document of the schema seamrail-soften/1, which report.JSON
// writes; schema.json beside this file is the same for programs that check one (JSON Schema, draft
// 2020-12). Keys may be added; a key that changes its meaning or goes changes the schema's name.
//
//   - `schema`, `title`, `axis`, `unit`: `seamrail-soften/1`, the name of the shot, the axis, and
//     `mm` or `deg`, in which lengths are
//   - `travel`, `out_seconds`, `back_seconds`: what a way goes, and the real seconds out and back
//   - `share_of_limits`: how much of the rig's limits may be used, 1 being all
//   - `laws`: the law it has (`now`) and one for each thing made least: its `keys` for the shot,
//     its peaks, the `bound`, the `excess` above it as a share, what is `left` swinging, and
//     whether it is `within_limits`
package softenreport
