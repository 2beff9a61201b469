package trajectory

import (
	"seamrail/motion/base/exact"
	"seamrail/motion/spec/rig"
	"seamrail/motion/verify/trace"
)

// FrameSeconds returns when captured frame k begins, in exact real seconds.
func (t *Trajectory) FrameSeconds(k int64) exact.Rat { return t.plan.Loop.Clock.FrameTime(k) }

// StepsAlong returns a function that gives the steps of so many rounds, one a
// call, without run-up or run-out.
func (t *Trajectory) StepsAlong(rounds int64) func() (trace.Step, bool) {
	return t.Steps(StepOptions{Rounds: rounds}).Next
}

// Rounds returns how many rounds the plan's take has.
func (t *Trajectory) Rounds() int64 { return int64(t.plan.Rounds) }

// StepRate returns the most steps a second that the controller makes; 0 = not stated.
func (t *Trajectory) StepRate() float64 { return t.plan.Rig.Controller.StepRate }

// ByHand tells whether two ends and a time are set on the rig and nothing is sent to it.
func (t *Trajectory) ByHand() bool { return t.plan.Set != nil }

// ByFrame tells whether the shot is taken frame by frame, the rig at rest in each.
func (t *Trajectory) ByFrame() bool { return t.plan.ByFrame != nil }

// Limits returns what axis i may do.
func (t *Trajectory) Limits(i int) trace.Axis {
	a := &t.plan.Axes[i].Rig
	return trace.Axis{
		Name: a.Name, Rotary: a.Kind == rig.Rotary, Min: a.Min, Max: a.Max, Endless: a.Endless,
		MaxSpeed: a.MaxSpeed, MaxAcc: a.MaxAcc, MaxJerk: a.MaxJerk, StepsPerUnit: a.StepsPerUnit,
	}
}
