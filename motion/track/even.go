package track

import (
	"fmt"
	"math"

	"seamrail/motion/law"
)

// even is a law blended with an even speed: s = w u + (1-w) l(u). It begins and
// ends at w times the mean speed and with the acceleration of l times 1-w.
type even struct {
	share float64
	law   law.Law
}

// Even returns the law that goes a share of the way at an even speed and the
// rest by l on top of it: 0 is l alone, 1 an even speed. Above 1 it is slower in
// the middle than at the ends. It fails where it would go backwards: below 0,
// or so far above 1 that the middle stands still.
func Even(l law.Law, share float64) (law.Law, error) {
	most := math.Inf(1)
	if v := l.Peaks().V; v > 1 {
		most = v / (v - 1)
	}
	if !(share >= 0 && share < most) {
		return nil, fmt.Errorf("even share %g must be at least 0 and below %.4g, where the %s law would stand still in the middle", share, most, l.Name())
	}
	if share == 0 {
		return l, nil
	}
	return even{share, l}, nil
}

func (e even) Name() string { return e.law.Name() }

func (e even) At(u float64) law.Point {
	p, rest := e.law.At(u), 1-e.share
	u = min(max(u, 0), 1)
	return law.Point{S: e.share*u + rest*p.S, V: e.share + rest*p.V, A: rest * p.A, J: rest * p.J}
}

// Peaks holds for laws that begin and end at rest, whose speed is least there;
// of an even speed nothing is added.
func (e even) Peaks() law.Peaks {
	p, rest := e.law.Peaks(), 1-e.share
	p.A, p.J = scaled(p.A, rest), scaled(p.J, rest)
	if rest >= 0 {
		p.V = e.share + rest*p.V
	} else {
		p.V, p.AtV = e.share+rest*e.law.At(0).V, 0
	}
	return p
}

// scaled leaves no nothing times the unbounded.
func scaled(peak, by float64) float64 {
	if by == 0 {
		return 0
	}
	return peak * math.Abs(by)
}

// Breaks returns those of the law.
func (e even) Breaks() []float64 {
	if b, ok := e.law.(law.Breaker); ok {
		return b.Breaks()
	}
	return nil
}
