package move

import (
	"math"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/unit"
)

// Stage is the loop in which the curve of a move is drawn.
type Stage struct {
	Loop     clock.Loop
	Captured int64 // frames that are drawn, of which the pace may make fewer or more
	Quickest bool  // the rig sets the pace, and no time of the move is its own
}

// rate is captured frames a real second.
func (s Stage) rate() float64 { return s.Loop.Clock.Capture.Float() }

// within is the captured frame, within the loop, of so many real seconds from frame 0.
// The loop's own length is no place for a grip but its end is: a rest at the near end
// is over there.
func (s Stage) within(sec float64) float64 {
	f, c := sec*s.rate(), float64(s.Captured)
	if f < 0 {
		f += c
	}
	return math.Min(f, c)
}

// Timeline is the timeline frame nearest to a captured one.
func Timeline(c clock.Clock, frame float64) int64 {
	return int64(math.Round(frame / c.PerScreen().Float()))
}

// What a grip looks like.
const (
	EndGrip     = "end"
	KeyGrip     = "key"
	DwellGrip   = "dwell"
	AdvanceGrip = "advance"
)

// What of it can be dragged.
const (
	VaryPos  = "pos"
	VaryTime = "time"
	VaryBoth = "both"
)

// Grip is a point of the curve that can be dragged.
type Grip struct {
	Key   string // of the axis, that it stands for
	Kind  string
	Vary  string
	Label string
	Frame float64 // captured
	Pos   float64 // mm or degrees
	Drag  func(Pull) []Edit
}

// Pull is where a grip was dragged to.
type Pull struct {
	Pos   float64  // mm or degrees, for what does not vary in time alone
	Frame *float64 // captured; nil where only the place was dragged
}

// end is a grip of a place under its own key.
func end(key, label string, frame float64, at unit.Quantity) Grip {
	return Grip{key, EndGrip, VaryPos, label, frame, at.Float(), func(p Pull) []Edit {
		return []Edit{{key, Place(p.Pos, DragGrain, at.Dim)}}
	}}
}
