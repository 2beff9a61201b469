package ontime

import (
	"math"

	"seamrail/motion/plan/trajectory"
)

// What is late shows by what has moved meanwhile, and by nothing else.
const (
	// unseenStep is the share of a step that nobody sees an axis be off by: a path is
	// no nearer to whole steps than half of one.
	unseenStep = 0.5
	// minLapse is how far apart, in s, frames are of which nobody sees a motion in
	// what goes on between two: a time-lapse. What is late there may move an axis by
	// PromisedDistance, and by lapseShare of what goes on from one frame to the next.
	minLapse   = 0.1
	lapseShare = 0.1
	// looks is at how many frames it is looked for the greatest speed.
	looks = 2000
)

// within is what all rounds of a take together may be late, s.
func within(t *trajectory.Trajectory) float64 {
	frame := t.Clock().FrameTime(1).Float()
	lapse, step := lapseShare*frame, math.Inf(1)
	for i := range t.AxisCount() {
		speed := shownSpeed(t, i)
		lapse = min(lapse, PromisedDistance/speed)
		step = min(step, unseenStep/t.Axis(i).StepsPerUnit.Float()/speed)
	}
	switch {
	case step == math.Inf(1): // nothing moves
		return PromisedLate
	case frame < minLapse:
		return max(step, PromisedLate)
	}
	return max(step, lapse, PromisedLate)
}

// shownSpeed is about the greatest speed of an axis in what is shown.
func shownSpeed(t *trajectory.Trajectory, i int) float64 {
	speed := 0.0
	end := t.Shown().Float()
	for k := range looks {
		speed = max(speed, math.Abs(t.State(i, float64(k)/looks*end).Vel))
	}
	return speed
}
