package format

import (
	"io"

	"seamrail/export/gcode"
)

// gcodeProgram holds the whole take, run-up and run-out included.
var gcodeProgram = []Format{{
	Export: Export{Place: 4, Name: "gcode", Help: "a program for a controller that reads RS-274/NGC", Flags: []string{"count-in", "no-stop"}},
	File:   "loop.ngc", Purpose: "G-code for the rig's controller", For: Rig,
	Driven: true,
	Write: func(of *Of, w io.Writer) error {
		beats, err := countIn(of)
		if err != nil {
			return err
		}
		opt := gcode.Options{CountIn: beats, NoStop: of.NoStop, Mark: of.Mark}
		if of.Schedule != nil {
			return gcode.WriteByFrame(w, of.Trajectory, of.Schedule, of.head(), opt)
		}
		if opt.Segmenter, err = of.BlocksOpened(opt.Opening()); err != nil {
			return err
		}
		return gcode.Write(w, of.Trajectory, of.head(), opt)
	},
}}
