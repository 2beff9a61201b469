package page

import (
	"io"

	"seamrail/motion/picture"
	"seamrail/motion/rig"
	"seamrail/motion/shot"
	"seamrail/motion/trajectory"
	"seamrail/motion/verify"
	"seamrail/plot/preview"
)

// Core is what the commands can do, as the page asks for it.
type Core interface {
	// Plan plans a shot on a rig and checks it, as the plan command does.
	Plan(s shot.Shot, r rig.Rig) (Planned, error)
	// Ask answers as a command does with --json, under some of its flags.
	Ask(command string, s shot.Shot, r rig.Rig, flags map[string]string) ([]byte, error)
	// Sequence answers as the sequence command does with --json.
	Sequence(file string) ([]byte, error)
	// Ports lists the serial ports of this machine.
	Ports() []Port
}

// Port is a serial port and what the system knows of it.
type Port struct {
	Name  string `json:"name"`
	About string `json:"about"`
}

// Planned is a shot that has been planned and checked.
type Planned interface {
	Shot() shot.Shot
	Rig() rig.Rig
	Trajectory() *trajectory.Trajectory
	Verdict() verify.Verdict
	Picture() *picture.Report // nil in a shot without a camera and a scene
	// Unable is why it must not be driven, or nil. It may take a while.
	Unable() error
	// Trouble is why the plan must not be run on any controller, or nil.
	Trouble() error
	// StandFits says what would close on a display stand.
	StandFits() []string
	// Report writes the report as JSON.
	Report(w io.Writer) error
	// Finder draws what the lens sees, so many pixels wide, and says what it had
	// to fill in.
	Finder(width int) (*preview.Finder, []string, error)
	// Export returns the name and the writer of a form; it refuses as the export
	// command does.
	Export(form string) (name string, fill func(io.Writer) error, err error)
	// Make writes everything into a folder and says what it wrote.
	Make(dir string) (string, error)
}
