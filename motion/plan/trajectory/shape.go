package trajectory

import (
	"seamrail/motion/base/exact"
	"seamrail/motion/plan"
	"seamrail/motion/track"
)

// Extremes returns the greatest that axis i reaches in a round, way back included.
func (t *Trajectory) Extremes(i int) track.Extremes { return t.plan.Axes[i].Extremes }

// Spans returns the stretches of a round in which axis i goes one way, or stands.
func (t *Trajectory) Spans(i int) []track.Span { return t.plan.Axes[i].Track.Spans() }

// Moves tells whether any axis moves at sec of a round.
func (t *Trajectory) Moves(sec float64) bool {
	for i := range t.plan.Axes {
		for _, s := range t.Spans(i) {
			if s.Dir != 0 && s.From <= sec && sec < s.To {
				return true
			}
		}
	}
	return false
}

// Ramps returns the run-up and the run-out of axis i, nil where it rests at the seam.
func (t *Trajectory) Ramps(i int) (up, out *plan.Ramp) {
	return t.plan.Axes[i].RunUp, t.plan.Axes[i].RunOut
}

// RampFrames returns the captured frames from rest to frame 0 and from the
// last frame to rest.
func (t *Trajectory) RampFrames() (up, out int64) { return t.plan.RunUp, t.plan.RunOut }

// RampTimes returns the real seconds of RampFrames, exactly.
func (t *Trajectory) RampTimes() (up, out exact.Rat) {
	return t.Clock().FrameTime(t.plan.RunUp), t.Clock().FrameTime(t.plan.RunOut)
}

// TakeTime returns the real seconds of a take of so many rounds, run-up and run-out
// included, exactly.
func (t *Trajectory) TakeTime(rounds int64) exact.Rat {
	up, out := t.RampTimes()
	return up.Add(exact.Int(rounds).Mul(t.round)).Add(out)
}
