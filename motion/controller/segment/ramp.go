package segment

import (
	"math"

	"seamrail/motion/plan"
)

// rampGrain is how far, in mm or degrees, a ramp of constant acceleration may
// end from the planned one to take its place: far below a step.
const rampGrain = 1e-6

// Ramped is where axis i is at sec of a take of a single round. A planned ramp
// leaves rest with no acceleration, slower than the slowest rate of many
// controllers; off camera, one of constant acceleration does as well where it
// begins and ends at the same places.
func (c Cutter) Ramped(i int, sec float64) float64 {
	up, out := c.T.Ramps(i)
	period := c.T.Period().Float()
	switch {
	case c.Even && sec < 0 && up != nil:
		if pos, ok := c.steady(i, up, 0, sec, +1); ok {
			return pos
		}
	case c.Even && sec > period && out != nil:
		if pos, ok := c.steady(i, out, period, sec-period, -1); ok {
			return pos
		}
	}
	return c.T.TakeState(i, 1, sec).Pos
}

// steady is where a ramp of constant acceleration is sec from the seam at at,
// and whether it may take the planned one's place.
func (c Cutter) steady(i int, r *plan.Ramp, at, sec, sign float64) (float64, bool) {
	seam := c.T.State(i, 0)
	if at > 0 {
		seam.Pos = c.T.Position(i, at)
	}
	length := r.Length()
	planned := c.T.TakeState(i, 1, at-sign*length).Pos
	if math.Abs(seam.Pos-sign*seam.Vel*length/2-planned) > rampGrain {
		return 0, false
	}
	left := max(length-math.Abs(sec), 0) // s from rest
	return planned + sign*seam.Vel/length*left*left/2, true
}
