package format

import (
	"io"

	"seamrail/export/table/steps"
)

// stepsTable holds the whole take, run-up and run-out included.
var stepsTable = []Format{{
	Export: Export{Place: 2, Name: "steps", Help: "CSV, one row a motor step: when, which axis, which way", Flags: []string{"unit"}},
	File:   "steps.csv", Purpose: "the time of every motor step of the take, in ns",
	Write: func(of *Of, w io.Writer) error {
		return steps.Write(w, of.Trajectory, of.head(), steps.Options{Unit: of.Unit, Ramps: true})
	},
}}
