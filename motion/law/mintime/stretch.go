package mintime

import "math"

// Aim is what a stretched move keeps as low as can be.
type Aim int

const (
	MinAcc  Aim = iota // the greatest acceleration
	MinJerk            // the greatest jerk
)

// Stretch returns the move that takes exactly sec seconds and whose greatest
// acceleration, or greatest jerk, is the lowest possible within the other
// limits. The move's Leg has it as its limit. It fails with a *DurationError if
// the leg cannot take that long.
//
// The lowest is proven. Whatever can be done under a limit can be done under a
// higher one, so the distances possible in sec seconds only grow with the limit,
// from the one of the direct change on. The limit at which they first reach the
// distance asked for is the lowest, and there the move is the furthest, or the
// least far: a hop under that limit.
func (l Leg) Stretch(sec float64, aim Aim) (m Move, err error) {
	d, err := l.Possible()
	if err != nil {
		return m, err
	}
	if !d.Allows(sec) {
		return m, &DurationError{sec, d}
	}
	if sec == 0 {
		return l.Fastest()
	}
	up, sign, gain := l, 1., l.gain(sec)
	if gain < 0 {
		up, sign, gain = l.mirrored(), -1, -gain
	}
	up.lower(sec, gain, aim)
	l.Acc, l.Jerk = up.Acc, up.Jerk
	p := plan{sec: sec}
	if l.Acc > 0 && l.Jerk > 0 {
		var h hop
		h.set(&up)
		h.plan(&p, &up, max(0, up.spare(sec)/h.time))
	} else {
		p.hold, p.peak = sec, up.Start
	}
	err = m.make(&l, &p, sign)
	return m, err
}

// gain returns how much further the leg goes in sec seconds than at the mean of
// its end speeds.
func (l *Leg) gain(sec float64) float64 {
	return add(l.Start, l.End).times(twofold{sec / 2, 0}).from(l.Distance)
}

// spare returns how much longer than the direct change sec is, in seconds.
func (l *Leg) spare(sec float64) float64 {
	half, _ := l.direct()
	return 2 * half.from(sec/2)
}

// most returns the greatest gain within the limits in sec seconds, or -Inf where
// that is too short for any move.
func (l *Leg) most(sec float64) float64 {
	spare := l.spare(sec)
	if spare < 0 {
		return math.Inf(-1)
	}
	var h hop
	h.set(l)
	e := spare / h.time
	below := min(e, h.ev)
	gain := h.peak(below).gain + h.gap/2*below + (h.top-h.high+h.gap/2)*(e-below)
	return gain * h.speed * h.time
}

// gainSlack is the share of the way by which rounding may misjudge a gain. Where
// a limit is never reached, the gain does not depend on it, and only rounding
// would decide whether a lower one will do.
const gainSlack = 8 * 0x1p-53

// lower sets the limit that aim is about to the lowest that gains as much in sec
// seconds. Without any other limit that is one square equation, which bounds it
// from below; a limit that is too low for a rounding is left as it is.
func (l *Leg) lower(sec, gain float64, aim Aim) {
	limit, span := &l.Acc, sec*sec
	change := math.Abs(l.End-l.Start) * sec
	if aim == MinJerk {
		limit, span, change = &l.Jerk, span*sec/8, change/2
	}
	high := *limit
	low := (2*gain + math.Hypot(2*gain, change)) / span
	slack := gainSlack * (gain + math.Abs(l.Distance))
	enough := func(f float64) float64 {
		*limit = f
		return l.most(sec) - gain + slack
	}
	*limit = lowest(low, high, enough)
}
