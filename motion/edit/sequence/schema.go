package sequence

import _ "embed"

//go:embed sequence.schema.json
var schema string

// Schema returns the JSON schema of a sequence file, for editors that help while it is
// written. A test makes it of the tags of Raw (-update).
func Schema() []byte { return []byte(schema) }
