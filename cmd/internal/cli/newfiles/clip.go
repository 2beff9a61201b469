package newfiles

import (
	"maps"
	"slices"

	"seamrail/cmd/internal/atomicfile"
	"seamrail/cmd/internal/starter"
	"seamrail/motion/edit/sequence"
)

// clipSchema is what the schema of a sequence file is called.
const clipSchema = "sequence.schema.json"

// clipFiles are the files of the built-in sequence, but for the rig they share
// with the built-in shot.
func clipFiles() ([]atomicfile.File, error) {
	held, err := starter.Clip()
	if err != nil {
		return nil, err
	}
	delete(held, starter.RigName)
	var out []atomicfile.File
	for _, name := range slices.Sorted(maps.Keys(held)) {
		out = append(out, atomicfile.File{Name: name, Fill: constant(held[name])})
	}
	return append(out, atomicfile.File{Name: clipSchema, Fill: constant(sequence.Schema())}), nil
}
