package trajectory

import (
	"seamrail/motion/base/exact"
	"seamrail/motion/verify/trace"
)

// StepOptions says how much of a take to step through.
type StepOptions struct {
	Rounds int64 // rounds of the loop, at least 1
	Ramps  bool  // with the run-up before frame 0 and the run-out after the end
}

// Stream gives the steps of all axes in time order. It solves each step when
// it is asked for, so its memory does not grow with the number of rounds. It
// is not safe for use by several goroutines.
type Stream struct {
	axes    []*axisSteps
	pending []trace.Step
	waiting []bool
	alone   bool
}

// Steps returns the steps of a take. It panics if opt.Rounds is below 1.
func (t *Trajectory) Steps(opt StepOptions) *Stream {
	if opt.Rounds < 1 {
		panic("trajectory: a take has at least one round")
	}
	s := &Stream{alone: t.AxisCount() == 1}
	for i := range t.AxisCount() {
		if s.alone {
			s.axes = append(s.axes, t.newAxisSteps(i, opt))
			break
		}
		a := t.newAxisSteps(i, opt)
		s.axes = append(s.axes, a)
		var first trace.Step
		s.waiting = append(s.waiting, a.step(&first))
		s.pending = append(s.pending, first)
	}
	return s
}

// Next returns the next step and true, or false after the last. Steps of the
// same nanosecond come in axis order.
func (s *Stream) Next() (out trace.Step, ok bool) {
	if s.alone {
		ok = s.axes[0].step(&out)
		return out, ok
	}
	best := s.earliest()
	if best < 0 {
		return out, false
	}
	out = s.pending[best]
	s.waiting[best] = s.axes[best].step(&s.pending[best])
	return out, true
}

func (s *Stream) earliest() int {
	best := -1
	for i := range s.pending {
		if s.waiting[i] && (best < 0 || s.pending[i].Nanos < s.pending[best].Nanos) {
			best = i
		}
	}
	return best
}

// StepIndex returns the absolute step index of axis i at the start of a round.
// The remainder of a table whose loop is not a whole number of steps is
// carried exactly, so round ten thousand is as true as round one.
func (t *Trajectory) StepIndex(i int, round int64) int64 {
	_, index := t.seamIndex(i, stagesOf(t.plan.Axes[i].Track))(round)
	return index
}

// StepsPerRound returns the exact steps axis i gains a round. It is not whole
// where a turn does not divide into steps.
func (t *Trajectory) StepsPerRound(i int) exact.Rat {
	ax := &t.plan.Axes[i]
	return ax.Track.Advance().Mul(ax.Rig.StepsPerUnit)
}
