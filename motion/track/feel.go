package track

import (
	"fmt"

	"seamrail/motion/base/exact"
)

// Feel is how a curve comes to a key and leaves it. The zero Feel leaves that to
// the curve.
type Feel struct {
	// Tension is the share of the speed and acceleration with which the curve
	// would pass the key that is taken off, in [0, 1]: at 1 it stops there.
	Tension float64
	// EaseIn and EaseOut are shares, in [0, 1], of the time since the key before,
	// or until the next, in which the axis slows down to rest at this key, or
	// picks up from rest; between two eases it goes at an even speed. Its speed
	// follows 3u^2 - 2u^3.
	EaseIn, EaseOut exact.Rat
	// Within is how far, in units, the curve may pass from the key where that is
	// smoother.
	Within float64
}

func (f Feel) eased() bool { return f.EaseIn.Sign() != 0 || f.EaseOut.Sign() != 0 }

// check returns what is wrong with how key k feels.
func (f Feel) check(k Key, s KeysSpec) error {
	one := exact.Int(1)
	rests := k.Hold.Sign() > 0 || f.eased()
	switch {
	case !(f.Tension >= 0 && f.Tension <= 1):
		return fmt.Errorf("a tension of %g must be from 0 to 1", f.Tension)
	case f.EaseIn.Sign() < 0 || f.EaseOut.Sign() < 0 || one.Less(f.EaseIn) || one.Less(f.EaseOut):
		return fmt.Errorf("eases of %s in and %s out must be from 0 to 1", f.EaseIn, f.EaseOut)
	case !(f.Within >= 0) || !finite(f.Within):
		return fmt.Errorf("a key to be passed within %g must allow 0 or more", f.Within)
	case f.Tension > 0 && (rests || k.Speed != nil):
		return fmt.Errorf("a tension takes off some of a speed that the curve chooses; here it is stated, by a speed, a hold or an ease")
	case f.eased() && k.Speed != nil && *k.Speed != 0:
		return fmt.Errorf("an ease comes to rest, so its speed cannot be %g; state the one or the other", *k.Speed)
	case f.Within > 0 && rests:
		return fmt.Errorf("a key that the axis comes to rest at is where it is; leave within out, or the hold or the ease")
	case f.Within > 0 && s.Monotone:
		return fmt.Errorf("a monotone curve turns at its keys and cannot pass near them; leave within out or let the curve be smooth")
	}
	return nil
}

// checkGap returns what is wrong between a key and the next.
func checkGap(k, next Key) error {
	switch {
	case exact.Int(1).Less(k.EaseOut.Add(next.EaseIn)):
		return fmt.Errorf("easing out takes %s of the time to the next key and easing in there %s, which is more than all of it",
			k.EaseOut, next.EaseIn)
	case k.EaseOut.Sign() > 0 && next.Within > 0 || next.EaseIn.Sign() > 0 && k.Within > 0:
		return fmt.Errorf("an ease between keys needs both where they are; leave out the within of the other")
	}
	return nil
}

// ease appends the knots where the eases after key i end and begin. With shares
// e and f of a gap of length h and rise D, the even speed is
//
//	D / (h (1 - e/2 - f/2)),
//
// as the mean speed of 3u^2 - 2u^3 is a half.
func (r *keySpline) ease(period exact.Rat, s KeysSpec, i int) {
	k, next := s.Keys[i], s.Keys[(i+1)%len(s.Keys)]
	e, f := k.EaseOut, next.EaseIn
	if e.Sign() == 0 && f.Sign() == 0 {
		return
	}
	begin, stop, goal := k.Time.Add(k.Hold), next.Time, next.Pos
	if i+1 == len(s.Keys) {
		stop, goal = stop.Add(period), exact.FromFloat(goal).Add(s.Advance).Float()
	}
	h, rise := stop.Sub(begin), goal-k.Pos
	even := 1 - e.Float()/2 - f.Float()/2
	n := knot{key: i + 1, vel: rise / (h.Float() * even), fixVel: true, fixAcc: true}
	if e.Sign() > 0 && e.Less(exact.Int(1)) {
		n.time, n.pos = begin.Add(h.Mul(e)), k.Pos+rise*e.Float()/2/even
		r.insert(n)
	}
	if f.Sign() > 0 && e.Add(f).Less(exact.Int(1)) {
		n.time, n.pos = stop.Sub(h.Mul(f)), goal-rise*f.Float()/2/even
		r.insert(n)
	}
}

func (r *keySpline) insert(n knot) {
	r.knots = append(r.knots, n)
	r.gaps = append(r.gaps, gap{})
}

// tighten takes off the share of each knot's speed that its tension says. The
// knots without one settle anew around those of a smooth curve; a monotone one
// stays monotone where it is slowed.
func (r *keySpline) tighten(monotone bool) error {
	tight := false
	for i := range r.knots {
		k := &r.knots[i]
		if k.tight > 0 {
			k.vel, k.acc = k.vel*(1-k.tight), k.acc*(1-k.tight)
			k.fixVel, k.fixAcc, tight = true, true, true
		}
	}
	if !tight || monotone {
		return nil
	}
	return r.smooth()
}
