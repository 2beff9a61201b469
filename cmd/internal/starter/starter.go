// Package starter holds the pair of files that a beginner starts from: a shot
// of a lantern, and the bench rig it is filmed with.
package starter

import (
	"embed"
	_ "embed"
	"io/fs"
	"path"
	"strings"

	"seamrail/motion/rig"
)

// What the files are called. The shot names its rig by RigName.
const (
	ShotName = "lantern.toml"
	RigName  = "bench-rail.toml"
)

//go:embed lantern.toml
var shotFile string

//go:embed bench-rail.toml
var rigFile string

//go:embed lockstep.toml
var lockstep string

//go:embed step-player.toml
var stepPlayer string

// Shot returns the text of the shot file.
func Shot() []byte { return []byte(shotFile) }

// Rig returns the text of the rig file, whose controller is buffered.
func Rig() []byte { return []byte(rigFile) }

// The lines between which the rig file describes its controller.
const (
	controllerBegins = "# The box that makes the steps"
	controllerEnds   = "# The rail. "
	tableBegins      = "# The turntable. "
	standBegins      = "# A display stand "
	reportsKey       = "reports "
)

// RigWith returns the text of the rig file with a controller of a kind.
func RigWith(kind rig.ControllerKind) []byte {
	var controller string
	switch kind {
	case rig.Lockstep:
		controller = lockstep
	case rig.StepPlayer:
		controller = stepPlayer
	default:
		return Rig()
	}
	head, _, _ := strings.Cut(rigFile, controllerBegins)
	_, axes, _ := strings.Cut(rigFile, controllerEnds)
	return []byte(head + controller + controllerEnds + silent(axes))
}

// silent takes the names of settings away where the controller prints none.
func silent(axes string) string {
	var b strings.Builder
	for line := range strings.Lines(axes) {
		if strings.HasPrefix(line, reportsKey) {
			line = "reports      = { steps = \"none\", speed = \"none\", acceleration = \"none\", travel = \"none\" }\n"
		}
		b.WriteString(line)
	}
	return b.String()
}

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
