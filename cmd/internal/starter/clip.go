package starter

import (
	"embed"
	"io/fs"
	"path"
)

// SequenceName is what the file of the built-in sequence is called.
const SequenceName = "clip.toml"

//go:embed clip/*.toml
var clip embed.FS

// Clip returns the folder of the built-in sequence: its own file, its shots, and
// the rig they are filmed with.
func Clip() (map[string][]byte, error) {
	names, err := fs.Glob(clip, "clip/*.toml")
	if err != nil {
		return nil, err
	}
	out := map[string][]byte{RigName: Rig()}
	for _, name := range names {
		data, err := clip.ReadFile(name)
		if err != nil {
			return nil, err
		}
		out[path.Base(name)] = data
	}
	return out, nil
}
