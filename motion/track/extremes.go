package track

import (
	"math"

	"seamrail/motion/law"
)

// Peak is a value and the time, in seconds, at which it is reached.
type Peak struct{ Value, Time float64 }

// Extremes are the greatest values over one loop, exact rather than sampled.
// Min and Max are in units. Speed, Acc and Jerk are those of greatest size, in
// units/s, units/s2 and units/s3, sign kept. Acc is +Inf where the velocity
// jumps and Jerk is +Inf where the velocity or the acceleration jumps, between
// pieces, inside a law, or at the seam. Of equal peaks the first is given, and
// an end of a piece before one inside it.
type Extremes struct{ Min, Max, Speed, Acc, Jerk Peak }

const (
	// tieSlack is the share by which a later peak must be greater to count as
	// greater: a few hundred roundings, so that equal peaks stay equal.
	tieSlack = 1e-13
	// jumpSlack is the share of the greatest speed or acceleration that two
	// sides of a joint may differ by through rounding. Pieces of a loop are
	// evaluated to about 1e-13 of it; a jump of 1e-9 moves nothing. A steady
	// turn has no acceleration, so the speed it keeps for a loop counts too.
	jumpSlack = 1e-9
	// peakSlack widens a piece cut by the seam, in u, so that a peak that falls
	// on the cut is not lost between its two parts.
	peakSlack = 1e-12
)

// Extremes returns the greatest values over one loop, from the closed forms of
// the laws and from the roots of the derivatives of polynomials.
func (t *Track) Extremes() Extremes {
	first := t.At(0)
	e := Extremes{
		Min: Peak{Value: first.Pos}, Max: Peak{Value: first.Pos},
		Speed: Peak{Value: first.Vel}, Acc: Peak{Value: first.Acc}, Jerk: Peak{Value: first.Jerk},
	}
	for i := range t.pieces {
		p := &t.pieces[i]
		e.state(p.from, p.state(p.from))
		e.state(p.to, p.before(p.to))
		for _, c := range p.peaks() {
			e.state(c.at, c.state)
		}
	}
	t.joints(&e)
	return e
}

func (e *Extremes) state(at float64, s State) {
	slack := tieSlack * math.Max(math.Abs(e.Min.Value), math.Abs(e.Max.Value))
	if s.Pos < e.Min.Value-slack {
		e.Min = Peak{s.Pos, at}
	}
	if s.Pos > e.Max.Value+slack {
		e.Max = Peak{s.Pos, at}
	}
	e.Speed.grow(at, s.Vel)
	e.Acc.grow(at, s.Acc)
	e.Jerk.grow(at, s.Jerk)
}

func (p *Peak) grow(at, value float64) {
	if math.Abs(value) > math.Abs(p.Value)*(1+tieSlack) {
		*p = Peak{value, at}
	}
}

// joints marks the jumps between pieces and at the seam.
func (t *Track) joints(e *Extremes) {
	velSlack := jumpSlack * math.Abs(e.Speed.Value)
	accSlack := jumpSlack * (math.Abs(e.Acc.Value) + math.Abs(e.Speed.Value)/t.seconds)
	last := t.pieces[len(t.pieces)-1]
	before := last.before(last.to)
	for i := range t.pieces {
		p := &t.pieces[i]
		after := p.state(p.from)
		if math.Abs(after.Vel-before.Vel) > velSlack {
			e.Acc.grow(p.from, math.Inf(1))
			e.Jerk.grow(p.from, math.Inf(1))
		} else if math.Abs(after.Acc-before.Acc) > accSlack {
			e.Jerk.grow(p.from, math.Inf(1))
		}
		before = p.before(p.to)
	}
}

// candidate is a state that may be an extreme.
type candidate struct {
	at    float64
	state State
}

// peaks returns the states inside p at which a derivative is greatest.
func (p *piece) peaks() []candidate {
	switch c := p.shape.(type) {
	case law.Law:
		return p.lawPeaks(c)
	case *quintic:
		return p.polynomialPeaks(c)
	case *blend:
		return c.peaks(p)
	}
	return nil
}

func (p *piece) polynomialPeaks(c *quintic) []candidate {
	vel, acc, jerk, snap := c.derivatives()
	var out []candidate
	for _, poly := range [][]float64{vel, acc, jerk, snap} {
		for _, u := range roots(poly) {
			if at, ok := p.time(u); ok {
				out = append(out, candidate{at, p.state(at)})
			}
		}
	}
	return out
}

// lawPeaks takes sizes from the law's exact factors and signs from its values.
func (p *piece) lawPeaks(l law.Law) []candidate {
	peaks := l.Peaks()
	k := 1 / p.length
	d := math.Abs(p.span) * k
	var out []candidate
	add := func(u float64, set func(*State)) {
		if at, ok := p.time(u); ok {
			s := p.state(at)
			set(&s)
			out = append(out, candidate{at, s})
		}
	}
	add(peaks.AtV, func(s *State) { s.Vel = math.Copysign(peaks.V*d, s.Vel) })
	add(peaks.AtA, func(s *State) { s.Acc = math.Copysign(peaks.A*d*k, s.Acc) })
	add(peaks.AtJ, func(s *State) { s.Jerk = signed(peaks.J*d*k*k, s.Jerk) })
	return out
}

// signed gives size the sign of like, but leaves the unbounded positive.
func signed(size, like float64) float64 {
	if math.IsInf(size, 0) {
		return size
	}
	return math.Copysign(size, like)
}

// time returns the time of u, if it is within the piece.
func (p *piece) time(u float64) (float64, bool) {
	if u < p.u(p.from)-peakSlack || u > p.u(p.to)+peakSlack {
		return 0, false
	}
	return min(max(p.origin+u*p.length, p.from), p.to), true
}
