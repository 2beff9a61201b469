// Package plan joins a shot and a rig into an immutable plan: every default
// filled, every time known, every axis a closed track.
package plan

import (
	"seamrail/motion/clock"
	"seamrail/motion/exact"
	"seamrail/motion/rig"
	"seamrail/motion/shot"
	"seamrail/motion/track"
)

// Axis is one axis of the rig with what it does during the loop.
type Axis struct {
	Rig      rig.Axis
	Move     shot.AxisMove
	Track    *track.Track
	Extremes track.Extremes
	// RunUp and RunOut bring the axis to its speed before frame 0 and to rest
	// after the last frame. Nil where the axis rests at the seam.
	RunUp, RunOut *Ramp
}

// Plan is a shot on a rig, ready to be turned into frames and steps. It is not
// changed after Build.
type Plan struct {
	Title    string
	ShotFile string
	Loop     clock.Loop
	Rig      rig.Rig
	Axes     []Axis
	Stands   []Stand // what turns by itself beside them
	Rounds   int     // rounds in a take, at least 1
	Handles  int64   // captured frames kept on either side of the cut
	RunUp    int64   // captured frames from rest to frame 0
	RunOut   int64   // captured frames from the last frame to rest
	Timecode clock.Timecode
	Start    int64 // timeline frame number of the loop's first label
	Defaults []shot.Default

	// What else would do, for SpinQuery to look among.
	Captures          []exact.Rat // other capture rates of the camera, frames/s
	Shortest, Longest exact.Rat   // loops, s on screen
}

// Period returns the loop's real duration in seconds.
func (p *Plan) Period() float64 { return p.Loop.Real().Float() }

// AtRest tells whether every axis rests at the seam, so that a take needs no
// run-up.
func (p *Plan) AtRest() bool { return p.RunUp == 0 && p.RunOut == 0 }
