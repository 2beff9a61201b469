package track

import (
	"math"
	"slices"

	"seamrail/motion/law"
)

// Interval is a stretch of time, in seconds.
type Interval struct{ From, To float64 }

// Span is a stretch of time, in seconds, in which the axis goes one way:
// Dir is +1, -1, or 0 at rest.
type Span struct {
	From, To float64
	Dir      int
}

// creep is the share of the track's reach below which a movement is rounding
// and not a reversal: a hundredth of a nanometre on a metre of rail.
const creep = 1e-11

// Spans returns the monotone stretches of the loop in time order, covering
// [0, Period]. They end exactly where the axis turns or comes to rest.
func (t *Track) Spans() []Span {
	var out []Span
	least := creep * t.reach()
	for i := range t.pieces {
		for _, s := range t.pieces[i].spans(least) {
			out = joined(out, s)
		}
	}
	if out[0].Dir == unsure {
		out[0].Dir = 0
	}
	return out
}

// Dwells returns the stretches at rest, in time order. One that crosses the
// seam is given as its two parts.
func (t *Track) Dwells() []Interval {
	var out []Interval
	for _, s := range t.Spans() {
		if s.Dir == 0 {
			out = append(out, Interval{s.From, s.To})
		}
	}
	return out
}

// Breaks returns the times in [0, Period], ascending, at which the formula
// changes: both ends of the loop, the joints of pieces, and the places inside
// a law where a derivative may jump. Between two of them the track is smooth.
func (t *Track) Breaks() []float64 {
	out := []float64{0, t.seconds}
	for i := range t.pieces {
		p := &t.pieces[i]
		out = append(out, p.from)
		if b, ok := p.shape.(law.Breaker); ok {
			for _, u := range b.Breaks() {
				if at, inside := p.time(u); inside {
					out = append(out, at)
				}
			}
		}
	}
	slices.Sort(out)
	return slices.CompactFunc(out, func(a, b float64) bool { return math.Abs(b-a) <= breakSlack*t.seconds })
}

// reach is the size of the numbers that positions are summed from: a curve
// that is fast at its keys swings far beyond them, and rounds as what it is
// made of does.
func (t *Track) reach() float64 {
	r := math.Abs(t.gain)
	for i := range t.pieces {
		p := &t.pieces[i]
		r = max(r, math.Abs(p.base), math.Abs(p.goal))
		if c, ok := p.shape.(*quintic); ok {
			r = max(r, c.size()*math.Abs(p.span))
		}
	}
	return r
}

// spans cuts a piece where its velocity changes sign. A part that moves by no
// more than least is given the direction of the part before it, or after.
func (p *piece) spans(least float64) []Span {
	if b, ok := p.shape.(*blend); ok {
		return b.spans(p, least)
	}
	c, ok := p.shape.(*quintic)
	if !ok {
		return []Span{{p.from, p.to, sign(p.span)}}
	}
	vel, _, _, _ := c.derivatives()
	var out []Span
	from := p.from
	for _, u := range append(roots(vel), math.Inf(1)) {
		to := min(max(p.origin+u*p.length, p.from), p.to)
		if to > from {
			out = joined(out, Span{from, to, p.heading(from, to, least)})
			from = to
		}
	}
	return out
}

func (p *piece) heading(from, to, least float64) int {
	moved := p.state(to).Pos - p.state(from).Pos
	if math.Abs(moved) <= least {
		return unsure
	}
	return sign(moved)
}

// unsure is the direction of a movement lost in rounding.
const unsure = 2

// joined appends s, or lengthens the last span if s goes the same way.
func joined(spans []Span, s Span) []Span {
	if len(spans) == 0 {
		return append(spans, s)
	}
	last := &spans[len(spans)-1]
	switch {
	case s.Dir == last.Dir || s.Dir == unsure:
		last.To = s.To
	case last.Dir == unsure:
		last.To, last.Dir = s.To, s.Dir
	default:
		return append(spans, s)
	}
	return spans
}

func sign(f float64) int {
	switch {
	case f > 0:
		return 1
	case f < 0:
		return -1
	}
	return 0
}
