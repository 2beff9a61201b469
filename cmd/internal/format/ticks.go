package format

import (
	"io"

	"seamrail/export/table/ticks"
)

// ticksTable holds the whole take, run-up and run-out included.
var ticksTable = []Format{{
	Export: Export{Place: 3, Name: "ticks", Help: "CSV, every axis' step count at a fixed beat", Flags: []string{"tick"}},
	File:   "ticks.csv", Purpose: "every axis' step count each millisecond",
	Write: func(of *Of, w io.Writer) error {
		return ticks.Write(w, of.Trajectory, of.head(), ticks.Options{Tick: of.Tick, Ramps: true})
	},
}}
