package rig

import _ "embed"

//go:embed rig.schema.json
var schema string

// Schema returns the JSON schema of a rig file, for editors that help while it is
// written. A test makes it of the tags of Raw (-update).
func Schema() []byte { return []byte(schema) }
