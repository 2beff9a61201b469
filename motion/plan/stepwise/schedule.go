// Package stepwise is a plan taken frame by frame: moves from rest to rest between its
// frames, what is waited for after each, and when each frame is exposed. The places are
// those of the plan at its captured frames, as whole steps; only how time passes between
// them is told here.
package stepwise

import (
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/plan"
	"seamrail/motion/spec/shot"
)

// Schedule is a plan taken frame by frame. It is not changed after New.
type Schedule struct {
	plan *plan.Plan
	by   shot.ByFrame
	axes []axis
	// release is how late, in s, what hangs on the output may act, if there is one.
	release float64
	Needs   Need     // of the frame that needs most
	Untold  []string // axes that move, whose after-shake the rig does not state
}

// Need is how long a frame takes from the exposure before it, and what of it is which.
type Need struct {
	Frame                               int64   // of the take
	Moves, Settle, Hand, Exposure, Card float64 // s
	Release                             float64 // s that what hangs on the output may act late
	Gaps                                int64   // from frame to frame that it has for that, 1 but after a way back
}

// Seconds is the need, for one of its gaps.
func (n Need) Seconds() float64 {
	return (n.Moves + n.Settle + n.Release + n.Exposure + n.Card + n.Hand) / float64(n.Gaps)
}

// Move is one axis from rest to rest, in steps.
type Move struct {
	Axis     int // of the plan
	From, To int64
	Seconds  float64
}

// Frame is one frame of a take.
type Frame struct {
	Number       int64 // in the take, from 0
	Round, Index int64
	Moves        []Move    // to it from the frame before, one axis after the other
	Settle       float64   // s after them until the exposure may begin
	Opens        exact.Rat // s from the first exposure of the take
	Need         Need
}

// TalkSeconds is what a controller and its wire take for a move beside the move, s: some
// lines, each answered, and a report of where it stands. On the rig of software at 115200
// baud it is a tenth of that.
const TalkSeconds = 0.1

// New makes the schedule of a plan that is taken frame by frame, nil of another. The
// picture has so many pixels to a millimetre, 0 where that is not known.
func New(p *plan.Plan, perMM float64) *Schedule {
	if p.ByFrame == nil {
		return nil
	}
	s := &Schedule{plan: p, by: *p.ByFrame}
	if o, wired := p.Rig.Output(s.by.Output); wired {
		s.release = o.Late + o.Unsure
	}
	for i := range p.Axes {
		s.axes = append(s.axes, newAxis(p, i, perMM))
	}
	for i := range s.axes {
		a := &s.axes[i]
		a.chooseSide(s, i)
		if s.by.Foretold && !a.rig.Shake.Spring.Known() && a.moves {
			s.Untold = append(s.Untold, a.rig.Name)
		}
	}
	for n := range s.differing() {
		if f := s.Frame(n); n == 0 || f.Need.Seconds() > s.Needs.Seconds() {
			s.Needs = f.Need
		}
	}
	return s
}

// differing is how many frames of a take differ from each other in what they need: those
// of a round, and the first of the next.
func (s *Schedule) differing() int64 { return min(s.Frames(), s.plan.Loop.Captured+1) }

// Frames returns how many frames a take exposes.
func (s *Schedule) Frames() int64 { return int64(s.plan.Rounds) * s.plan.Loop.Captured }

// ByFrame returns what the shot says of it.
func (s *Schedule) ByFrame() shot.ByFrame { return s.by }

// Every returns the real seconds from frame to frame.
func (s *Schedule) Every() exact.Rat { return s.plan.Loop.Clock.FrameTime(1) }

// opens is when a frame of the take is exposed, in captured frames from the first.
func (s *Schedule) opens(n int64) int64 {
	c := s.plan.Loop.Captured
	return n/c*s.plan.RoundFrames() + n%c
}

// Gap returns how many captured frames lie between two frames of the take.
func (s *Schedule) Gap(from, to int64) int64 { return s.opens(to) - s.opens(from) }

// Seconds returns how long a take is from its first exposure to the end of its last.
func (s *Schedule) Seconds() float64 {
	return s.plan.Loop.Clock.FrameTime(s.opens(s.Frames()-1)).Float() + s.by.Exposure.Float()
}

// Least returns how long a take is at least where each frame is exposed as soon as it can be:
// what a hand takes comes to that.
func (s *Schedule) Least() float64 {
	sum := -s.by.Card.Float()
	for n := range s.Frames() {
		need := s.Frame(n).Need
		sum += need.Seconds() * float64(need.Gaps)
	}
	return sum
}

// Steps returns where an axis of the plan stands at a frame of the take, in steps. Rounds
// are counted exactly, so that the steps of a loop sum to nothing, or to its turns.
func (s *Schedule) Steps(axis int, n int64) int64 {
	a, c := &s.axes[axis], s.plan.Loop.Captured
	at := s.plan.Loop.Clock.FrameTime(n % c)
	gained := exact.Int(n / c).Mul(a.track.Advance()).Mul(a.rig.StepsPerUnit)
	whole := gained.Floor()
	steps := a.track.At(at.Float()).Pos*a.rig.StepsPerUnit.Float() + gained.Sub(whole).Float()
	return whole.Whole() + int64(math.Floor(steps+0.5))
}

// Place is Steps in mm or degrees.
func (s *Schedule) Place(axis int, n int64) float64 { return s.Unit(axis, s.Steps(axis, n)) }

// Unit returns so many steps of an axis in mm or degrees.
func (s *Schedule) Unit(axis int, steps int64) float64 {
	return exact.Int(steps).Quo(s.axes[axis].rig.StepsPerUnit).Float()
}

// Frame returns a frame of the take.
func (s *Schedule) Frame(n int64) Frame {
	f := Frame{
		Number: n, Round: n / s.plan.Loop.Captured, Index: n % s.plan.Loop.Captured,
		Opens: s.plan.Loop.Clock.FrameTime(s.opens(n)),
		Need:  Need{Frame: n, Exposure: s.by.Exposure.Float(), Card: s.by.Card.Float(), Hand: s.by.Hand.Float(), Release: s.release, Gaps: 1},
	}
	if n == 0 {
		return f
	}
	for i := range s.axes {
		f.Moves = append(f.Moves, s.axes[i].hops(i, s.Steps(i, n-1), s.Steps(i, n))...)
	}
	f.Settle = s.settle(f.Moves)
	f.Need.Gaps, f.Need.Settle = s.opens(n)-s.opens(n-1), f.Settle
	for _, m := range f.Moves {
		f.Need.Moves += m.Seconds + TalkSeconds
	}
	return f
}

// Approach returns where the axes go first so that each comes to a frame from the side
// from which it comes there in the take; of one that has no play, the frame's own place.
func (s *Schedule) Approach(n int64) []float64 {
	out := make([]float64, len(s.axes))
	for i := range s.axes {
		out[i] = s.Unit(i, s.axes[i].before(s, i, n))
	}
	return out
}

// Places returns where all axes stand at a frame of the take, mm or degrees.
func (s *Schedule) Places(n int64) []float64 {
	out := make([]float64, len(s.axes))
	for i := range out {
		out[i] = s.Place(i, n)
	}
	return out
}
