package track

import (
	"math"

	"seamrail/motion/law"
)

// shape is a curve over u in [0, 1] with its derivatives with respect to u.
// Every law.Law is one, rising from 0 to 1; so is a quintic, in units.
type shape interface{ At(u float64) law.Point }

// piece is a stretch of a track: base + span*shape(u), u = (t-origin)/length,
// in its first half, and the same measured from goal in its second.
// A piece cut in two by the seam keeps the origin and length of the whole, so
// that each part runs over its own part of u.
type piece struct {
	from, to       float64 // s, within the loop
	origin, length float64 // s, the whole curve
	base, goal     float64 // units at u = 0 and u = 1
	span           float64 // units per unit of shape
	rises          bool    // shape runs from 0 to 1: a law
	shape          shape   // nil: at rest at base
}

func (p *piece) u(sec float64) float64 { return (sec - p.origin) / p.length }

func (p *piece) state(sec float64) State {
	if p.shape == nil {
		return State{Pos: p.base}
	}
	u := (sec - p.origin) / p.length
	q := p.shape.At(u)
	k := 1 / p.length
	d := p.span * k
	return State{Pos: p.pos(u, q.S), Vel: q.V * d, Acc: q.A * d * k, Jerk: q.J * d * k * k}
}

// pos measures from the nearer end, so that both ends are exact.
func (p *piece) pos(u, s float64) float64 {
	switch {
	case u <= 0.5:
		return p.base + p.span*s
	case p.rises:
		return p.goal - p.span*(1-s)
	}
	return p.goal + s
}

// breakSlack is how near to a break of a law, in u, a time counts as on it: a
// thousand roundings of a time late in a loop of many pieces.
const breakSlack = 1e-12

// before is the limit of state from the left. Laws give the value after a
// break, so on one the acceleration and jerk are taken from just before it.
func (p *piece) before(sec float64) State {
	s := p.state(sec)
	b, ok := p.shape.(law.Breaker)
	if !ok {
		return s
	}
	u := p.u(sec)
	for _, at := range b.Breaks() {
		if math.Abs(u-at) <= breakSlack {
			early := p.state(p.origin + (at-2*breakSlack)*p.length)
			s.Acc, s.Jerk = early.Acc, early.Jerk
		}
	}
	return s
}
