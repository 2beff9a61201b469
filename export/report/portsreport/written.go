// # The document
//
// "seamrail ports --json" holds one document of the schema seamrail-ports/1, which report.JSON
// writes; schema.json beside this file is the same for programs that check one (JSON Schema, draft
// 2020-12). Keys may be added; a key that changes its meaning or goes changes the schema's name.
//
//   - `schema`: `seamrail-ports/1`
//   - `ports`: each serial port by its `name`, with its `usb` numbers, the `serial` number of what is
//     plugged in and what it says it is, `about`; a dash is what nobody knows
package portsreport
