// Package plan joins a shot and a rig into an immutable plan: every default
// filled, every time known, every axis a closed track.
package plan

import (
	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/music"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
	"seamrail/motion/track"
)

// Axis is one axis of the rig with what it does during the loop.
type Axis struct {
	Rig      rig.Axis
	Move     shot.AxisMove
	Track    *track.Track
	Extremes track.Extremes
	// Gain is what the loop that is shown gains, in units: that of a round, but
	// where a loop has a cut and the way back gains more.
	Gain exact.Rat
	// Cut is how much further the axis has come when the last frame of a loop
	// with a cut is over, in units: what the cut takes back at once. It is 0 in
	// a loop that closes.
	Cut float64
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
	Stands   []Stand       // what turns by itself beside them
	Set      *Set          // what is set on a rig that is started by hand; nil for one that is driven
	ByFrame  *shot.ByFrame // how it is taken frame by frame; nil where the camera runs
	Rounds   int           // rounds in a take, at least 1
	Handles  int64         // captured frames kept on either side of the cut
	Bound    float64       // real s that no loop along the same way can be below, whatever the jerk; 0 where the pace is as timed
	Back     int64         // captured frames, unseen, from the end of a loop to frame 0 of the next round
	RunUp    int64         // captured frames from rest to frame 0
	RunOut   int64         // captured frames from the last frame to rest
	Timecode clock.Timecode
	Start    int64 // timeline frame number of the loop's first label
	Defaults []shot.Default
	LeftOut  []shot.LeftOut // what the shot file says and the plan goes without
	Music    music.Score    // what times of the shot are named by

	// What else would do, for SpinQuery to look among.
	Captures          []exact.Rat // other capture rates of the camera, frames/s
	Shortest, Longest exact.Rat   // loops, s on screen
}

// Period returns the real seconds from frame 0 of a round to frame 0 of the
// next.
func (p *Plan) Period() float64 { return p.Round().Float() }

// Round is Period, exactly: the loop, and the way back where it has a cut.
func (p *Plan) Round() exact.Rat { return p.Loop.Clock.FrameTime(p.RoundFrames()) }

// RoundFrames returns the captured frames of a round, those of the way back
// too.
func (p *Plan) RoundFrames() int64 { return p.Loop.Captured + p.Back }

// AtRest tells whether every axis rests at the seam, so that a take needs no
// run-up.
func (p *Plan) AtRest() bool { return p.RunUp == 0 && p.RunOut == 0 }
