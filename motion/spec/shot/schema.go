package shot

import "seamrail/motion/base/source"

// Schema returns the JSON schema of a shot file.
func Schema() []byte {
	return source.Schema(&Raw{}, "https://seamrail.invalid/shot.schema.json", "seamrail shot")
}
