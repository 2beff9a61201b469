package mintime

import (
	"fmt"
	"math"
)

// Durations are the times a leg can take, in seconds: from Least to Until, and
// from Again on. Nothing is barred where Until is +Inf, and Again then too.
//
// A gap is there where both end speeds have the sign of the way: an axis that
// may not stop for want of room can only dally so long, and beyond that must
// turn back, for which it needs a good deal longer.
type Durations struct{ Least, Until, Again float64 }

// Gap tells whether some durations longer than the least are barred.
func (d Durations) Gap() bool { return d.Until < d.Again }

// sameDuration is the share by which a duration asked for may miss one that is
// possible and still count as it: it may have been read, written and summed.
const sameDuration = 1e-13

// Allows tells whether a leg can take sec seconds.
func (d Durations) Allows(sec float64) bool {
	return sec >= d.Least*(1-sameDuration) &&
		(sec <= d.Until*(1+sameDuration) || sec >= d.Again*(1-sameDuration))
}

// Next returns the least possible duration that is at least sec.
func (d Durations) Next(sec float64) float64 {
	switch {
	case sec < d.Least:
		return d.Least
	case d.Allows(sec):
		return sec
	}
	return d.Again
}

// String says which durations are possible, as in "from 0.3 s to 0.5 s, and
// from 0.9 s".
func (d Durations) String() string {
	if !d.Gap() {
		return fmt.Sprintf("from %.9g s", d.Least)
	}
	if d.Until <= d.Least {
		return fmt.Sprintf("%.9g s, and from %.9g s", d.Least, d.Again)
	}
	return fmt.Sprintf("from %.9g s to %.9g s, and from %.9g s", d.Least, d.Until, d.Again)
}

// DurationError is a duration that a leg cannot take.
type DurationError struct {
	Asked    float64 // s
	Possible Durations
}

func (e *DurationError) Error() string {
	return fmt.Sprintf("a move of %.9g s is not possible; these are: %v", e.Asked, e.Possible)
}

// Possible returns the durations the leg can take within its limits.
//
// The furthest and the least distance covered in a given time are a convex and
// a concave function of it, and everything between is possible. So the times
// that are long enough have no gap on one side of D*, and at most one on the
// other.
func (l Leg) Possible() (Durations, error) {
	m, err := l.Fastest()
	if err != nil {
		return Durations{}, err
	}
	d := Durations{m.seconds, math.Inf(1), math.Inf(1)}
	half, covered := l.direct()
	want, sign := l.beyond(half, covered)
	away := l
	if sign > 0 {
		away = l.mirrored()
	}
	var h hop
	h.set(&away)
	if h.high >= 0 {
		return d, nil
	}
	want = want * h.per / h.time
	bottom := h.lowest()
	if h.distance(bottom) >= -want {
		return d, nil
	}
	direct := 2 * half.value()
	// Newton's rule from 0 does not pass the lesser root, as E is convex.
	d.Until = max(d.Least, direct+h.newton(-want, 0, bottom, 0)*h.time)
	d.Again = direct + h.solve(-want)*h.time
	return d, nil
}

// Detour returns the shortest move beyond the gap in the possible durations:
// one that goes the other way first, or too far and back. Over no distance
// between equal speeds it is the excursion that comes back at the same speed.
// It fails with ErrNoDetour if there is no gap.
func (l Leg) Detour() (m Move, err error) {
	d, err := l.Possible()
	if err != nil {
		return m, err
	}
	if !d.Gap() {
		return m, ErrNoDetour
	}
	half, covered := l.direct()
	want, sign := l.beyond(half, covered)
	err = m.hop(&l, -want, -sign)
	return m, err
}
