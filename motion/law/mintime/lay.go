package mintime

import "math"

// plan is a move before it is laid out: a change of speed from the start to a
// peak, that speed held, a change to the end.
type plan struct {
	sign       float64 // 1: the peak is above both ends; -1: below
	jerk       float64 // of the changes; +Inf: acceleration jumps
	first      change
	last       change
	hold, peak float64 // s, units/s
	sec        float64 // the duration asked for, or 0
}

// change of speed: acceleration rises for rise seconds to acc, holds, and
// falls for as long. Within it acceleration has one sign.
type change struct{ rise, hold, acc float64 }

func (c *change) seconds() float64 { return 2*c.rise + c.hold }

const (
	// endSlack is the share of the greatest speed, and of the way at that
	// speed, by which a move may miss its end: a few thousand roundings, and a
	// hundred-thousandth of a microstep over a metre.
	endSlack = 1e-12
	// limitSlack is the share by which rounding may pass a limit. No motor or
	// scale could tell.
	limitSlack = 1e-12
)

// lay turns p into a move along l, and tells whether it is one.
//
// It integrates the jerks from the start forwards and from the end backwards,
// and the two must meet where the peak speed ends: nothing that the solver
// believes about speeds and distances is taken over. It is false for anything
// that is not a number.
func (m *Move) lay(l *Leg, p *plan) bool {
	m.leg = *l
	jerk := p.sign * p.jerk
	if p.jerk > math.MaxFloat64 {
		jerk = 0
	}
	from := state{vel: l.Start}
	a := (*[3]part)(m.parts[:3])
	on := from.change(&a[0], &a[1], &a[2], p.first, p.sign*p.first.acc, jerk)
	a[0].until, a[1].until, a[2].until = a[1].origin, a[2].origin, on.sec

	peak := state{on.sec + p.hold, on.pos + p.hold*p.peak, p.peak}
	m.parts[3] = part{until: peak.sec, origin: on.sec, pos: on.pos, vel: p.peak}

	m.seconds = peak.sec + p.last.seconds()
	if p.sec > 0 {
		m.seconds = p.sec
	}
	back := change{-p.last.rise, -p.last.hold, p.last.acc}
	to := state{m.seconds, l.Distance, l.End}
	z := (*[3]part)(m.parts[4:])
	off := to.change(&z[2], &z[1], &z[0], back, -p.sign*p.last.acc, jerk)
	z[0].until, z[1].until, z[2].until = z[0].origin, z[1].origin, math.Inf(1)

	late := math.Abs(m.seconds - peak.sec - p.last.seconds())
	slack := endSlack * max(math.Abs(p.peak), math.Abs(l.Start), math.Abs(l.End))
	return p.within(l) && late <= endSlack*m.seconds && math.Abs(on.vel-p.peak) <= slack && math.Abs(off.vel-p.peak) <= slack &&
		math.Abs(peak.pos-off.pos) <= slack*m.seconds
}

// within tells whether no limit is broken. The greatest acceleration of a
// change is the one it holds, the greatest speed at one of its ends; the ends of
// the leg have been checked.
func (p *plan) within(l *Leg) bool {
	a, b := &p.first, &p.last
	return a.rise >= 0 && a.hold >= 0 && b.rise >= 0 && b.hold >= 0 && p.hold >= 0 &&
		max(a.acc, b.acc) <= l.Acc*(1+limitSlack) && p.jerk <= l.Jerk*(1+limitSlack) &&
		math.Abs(p.peak) <= l.Speed*(1+limitSlack)
}

// state is a time with a position and a speed, and no acceleration.
type state struct{ sec, pos, vel float64 }

// change integrates a change of speed with the given signed acceleration, or
// backwards in time if its times are below 0, and writes its parts, each
// counted from where the integration comes from. jerk is that of the first, 0
// where acceleration jumps.
func (s state) change(rises, holds, falls *part, c change, acc, jerk float64) state {
	r, half, sixth := c.rise, acc/2, jerk*(1./6)
	if jerk != 0 {
		half = jerk * r / 2
	}
	*rises = part{origin: s.sec, pos: s.pos, vel: s.vel, sixth: sixth}
	if jerk == 0 {
		rises.half = half
	}
	s.pos += r * (s.vel + r*r*sixth)
	s.vel += 3 * r * r * sixth
	s.sec += r
	*holds = part{origin: s.sec, pos: s.pos, vel: s.vel, half: half}
	s.pos += c.hold * (s.vel + c.hold*half)
	s.vel += 2 * c.hold * half
	s.sec += c.hold
	*falls = part{origin: s.sec, pos: s.pos, vel: s.vel, half: half, sixth: -sixth}
	s.pos += r * (s.vel + r*(half-r*sixth))
	s.vel += r * (2*half - 3*r*sixth)
	s.sec += r
	return s
}
