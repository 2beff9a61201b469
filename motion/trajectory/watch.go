package trajectory

import "seamrail/motion/exact"

// FrameSeconds returns when captured frame k begins, in exact real seconds.
func (t *Trajectory) FrameSeconds(k int64) exact.Rat { return t.plan.Loop.Clock.FrameTime(k) }

// StepsAlong returns a function that gives the steps of so many rounds, one a
// call, without run-up or run-out.
func (t *Trajectory) StepsAlong(rounds int64) func() (Step, bool) {
	return t.Steps(StepOptions{Rounds: rounds}).Next
}

// Rounds returns how many rounds the plan's take has.
func (t *Trajectory) Rounds() int64 { return int64(t.plan.Rounds) }
