// Package stepwise is a plan taken frame by frame: moves from rest to rest between its
// frames, what is waited for after each, and when each frame is exposed. The places are
// those of the plan at its captured frames, as whole steps; only how time passes between
// them is told here.
package stepwise

import (
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/list"
	"seamrail/motion/law"
	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// Schedule is a plan taken frame by frame. It is not changed after New.
type Schedule struct {
	plan *plan.Plan
	by   shot.ByFrame
	axes []axis
	// release is how much longer than the exposure, in s, a frame takes for what hangs on the
	// output: it may act late, or have to be held for longer.
	release, held float64
	longest       float64  // s, the longest settling of all frames
	Needs         Need     // of the frame that needs most
	Untold        []string // axes that move, whose after-shake the rig does not state
}

// Need is how long a frame takes from the exposure before it, and what of it is which.
type Need struct {
	Frame                               int64   // of the take
	Moves, Settle, Hand, Exposure, Card float64 // s
	Release                             float64 // s that what hangs on the output takes longer than the exposure
	Gaps                                int64   // from frame to frame that it has for that, 1 but after a way back
}

// Seconds is the need, for one of its gaps.
func (n Need) Seconds() float64 {
	return (n.Moves + n.Settle + n.Release + n.Exposure + n.Card + n.Hand) / float64(n.Gaps)
}

// Made is how long the controller takes for it, s: it may be set quicker than the axis' own
// limit.
func (l Leg) Made() float64 { return l.swings.T }

// Move is one axis from rest to rest, in steps.
type Move struct {
	Axis     int // of the plan
	From, To int64
}

// Leg is axes that go together, each along a straight line from rest to rest.
type Leg struct {
	Moves   []Move
	Seconds float64
	swings  law.Profile // from 0 to 1, as its controller makes it
}

// Frame is one frame of a take.
type Frame struct {
	Number       int64 // in the take, from 0
	Round, Index int64
	Legs         []Leg     // to it from the frame before, one after the other
	Settle       float64   // s after them until the exposure may begin
	Opens        exact.Rat // s from the first exposure of the take
	Need         Need
}

// leastPulse is how long a release is pressed at least, s, by a rig file that has another
// notion: what a finger does (common practice).
const leastPulse = 0.05

// Held returns how long the release is held for a frame, s; 0 where there is none.
func (s *Schedule) Held() float64 { return s.held }

// Settles returns the longest that is waited for the after-shake in a take, s.
func (s *Schedule) Settles() float64 { return s.longest }

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
		s.held = s.by.Exposure.Float()
		if !s.by.Bulb {
			s.held = max(o.Pulse, leastPulse)
		}
		s.release = max(o.Late+o.Unsure, s.held-s.by.Exposure.Float())
	}
	for i := range p.Axes {
		s.axes = append(s.axes, newAxis(p, i, perMM))
	}
	for i := range s.axes {
		a := &s.axes[i]
		a.goes(s, i)
		if s.by.Foretold && !a.rig.Shake.Spring.Known() && a.moves {
			s.Untold = append(s.Untold, a.rig.Name)
		}
	}
	for n := range s.differing() {
		f := s.Frame(n)
		if n == 0 || f.Need.Seconds() > s.Needs.Seconds() {
			s.Needs = f.Need
		}
		s.longest = max(s.longest, f.Settle)
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

// Steps returns where an axis of the plan stands at a frame of the take, in steps.
func (s *Schedule) Steps(axis int, n int64) int64 { return s.plan.FrameSteps(axis, n) }

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
	f.Legs = s.legs(n-1, n)
	f.Settle = s.settle(f.Legs)
	f.Need.Gaps, f.Need.Settle = s.opens(n)-s.opens(n-1), f.Settle
	for _, l := range f.Legs {
		f.Need.Moves += l.Seconds + TalkSeconds
	}
	return f
}

// legs are the moves from a frame to another: all axes together and, of those that come from
// one side, back again.
func (s *Schedule) legs(from, to int64) []Leg {
	var there, back []Move
	for i := range s.axes {
		hops := s.axes[i].hops(i, s.Steps(i, from), s.Steps(i, to))
		there = append(there, hops[:min(1, len(hops))]...)
		back = append(back, hops[min(1, len(hops)):]...)
	}
	return append(s.together(there), s.together(back)...)
}

// together is moves as one leg or, where the controller cannot be told that, a leg each.
func (s *Schedule) together(moves []Move) (out []Leg) {
	switch {
	case len(moves) == 0:
		return nil
	case len(moves) == 1 || s.plan.Rig.Controller.Kind.PlaysSteps():
		return []Leg{s.leg(moves)}
	}
	if _, _, ok := FeedWords(s.plan.Rig.Controller, s.rigs(), s.By(moves)); ok {
		return []Leg{s.leg(moves)}
	}
	for _, m := range moves {
		out = append(out, s.leg([]Move{m}))
	}
	return out
}

func (s *Schedule) leg(moves []Move) Leg {
	by, own := s.By(moves), make([]rig.Axis, len(s.axes))
	for i := range s.axes {
		own[i] = s.axes[i].own()
	}
	return Leg{Moves: moves, Seconds: Together(s.rigs(), by).T, swings: Together(own, by)}
}

// rigs are the axes, without what their controller does not know.
func (s *Schedule) rigs() []rig.Axis {
	return list.Map(s.axes, func(a axis) rig.Axis { return a.rig })
}

// By returns how far each axis of the plan goes in moves, mm or degrees.
func (s *Schedule) By(moves []Move) []float64 {
	by := make([]float64, len(s.axes))
	for _, m := range moves {
		by[m.Axis] = s.axes[m.Axis].units(m.To - m.From)
	}
	return by
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

// Arrival returns how long is waited at a frame that is come to by its Approach, one axis
// after the other, from places in mm or degrees: no less than at any frame of the take.
func (s *Schedule) Arrival(from []float64, n int64) float64 {
	var legs []Leg
	for _, to := range [][]float64{s.Approach(n), s.Places(n)} {
		for i := range s.axes {
			per := s.axes[i].rig.StepsPerUnit.Float()
			m := Move{i, int64(math.Round(from[i] * per)), int64(math.Round(to[i] * per))}
			if m.From != m.To {
				legs = append(legs, s.leg([]Move{m}))
			}
		}
		from = to
	}
	return max(s.settle(legs), s.longest)
}

// Places returns where all axes stand at a frame of the take, mm or degrees.
func (s *Schedule) Places(n int64) []float64 {
	out := make([]float64, len(s.axes))
	for i := range out {
		out[i] = s.Place(i, n)
	}
	return out
}
