package newfiles

import (
	"maps"
	"slices"

	"seamrail/cmd/internal/starter"
	"seamrail/cmd/internal/whole"
	"seamrail/motion/sequence"
)

// clipSchema is what the schema of a sequence file is called.
const clipSchema = "sequence.schema.json"

// clipFiles are the files of the built-in sequence, but for the rig they share
// with the built-in shot.
func clipFiles() ([]whole.File, error) {
	held, err := starter.Clip()
	if err != nil {
		return nil, err
	}
	delete(held, starter.RigName)
	var out []whole.File
	for _, name := range slices.Sorted(maps.Keys(held)) {
		out = append(out, whole.File{Name: name, Fill: constant(held[name])})
	}
	return append(out, whole.File{Name: clipSchema, Fill: constant(sequence.Schema())}), nil
}
