package track

import (
	"slices"

	"seamrail/motion/base/exact"
	"seamrail/motion/law"
)

// leg is a stretch of movement before it is placed in the loop.
type leg struct {
	lasts      exact.Rat // s, above 0, at most the period
	base, goal float64   // units at its start and end
	curve      shape     // nil: at rest
}

func (l leg) piece(origin, end, from, to exact.Rat, shift float64) piece {
	p := piece{
		from: from.Float(), to: to.Float(),
		origin: origin.Float(), length: end.Float() - origin.Float(),
		base: l.base + shift, goal: l.goal + shift,
		shape: l.curve,
	}
	switch l.curve.(type) {
	case nil:
	case law.Law:
		p.span, p.rises = l.goal-l.base, true
	default:
		p.span = 1
	}
	return p
}

// layout places legs one after another, the first at start, and cuts the one
// that the seam crosses. Together they last exactly one period.
func layout(period, advance, start exact.Rat, legs []leg) *Track {
	t := &Track{period: period, advance: advance, seconds: period.Float(), gain: advance.Float()}
	for _, l := range legs {
		rounds := start.Quo(period).Floor()
		t.place(start.Sub(rounds.Mul(period)), -rounds.Float()*t.gain, l)
		start = start.Add(l.lasts)
	}
	slices.SortFunc(t.pieces, func(a, b piece) int {
		if a.from < b.from {
			return -1
		}
		return 1
	})
	return t
}

// place adds a leg that begins at s in [0, period).
func (t *Track) place(s exact.Rat, shift float64, l leg) {
	if l.lasts.Sign() == 0 {
		return
	}
	end := s.Add(l.lasts)
	if !t.period.Less(end) {
		t.pieces = append(t.pieces, l.piece(s, end, s, end, shift))
		return
	}
	early, rest := s.Sub(t.period), end.Sub(t.period)
	t.pieces = append(t.pieces,
		l.piece(s, end, s, t.period, shift),
		l.piece(early, rest, exact.Int(0), rest, shift-t.gain))
}
