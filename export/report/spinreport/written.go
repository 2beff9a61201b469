// # The document
//
// "seamrail spin --json" holds one document of the schema seamrail-spin/1, which report.JSON writes;
// schema.json beside this file is the same for programs that check one (JSON Schema, draft
// 2020-12). Keys may be added; a key that changes its meaning or goes changes the schema's name.
// Exact numbers are strings such as "24000/1001"; lengths are mm, angles degrees, times seconds.
//
//   - `schema`, `title`: `seamrail-spin/1`, and the name of the shot
//   - `capture`, `playback`, `retime`, `between`: the clock, and the on-screen seconds looked in
//   - `considered`, `closing`: how many loops there are, and how many close within the bound
//   - `loops`: the best, best first: its frames, its seconds, and for each stand its seam
//   - `own_loop`: the loop of the shot itself; null without one
//   - `fits`: what would close, where none does
//   - `measured`: periods that were worked out, with their readings
//   - `tables`: turntables that the rig turns: speed, steps, what is left of a step
//   - `defaults`: each value that was filled in, and why
package spinreport
