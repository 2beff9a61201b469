package ontime

import (
	"seamrail/motion/exact"
	"seamrail/motion/segment"
)

// ramps tells whether any axis moves through the seam.
func (m *machine) ramps() bool { return !m.t.Plan().AtRest() }

// cut returns blocks that are cut one way, on whole steps where that is free,
// or false where they cannot be cut so.
func (m *machine) cut(w way) (k segment.Take, ok bool) {
	c := segment.Cutter{T: m.t, Longest: w.longest, Even: w.even}
	k = c.Take()
	up := segment.Total(k.RunUp)
	period := m.t.Period()
	ramped := func(i int, sec float64) (pos, vel float64) {
		const h = 1e-6 // s; small beside a block, great beside rounding
		pos = c.Ramped(i, sec)
		return pos, (c.Ramped(i, sec+h) - c.Ramped(i, sec-h)) / (2 * h)
	}
	rounded := func(i int, sec float64) (pos, vel float64) {
		s := m.t.State(i, sec)
		return s.Pos, s.Vel
	}
	start := k.Rest
	if n := len(k.RunUp); n > 0 {
		start = k.RunUp[n-1].End
	}
	k.RunUp = m.lead(k.RunUp)
	m.onSteps(k.RunUp, k.Rest, up.Neg(), ramped)
	m.onSteps(k.Round, start, exact.Rat{}, rounded)
	end := k.Round[len(k.Round)-1].End
	m.onSteps(k.RunOut, end, period, ramped)
	if w.quiet {
		k.Round = m.quieted(k.Round, start)
	}
	if m.link.Single {
		k.Round = m.crept(k.Round, start)
	}
	if k.Round, ok = m.rested(k.Round, w.long); !ok {
		return k, false
	}
	k.RunUp, k.Round, k.RunOut = m.joined(k.RunUp, k.Rest), m.joined(k.Round, start), m.joined(k.RunOut, end)
	return k, true
}
