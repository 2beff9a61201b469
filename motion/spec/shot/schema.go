package shot

import _ "embed"

//go:embed shot.schema.json
var schema string

// Schema returns the JSON schema of a shot file, for editors that help while it is
// written. A test makes it of the tags of Raw (-update).
func Schema() []byte { return []byte(schema) }
