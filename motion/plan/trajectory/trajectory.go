// Package trajectory turns a plan into what a camera and a motor see: the
// state of every axis at each captured frame, and the time of every step.
package trajectory

import (
	"seamrail/motion/base/exact"
	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
	"seamrail/motion/track"
	"seamrail/motion/verify/trace"
)

// Trajectory is the finished motion of a plan. It is immutable and safe for
// use by several goroutines.
type Trajectory struct {
	plan   *plan.Plan
	round  exact.Rat // s
	period float64   // the same
}

// New returns the trajectory of p.
func New(p *plan.Plan) *Trajectory { return &Trajectory{plan: p, period: p.Period(), round: p.Round()} }

// Plan returns the plan this is the trajectory of.
func (t *Trajectory) Plan() *plan.Plan { return t.plan }

// Rig returns the rig that is to run it.
func (t *Trajectory) Rig() rig.Rig { return t.plan.Rig }

// AxisCount returns how many axes move or hold.
func (t *Trajectory) AxisCount() int { return len(t.plan.Axes) }

// Axis returns the rig's description of axis i.
func (t *Trajectory) Axis(i int) rig.Axis { return t.plan.Axes[i].Rig }

// Captured returns C, the number of captured frames in the loop that is shown.
func (t *Trajectory) Captured() int64 { return t.plan.Loop.Captured }

// Period returns the real seconds of one round, exactly: those of the loop, and
// of the way back where it has a cut.
func (t *Trajectory) Period() exact.Rat { return t.round }

// RoundFrames returns the captured frames of a round, those of the way back too.
func (t *Trajectory) RoundFrames() int64 { return t.plan.RoundFrames() }

// Shown returns the real seconds of a round that the loop shows, exactly: the
// period, but where the loop has a cut.
func (t *Trajectory) Shown() exact.Rat { return t.plan.Loop.Real() }

// Cut returns what axis i does at the end of what is shown; in a loop without a
// cut that is its seam.
func (t *Trajectory) Cut(i int) trace.Cut {
	a := &t.plan.Axes[i]
	return trace.Cut{Gain: a.Gain, Jump: a.Cut, Follows: a.Follows()}
}

// Advance returns the units axis i gains a round, exactly: 0 or its turns.
func (t *Trajectory) Advance(i int) exact.Rat { return t.plan.Axes[i].Track.Advance() }

// Frame is every axis at the instant a captured frame begins.
type Frame struct {
	Index   int64     // 0..C-1 in the loop; outside it, a handle
	Seconds exact.Rat // real seconds from frame 0
	States  []track.State
}

// Frame returns captured frame k. Frames before 0 and from C on are those of
// the rounds before and after, as a handle shows them.
func (t *Trajectory) Frame(k int64) Frame {
	at := t.plan.Loop.Clock.FrameTime(k)
	f := Frame{Index: k, Seconds: at, States: make([]track.State, t.AxisCount())}
	for i := range f.States {
		f.States[i] = t.State(i, at.Float())
	}
	return f
}

// State returns axis i sec real seconds after frame 0 of an endless loop.
func (t *Trajectory) State(i int, sec float64) track.State {
	return t.plan.Axes[i].Track.At(sec)
}

// Position returns where axis i is, in its unit, 0 <= sec <= period. At the
// period itself it is where the round ends, not where the next begins, so that
// a seam with a jump in it can be seen.
func (t *Trajectory) Position(i int, sec float64) float64 {
	tr := t.plan.Axes[i].Track
	if sec >= t.period {
		return tr.Before(t.period).Pos
	}
	return tr.At(sec).Pos
}

// beforeEnd is what share of all rounds is before their end for certain: a few
// roundings less. Where exactly it is takes longer to tell.
const beforeEnd = 1 - 1e-12

// TakeState returns axis i at sec real seconds from frame 0 of a whole take:
// at rest, run-up, the plan's rounds, run-out, at rest again.
func (t *Trajectory) TakeState(i int, rounds int64, sec float64) track.State {
	a := &t.plan.Axes[i]
	switch {
	case sec < 0 && a.RunUp == nil:
		return track.State{Pos: a.Track.At(0).Pos}
	case sec < 0:
		return resting(a.RunUp, a.RunUp.Length()+sec)
	case sec < float64(rounds)*t.period*beforeEnd:
		return a.Track.At(sec)
	}
	end := exact.Int(rounds).Mul(t.round).Float()
	if sec < end {
		return a.Track.At(sec)
	}
	gained := exact.Int(rounds - 1).Mul(a.Track.Advance()).Float()
	last := track.State{Pos: a.Track.Before(t.period).Pos}
	if a.RunOut != nil {
		last = resting(a.RunOut, sec-end)
	}
	last.Pos += gained
	return last
}

// resting is the ramp at sec, at rest outside it.
func resting(r *plan.Ramp, sec float64) track.State {
	s := r.At(sec)
	if sec < 0 || sec > r.Length() {
		return track.State{Pos: s.Pos}
	}
	return s
}
