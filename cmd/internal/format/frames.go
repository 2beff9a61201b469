package format

import (
	"io"

	"seamrail/export/table/frames"
)

var framesTable = []Format{{
	Export: Export{Place: 1, Name: "frames", Help: "CSV, one row a captured frame: where every axis is and how fast", Flags: []string{"handles"}},
	File:   "frames.csv", Purpose: "where every axis is at each captured frame",
	Write: func(of *Of, w io.Writer) error {
		return frames.Write(w, of.Trajectory, of.head(), frames.Options{Handles: of.Handles})
	},
}}
