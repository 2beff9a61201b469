package optimal

import (
	"errors"
	"fmt"
	"math"

	"seamrail/motion/law"
)

// CarriedName is what the law is called that carries acceleration through its
// ends.
const CarriedName = "carried"

// minShare keeps the peaks of a carried law far from overflow.
const minShare = 1e-6

// Carried is a law that begins and ends at its greatest acceleration, as suits a
// carriage that turns round without a dwell: the way back begins as the way out
// ends. Acceleration is held, falls evenly to nothing, and speed is held.
type Carried struct {
	ramp, fall float64 // breaks: speed is reached; acceleration begins to fall
	v, a, j    float64 // peaks
	s          float64 // travel at the end of the ramp
}

// NewCarried returns the law. ramp is the share of the time spent accelerating, and
// again slowing, in (0, 1/2]; jerkShare is the share of each ramp in which the
// acceleration falls, in (0, 1].
func NewCarried(ramp, jerkShare float64) (*Carried, error) {
	switch {
	case !(ramp >= minShare && ramp <= half):
		return nil, fmt.Errorf("ramp %v must be a share of the time from %v to 0.5; 0.5 would fit", ramp, minShare)
	case !(jerkShare >= minShare && jerkShare <= 1):
		return nil, fmt.Errorf("jerk share %v must be a share of the ramp from %v to 1; 0.5 would fit", jerkShare, minShare)
	}
	l := &Carried{ramp: 1 - (1 - ramp), fall: 1 - (1 - ramp*(1-jerkShare))}
	t := l.ramp - l.fall
	l.v, l.s = ramped(l.ramp, t)
	l.a = half / (l.s + l.v*(half-l.ramp))
	l.v, l.s, l.j = l.v*l.a, l.s*l.a, l.a/t
	return l, nil
}

// ramped is the speed at the end of a ramp and the travel in it, for an
// acceleration of 1 that is held and then falls evenly over the last t.
func ramped(ramp, t float64) (speed, travel float64) {
	held := ramp - t
	return held + t/2, held*held/2 + held*t + t*t/3
}

// Name returns the name the law is asked for by.
func (*Carried) Name() string { return CarriedName }

// At returns the law at u. A u below 0 counts as 0 and above 1 as 1.
func (l *Carried) At(u float64) law.Point {
	w, far := min(max(u, 0), 1), false
	if w >= half {
		w, far = 1-w, true
	}
	p := l.near(w, far)
	if far {
		p.S, p.A = 1-p.S, 0-p.A
	}
	return p
}

// near is At in the first half; far says that time runs backwards, which decides
// on which side of a break w is.
func (l *Carried) near(w float64, far bool) law.Point {
	switch {
	case w < l.fall || far && w == l.fall:
		return law.Point{S: l.a / 2 * w * w, V: l.a * w, A: l.a}
	case w < l.ramp || far && w == l.ramp:
		y, v := w-l.fall, l.a*l.fall
		return law.Point{
			S: v*l.fall/2 + y*(v+y*(l.a/2-l.j/6*y)),
			V: v + y*(l.a-l.j/2*y),
			A: l.j * (l.ramp - w), J: -l.j,
		}
	}
	if l.ramp == half { // the middle of one fall
		return law.Point{S: half, V: l.v, J: -l.j}
	}
	return law.Point{S: l.s + l.v*(w-l.ramp), V: l.v}
}

// Peaks returns the exact peak factors.
func (l *Carried) Peaks() law.Peaks {
	return law.Peaks{V: l.v, AtV: l.ramp, A: l.a, AtA: 0, J: l.j, AtJ: l.fall}
}

// Breaks returns where acceleration begins and ends to change.
func (l *Carried) Breaks() []float64 {
	var out []float64
	if l.fall > 0 {
		out = append(out, l.fall)
	}
	if l.ramp < half {
		out = append(out, l.ramp, 1-l.ramp)
	}
	if l.fall > 0 {
		out = append(out, 1-l.fall)
	}
	return out
}

// furthest is how far a way goes at most in its seconds under limits, with what
// ramps: at x from the middle no acceleration is greater than min(A, J x), and
// where that would make it too fast, it does most further out, as travel is the
// sum of acceleration times x.
func furthest(seconds float64, l Limits) (travel, ramp, fall float64) {
	h := seconds / 2
	acc, t := l.Acceleration, l.Acceleration/l.Jerk
	ramp = min(h, l.Speed/acc+t/2)
	if t > ramp { // the acceleration is not reached
		ramp = min(h, math.Sqrt(2*l.Speed/l.Jerk))
		t, acc = ramp, l.Jerk*ramp
	}
	speed, way := ramped(ramp, t)
	return 2 * acc * (way + speed*(h-ramp)), ramp, t
}

// WithinCarried is Within for laws that may carry acceleration through their ends:
// no such law within the limits goes below the bound. Acceleration and jerk are
// both limited, that aimed at not counted.
func WithinCarried(a Aim, distance, seconds float64, l Limits) (Held, error) {
	reaches := func(q float64) bool {
		d, _, _ := furthest(seconds, l.with(a, q))
		return d >= distance
	}
	most := *l.of(a)
	if math.IsInf(most, 1) {
		most = 32 * lower(a, distance, seconds)
	}
	if !reaches(most) {
		return Held{}, errTooFar
	}
	low, high := 0.0, most
	for range maxHalvings {
		mid := low + (high-low)/2
		if mid <= low || mid >= high {
			break
		}
		if reaches(mid) {
			high = mid
		} else {
			low = mid
		}
	}
	_, ramp, t := furthest(seconds, l.with(a, high))
	return Held{Ramp: min(ramp/seconds, half), JerkShare: min(t/ramp, 1), Value: high, Bound: low}, nil
}

var errTooFar = errors.New("the travel is too far for the limits in this time")
