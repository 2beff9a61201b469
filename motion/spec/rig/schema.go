package rig

import "seamrail/motion/base/source"

// Schema returns the JSON schema of a rig file.
func Schema() []byte {
	return source.Schema(&Raw{}, "https://seamrail.invalid/rig.schema.json", "seamrail rig", "axis")
}
