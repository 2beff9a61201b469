// Package trace is what can be told of a finished motion without knowing how it was
// planned: steps, limits, cuts, stands. The trajectory tells it, and the verifier,
// which must share nothing with a planner, hears nothing else.
package trace

import "seamrail/motion/base/exact"

// Step is one step pulse.
type Step struct {
	Nanos    int64   // real time from frame 0, rounded to a nanosecond
	Position int64   // absolute step index after the step
	Round    int64   // 0-based; -1 in the run-up, the number of rounds in the run-out
	Within   float64 // unrounded seconds from the start of that round, or of the ramp
	Axis     int
	Dir      int8 // +1 or -1
}

// Axis is what an axis of the rig may do, in mm or degrees, and seconds.
type Axis struct {
	Name         string
	Rotary       bool    // in degrees
	Min, Max     float64 // of the travel; mean nothing where it is Endless
	Endless      bool
	MaxSpeed     float64
	MaxAcc       float64
	MaxJerk      float64   // 0 = not stated
	StepsPerUnit exact.Rat // 0 where nobody knows its steps
}

// Cut is what one axis does where a loop is cut back to its first frame.
type Cut struct {
	Gain    exact.Rat // units the loop shown gains, by which nobody sees it go on
	Jump    float64   // units that the cut takes back besides, seen
	Follows bool      // it aims from an axis that jumps, and its speed is that one's doing
}

// Stand is what a plan promises of a display stand.
type Stand struct {
	Name   string
	Rate   exact.Rat // degrees a real second, with its sign
	Face   exact.Rat // degrees from one face of the product to the next
	Off    exact.Rat // degrees past its face when the loop comes round; below 0 short of it
	Bound  exact.Rat // degrees that Off may be
	Hard   bool      // what is not known to be within Bound does not hold
	Doubt  exact.Rat // share of its speed that is not known, either way
	Phased bool      // it is started such that frame 0 finds it where it should be
	Known  bool      // Doubt holds all that may be off; else it says nothing of the stand's drift
}

// Exposed is one frame of a take frame by frame, by its finished schedule.
type Exposed struct {
	Hops   []Hop   // to its place, since the exposure before
	Steps  []int64 // where each axis stands in it
	Opens  float64 // s from the first exposure
	Closes float64
}

// Hop is one axis from rest to rest.
type Hop struct {
	Axis         int
	From, To     int64   // steps
	Begins, Ends float64 // s from the first exposure
}
