package track

// Curve is a track over one span, for those who ask for many times in it.
// At returns units, units/s and units/s2 at sec seconds; it is safe for
// concurrent use.
type Curve interface {
	At(sec float64) (pos, vel, acc float64)
}

// Cursor returns the track over span, which lies within one loop. At the ends
// of the span it gives the state inside it: at To the limit from the left,
// except that on a break inside a law the acceleration is that after it.
// Over a span within one piece it needs no search.
func (t *Track) Cursor(span Span) Curve {
	first := t.after(span.From)
	last := first
	for last+1 < len(t.pieces) && t.pieces[last+1].from < span.To {
		last++
	}
	if first == last {
		return newRun(&t.pieces[first])
	}
	return stretch(t.pieces[first : last+1])
}

// stretch is neighbouring pieces.
type stretch []piece

func (s stretch) At(sec float64) (pos, vel, acc float64) {
	i := len(s) - 1
	for i > 0 && sec < s[i].from {
		i--
	}
	return s[i].At(sec)
}

// At is state without the jerk.
func (p *piece) At(sec float64) (pos, vel, acc float64) {
	if p.shape == nil {
		return p.base, 0, 0
	}
	u := (sec - p.origin) / p.length
	q := p.shape.At(u)
	k := 1 / p.length
	d := p.span * k
	return p.pos(u, q.S), q.V * d, q.A * d * k
}

// run is one piece with what does not change with time worked out beforehand,
// to the same last digit.
type run struct {
	piece   *piece
	perSec  float64 // 1/length
	vel     float64 // units/s per unit of the shape's derivative
	resting bool
}

func newRun(p *piece) *run {
	if p.shape == nil {
		return &run{piece: p, resting: true}
	}
	k := 1 / p.length
	return &run{piece: p, perSec: k, vel: p.span * k}
}

// At is the piece's At, digit for digit.
func (r *run) At(sec float64) (pos, vel, acc float64) {
	p := r.piece
	if r.resting {
		return p.base, 0, 0
	}
	u := (sec - p.origin) / p.length
	q := p.shape.At(u)
	return p.pos(u, q.S), q.V * r.vel, q.A * r.vel * r.perSec
}
