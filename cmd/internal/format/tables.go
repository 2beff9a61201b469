package format

import (
	"io"

	"seamrail/export/table/frames"
	"seamrail/export/table/steps"
	"seamrail/export/table/ticks"
)

var framesTable = []Format{{
	Export: Export{Place: 1, Name: "frames", Help: "CSV, one row a captured frame: where every axis is and how fast", Flags: []string{"handles"}},
	File:   "frames.csv", Purpose: "where every axis is at each captured frame",
	Write: func(of *Of, w io.Writer) error {
		return frames.Write(w, of.Trajectory, of.head(), frames.Options{Handles: of.Handles})
	},
}}

// stepsTable holds the whole take, run-up and run-out included.
var stepsTable = []Format{{
	Export: Export{Place: 2, Name: "steps", Help: "CSV, one row a motor step: when, which axis, which way", Flags: []string{"unit"}},
	File:   "steps.csv", Purpose: "the time of every motor step of the take, in ns",
	Write: func(of *Of, w io.Writer) error {
		return steps.Write(w, of.Trajectory, of.head(), steps.Options{Unit: of.Unit, Ramps: true})
	},
}}

// ticksTable holds the whole take, run-up and run-out included.
var ticksTable = []Format{{
	Export: Export{Place: 3, Name: "ticks", Help: "CSV, every axis' step count at a fixed beat", Flags: []string{"tick"}},
	File:   "ticks.csv", Purpose: "every axis' step count each millisecond",
	Write: func(of *Of, w io.Writer) error {
		return ticks.Write(w, of.Trajectory, of.head(), ticks.Options{Tick: of.Tick, Ramps: true})
	},
}}
