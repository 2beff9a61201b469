package format

import (
	"io"

	"seamrail/export/handoff/motionjson"
)

var motionJSON = []Format{{
	Export: Export{Place: 10, Name: "motion", Help: "JSON, every axis and the lens at each captured frame"},
	File:   "motion.json", Purpose: "every axis and the lens at each frame, for other programs",
	Takes: true,
	Write: func(of *Of, w io.Writer) error {
		lens, _, err := of.Lens()
		if err != nil {
			lens = nil // the axes are known all the same
		}
		return motionjson.Write(w, of.Trajectory, of.head(), lens, handedOn(of))
	},
}}
