package format

import (
	"errors"
	"io"
	"slices"

	"seamrail/export/table/exposures"
	"seamrail/export/table/frames"
	"seamrail/export/table/levels"
	"seamrail/export/table/steps"
	"seamrail/export/table/ticks"
	"seamrail/motion/camera/lensview"
	"seamrail/motion/camera/picture"
	"seamrail/motion/scene"
)

var framesTable = []Format{{
	Export: Export{Place: 1, Name: "frames", Help: "CSV, one row a captured frame: where every axis is and how fast", Flags: []string{"handles"}},
	File:   "frames.csv", Purpose: "where every axis is at each captured frame", For: Edit,
	Write: func(of *Of, w io.Writer) error {
		return frames.Write(w, of.Trajectory, of.head(), frames.Options{Handles: of.Handles})
	},
}}

// stepsTable holds the whole take, run-up and run-out included.
var stepsTable = []Format{{
	Export: Export{Place: 2, Name: "steps", Help: "CSV, one row a motor step: when, which axis, which way", Flags: []string{"unit"}},
	File:   "steps.csv", Purpose: "the time of every motor step of the take, in ns", For: Rig,
	Quiet: true, Needs: running,
	Write: func(of *Of, w io.Writer) error {
		return steps.Write(w, of.Trajectory, of.head(), steps.Options{Unit: of.Unit, Ramps: true})
	},
}}

// running is an error where the rig does not run through its frames.
func running(of *Of) error {
	if of.Schedule == nil {
		return nil
	}
	return errors.New("the shot is taken frame by frame, and rests in each; frames says where, and schedule when")
}

// scheduleTable is left out without a word where the camera runs.
var scheduleTable = []Format{{
	Export: Export{Place: 12, Name: "schedule", Help: "CSV, a row a frame of a take frame by frame: when it is moved to, settled and exposed"},
	File:   "schedule.csv", Purpose: "when each frame is moved to, settled and exposed", For: Rig,
	Quiet: true,
	Needs: func(of *Of) error {
		if of.Schedule == nil {
			return errors.New("the shot is not taken frame by frame; [frame-by-frame] in its file would")
		}
		return nil
	},
	Write: func(of *Of, w io.Writer) error {
		return exposures.Write(w, of.Trajectory, of.Schedule, of.head())
	},
}}

// ticksTable holds the whole take, run-up and run-out included.
var ticksTable = []Format{{
	Export: Export{Place: 3, Name: "ticks", Help: "CSV, every axis' step count at a fixed beat", Flags: []string{"tick"}},
	File:   "ticks.csv", Purpose: "every axis' step count each millisecond", For: Rig,
	Quiet: true, Needs: running,
	Write: func(of *Of, w io.Writer) error {
		return ticks.Write(w, of.Trajectory, of.head(), ticks.Options{Tick: of.Tick, Ramps: true})
	},
}}

// lightTable is left out without a word where no lamp changes.
var lightTable = []Format{{
	Export: Export{Place: 11, Name: "light", Help: "CSV, a row a lamp of each captured frame: its level, for whatever dims it"},
	File:   "light.csv", Purpose: "the level of each lamp at each frame, for whatever dims it",
	Quiet: true,
	Needs: func(of *Of) error {
		if s := of.Shot.Scene; s == nil || !slices.ContainsFunc(s.Lamps, func(l scene.Lamp) bool { return l.Fade != nil }) {
			return errors.New("the shot has no lamp that changes over the loop; one with fade or keys under [[scene.lamps]] would")
		}
		return nil
	},
	Write: func(of *Of, w io.Writer) error {
		lit, _ := lensview.Scene(of.Shot, of.Rig)
		v, err := picture.NewViewer(lensview.Motion(of.Trajectory), lit)
		if err != nil {
			return lensview.Located(err, of.Shot)
		}
		return levels.Write(w, of.Trajectory, of.head(), v)
	},
}}
