// Package starter holds the pair of files that a beginner starts from: a shot
// of a lantern, and the bench rig it is filmed with.
package starter

import (
	"embed"
	"strings"

	"seamrail/motion/spec/rig"
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

// controllers are those of the other kinds, a file each that is called as its kind is.
//
//go:embed lockstep.toml step-player.toml
var controllers embed.FS

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
	controller, err := controllers.ReadFile(kind.String() + ".toml")
	if err != nil {
		return Rig()
	}
	head, _, _ := strings.Cut(rigFile, controllerBegins)
	_, axes, _ := strings.Cut(rigFile, controllerEnds)
	return []byte(head + string(controller) + controllerEnds + silent(axes))
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
