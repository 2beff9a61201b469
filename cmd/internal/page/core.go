package page

import (
	"io"

	"seamrail/export/drive"
	"seamrail/motion/judge"
	"seamrail/motion/ontime"
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
	// Drive connects to a rig. What happens in the run is told to the audience.
	Drive(p Planned, o DriveOptions, to Audience) (Run, error)
	// Takes lists what was filmed of the shot, after marking one if asked to.
	Takes(mark *TakeMark) ([]Take, error)
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
	// Others are the verdicts that are none of the picture's, and Headline what all
	// make. It may take a while, but not where glanced: that leaves the controller out.
	Others() []picture.Verdict
	Headline(glanced bool) judge.Headline
	// Expected is what the controller is expected to make of it, nil where it must
	// not be run anyway. It may take a while.
	Expected() *ontime.Prediction
	// StandFits says what would close on a display stand.
	StandFits() []string
	// Finder draws what the lens sees, so many pixels wide, and says what it had
	// to fill in.
	Finder(width int) (*preview.Finder, []string, error)
	// Export returns the name and the writer of a form; it refuses as the export
	// command does.
	Export(form string) (name string, fill func(io.Writer) error, err error)
	// Make writes everything into a folder and says what it wrote.
	Make(dir string) (string, error)
}

// DriveOptions says which rig to drive, and how.
type DriveOptions struct {
	Port    string
	Virtual bool // a rig made of software
	Fast    bool // whose time goes as fast as it can; one take, that nobody confirms
	CountIn int  // s
	Endless bool // round after round until asked to finish
}

// Run is a run of a planned shot on a rig.
type Run interface {
	// First is what there is to see before it begins.
	First() DriveState
	// Run drives until the operator leaves or something is wrong, and says how it
	// ended.
	Run() (how string, err error)
	// Ask passes a request on. It does not wait.
	Ask(r drive.Request)
	// Go runs a take of another plan, or of the same. It tells whether the rig
	// has to be asked anew.
	Go(p Planned) bool
	// Mark is the value of the shot that a place of an axis gives.
	Mark(name string, axis int, at float64) (Set, error)
}

// Audience is told what happens in a run.
type Audience interface {
	drive.Observer
	// Called is told each beat of a count for a hand.
	Called(b drive.Beat)
}

// Take is a take that was filmed.
type Take struct {
	Number  int      `json:"take"`
	Virtual bool     `json:"virtual"` // on a rig made of software, with a number of its own
	Began   string   `json:"began"`
	Rounds  int64    `json:"rounds"`
	End     string   `json:"end"`
	Keep    bool     `json:"keep"`
	Notes   []string `json:"notes"`
	Plan    string   `json:"plan"`
}

// TakeMark marks a take; 0 is the last.
type TakeMark struct {
	Take int    `json:"take"`
	Keep *bool  `json:"keep"` // nil leaves it
	Note string `json:"note"`
}
