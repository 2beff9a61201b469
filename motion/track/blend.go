package track

import (
	"slices"

	"seamrail/motion/law"
)

// part is a share of one piece within a blend.
type part struct {
	piece *piece
	share float64
	shift float64 // units gained by whole rounds
	late  float64 // s after its own time
}

// blend is a smooth sum of parts over a span of time, as a shape: u runs over
// the span, and positions are measured from its nearer end.
type blend struct {
	parts        []part
	from, length float64
	start, end   float64 // units at both ends of the span
}

// blended sums the copies over [from, to]: a blend, or rest where all rest.
func blended(copies []delayed, from, to float64) piece {
	b := &blend{from: from, length: to - from}
	still := true
	for _, c := range copies {
		p := c.part(from, to)
		still = still && p.piece.shape == nil
		b.parts = append(b.parts, p)
	}
	b.start, b.end = b.pos(from), b.pos(to)
	out := piece{from: from, to: to, origin: from, length: to - from, base: b.start, goal: b.end, span: 1, shape: b}
	if still {
		out.shape, out.goal, out.span = nil, b.start, 0
	}
	return out
}

// pos is the sum in units.
func (b *blend) pos(sec float64) float64 {
	sum := 0.0
	for i := range b.parts {
		sum += b.parts[i].share * b.parts[i].pos(sec)
	}
	return sum
}

func (p *part) pos(sec float64) float64 { return p.piece.state(sec-p.late).Pos + p.shift }

// At returns the sum with its derivatives with respect to u.
func (b *blend) At(u float64) law.Point {
	sec := b.from + u*b.length
	base := b.start
	if u > 0.5 {
		base = b.end
	}
	var q law.Point
	for i := range b.parts {
		p := &b.parts[i]
		s := p.state(sec, b.from, b.from+b.length)
		q.S += p.share * (s.Pos + p.shift)
		q.V += p.share * s.Vel
		q.A += p.share * s.Acc
		q.J += p.share * s.Jerk
	}
	h := b.length
	q.S -= base
	q.V, q.A, q.J = q.V*h, q.A*h*h, q.J*h*h*h
	return q
}

// state is that of the piece at its own time. Close to an end of the span the
// higher derivatives are taken from just inside, since a law may jump there.
func (p *part) state(sec, from, to float64) State {
	s := p.piece.state(sec - p.late)
	if p.piece.shape == nil {
		return s
	}
	inside := 2 * breakSlack * max(p.piece.length, p.late, to)
	in := min(max(sec, from+inside), to-inside)
	if in != sec && from+inside < to-inside {
		early := p.piece.state(in - p.late)
		s.Acc, s.Jerk = early.Acc, early.Jerk
	}
	return s
}

// looks is how many parts of a blend are looked at for a turn of each
// derivative. A blend is a smooth sum over a span without a break, in which
// laws make a wave at most; two turns within a looks-th of it would have to
// undo one another.
const looks = 24

// peaks returns the states inside p at which a derivative may be greatest:
// where the next one changes sign, and for the jerk where it bends back.
func (b *blend) peaks(p *piece) []candidate {
	var out []candidate
	add := func(u float64) {
		at := p.origin + u*p.length
		out = append(out, candidate{at, p.state(at)})
	}
	for order := range derivatives {
		for _, u := range b.turns(order) {
			add(u)
		}
	}
	for _, u := range b.bends() {
		add(u)
	}
	return out
}

// derivatives of a point, in the order of their number: velocity, acceleration
// and jerk.
var derivatives = []func(law.Point) float64{
	func(q law.Point) float64 { return q.V },
	func(q law.Point) float64 { return q.A },
	func(q law.Point) float64 { return q.J },
}

// turns finds where a derivative changes sign, by halving. Besides the looks it
// is looked at where the next one changes sign, which is where it has its tops
// and bottoms: so one that only just dips below zero, between two looks, is
// seen. A look that finds nothing at all tells no sign, and the change is
// looked for across it.
func (b *blend) turns(order int) []float64 {
	pick, at := derivatives[order], []float64{}
	for i := 1; i <= looks; i++ {
		at = append(at, float64(i)/looks)
	}
	if order+1 < len(derivatives) {
		at = append(at, b.turns(order+1)...)
		slices.Sort(at)
	}
	var out []float64
	before, lo := pick(b.At(0)), 0.0
	for _, hi := range at {
		here := pick(b.At(hi))
		if here == 0 {
			continue
		}
		if before*here < 0 {
			out = append(out, halved(func(u float64) bool { return pick(b.At(u))*before > 0 }, lo, hi))
		}
		before, lo = here, hi
	}
	return out
}

// halved finds the last u in [lo, hi] at which early still holds.
func halved(early func(float64) bool, lo, hi float64) float64 {
	for range maxSteps {
		mid := (lo + hi) / 2
		if mid <= lo || mid >= hi {
			break
		}
		if early(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}

// bends finds the greatest sizes of the jerk between looks, by golden section.
func (b *blend) bends() []float64 {
	size := func(u float64) float64 { j := b.At(u).J; return j * j }
	var out []float64
	for i := 1; i < looks; i++ {
		lo, mid, hi := float64(i-1)/looks, float64(i)/looks, float64(i+1)/looks
		if s := size(mid); s > 0 && s >= size(lo) && s >= size(hi) {
			out = append(out, golden(size, lo, hi))
		}
	}
	return out
}

// golden finds the greatest of f in [lo, hi], where it has one top (golden
// section, Kiefer 1953). Half the digits of a place are all that a top shows.
func golden(f func(float64) float64, lo, hi float64) float64 {
	const ratio, digits = 0.6180339887498949, 1e-9
	for hi-lo > digits {
		a, b := hi-ratio*(hi-lo), lo+ratio*(hi-lo)
		if f(a) < f(b) {
			lo = a
		} else {
			hi = b
		}
	}
	return (lo + hi) / 2
}

// spans cuts a blend where its velocity changes sign.
func (b *blend) spans(p *piece, least float64) []Span {
	var out []Span
	from := p.from
	for _, u := range append(b.turns(0), 1) {
		to := min(max(p.origin+u*p.length, p.from), p.to)
		if u == 1 {
			to = p.to
		}
		if to > from {
			out = joined(out, Span{from, to, p.heading(from, to, least)})
			from = to
		}
	}
	return out
}
