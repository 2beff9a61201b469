// # The document
//
// "seamrail make --json" holds one document of the schema seamrail-files/1, and so does --json of
// every other command that writes files and tells nothing else: plot, preview, above, sheet,
// export with -o, new and man. report.JSON writes it; schema.json beside this file is the same for
// programs that check one (JSON Schema, draft 2020-12). Keys may be added; a key that changes its
// meaning or goes changes the schema's name.
//
//   - `schema`: `seamrail-files/1`
//   - `title`, `plan`: the name of the shot or the clip and the hash of its motion, where there is one
//   - `verdict`: what is said of the plan first: whether it is `ready`, the `stamp`, the `words`, what
//     `fails` and what is `unknown`; null where no plan is written
//   - `folder`: that all files are in, where they are in one
//   - `files`: each file by its `name`, its `kind`, which is the ending of it, its `purpose`, and whom it
//     is `for`
//   - `left_out`: the `names` of files that were not written, and `why`
//   - `words`: what there is to say besides
package filesreport
