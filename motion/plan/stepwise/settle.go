package stepwise

import (
	"math"

	"seamrail/motion/vibration/spring"
)

// untoldSettle is how long, in s, a rig is left to come to rest where nothing is known of
// its after-shake: what a bolted frame that swings five times a second, damped by 2 %,
// takes to lose half of a swing. Common practice is to look, and to state it.
const untoldSettle = 1.0

// settle is how long is waited after legs, one after the other, until the load of every
// axis swings by no more than it may.
//
// What is left of the swing before adds to what the moves make, at the worst in step with
// it: it was no more than what may be left.
func (s *Schedule) settle(legs []Leg) float64 {
	switch {
	case len(legs) == 0:
		return 0
	case !s.by.Foretold:
		return s.by.Settle.Float()
	}
	wait := 0.0
	for i := range s.axes {
		a := &s.axes[i]
		made, any := s.made(i, legs)
		switch {
		case !any:
		case !a.rig.Shake.Spring.Known():
			wait = math.Max(wait, untoldSettle)
		default:
			wait = math.Max(wait, a.slowest().Fades(made+a.still, a.still))
		}
	}
	return wait
}

// made is the swing that legs make of the load of an axis, as the last of them all ends,
// where they are in step at the worst; and whether the axis moves.
func (s *Schedule) made(axis int, legs []Leg) (swing float64, any bool) {
	a, since := &s.axes[axis], 0.0
	for k := len(legs) - 1; k >= 0; k-- {
		for _, m := range legs[k].Moves {
			if m.Axis != axis {
				continue
			}
			any = true
			if a.rig.Shake.Spring.Known() {
				swing += a.swing(m.To-m.From, legs[k].swings) * a.faded(since)
			}
		}
		since += legs[k].Seconds
	}
	return swing, any
}

// slowest is the spring as slow as it may be: it fades last.
func (a *axis) slowest() spring.Spring { return maybe(a.rig.Shake)[0] }

// faded is what is left of a swing after so many seconds, as a share.
func (a *axis) faded(sec float64) float64 {
	s := a.slowest()
	return math.Exp(-s.Damping * s.Omega() * sec)
}

// Left returns the greatest swing of an axis that may be left as an exposure begins, in mm
// or degrees, and at which frame of the take; false where nothing is known of its swing.
func (s *Schedule) Left(axis int) (left float64, frame int64, known bool) {
	a := &s.axes[axis]
	if !a.rig.Shake.Spring.Known() {
		return 0, 0, false
	}
	carried := 0.0 // of the swing before, at the worst in step
	for n := range s.differing() {
		f := s.Frame(n)
		took := f.Settle
		for _, l := range f.Legs {
			took += l.Seconds
		}
		made, _ := s.made(axis, f.Legs)
		carried = carried*a.faded(took) + made*a.faded(f.Settle)
		if carried > left {
			left, frame = carried, n
		}
	}
	return left, frame, true
}

// Still is the swing of an axis that may be left, mm or degrees.
func (s *Schedule) Still(axis int) float64 { return s.axes[axis].still }
