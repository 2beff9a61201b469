package lookahead

import "math"

// Move is one line that the controller is told.
type Move struct {
	Steps   []int64 // of each axis; nil for a dwell, which waits until all stands still
	Seconds float64 // that it is told to take
	Chars   int     // of its line with the line end, for the link
}

// block is a move as planned. Lengths are mm of the path.
type block struct {
	length  float64
	dir     []float64 // unit vector
	cap     float64   // mm/s that its axes allow
	nominal float64   // mm/s
	acc     float64   // mm/s2
	corner  float64   // greatest entry speed squared, by the change of direction
	entry   float64   // the same, by the nominal speeds on both sides too
	events  float64   // steps of the busiest axis
	dwell   float64   // s
}

// plan returns the moves as blocks; moves of no step at all have length 0 and
// no dwell: controllers drop them, and their time with them.
func (p *Planner) plan(moves []Move) []block {
	n := len(p.Axes)
	slab := make([]float64, n*len(moves))
	out := make([]block, len(moves))
	last := -1
	for k := range moves {
		b := &out[k]
		b.dir, slab = slab[:n:n], slab[n:]
		p.shape(b, &moves[k])
		switch {
		case b.dwell > 0:
			last = -1
		case b.length > 0:
			if last >= 0 {
				b.corner = p.junction(&out[last], b)
				flat := min(out[last].nominal, b.nominal)
				b.entry = min(b.corner, flat*flat)
			}
			last = k
		}
	}
	return out
}

func (p *Planner) shape(b *block, m *Move) {
	if m.Steps == nil {
		b.dwell = m.Seconds
		return
	}
	sum := 0.0
	for i, s := range m.Steps {
		a := p.Axes[i]
		b.dir[i] = float64(s) / a.StepsPerUnit * a.Weight
		sum += b.dir[i] * b.dir[i]
		b.events = max(b.events, math.Abs(float64(s)))
	}
	if sum == 0 {
		return
	}
	b.length = math.Sqrt(sum)
	for i := range b.dir {
		b.dir[i] /= b.length
	}
	b.acc = p.along(b.dir, acceleration)
	b.cap = p.along(b.dir, speed)
	b.nominal = min(b.length/m.Seconds, b.cap)
}

// nearStraight is the cosine beyond which a junction has no corner, or turns
// right back: a corner of less than a tenth of a degree.
const nearStraight = 0.999999

// junction returns the square of the greatest speed from one block to the
// next: that of a circle which strays from the corner by the deviation, at the
// acceleration setting, v² = a*d*sin(h)/(1-sin(h)), h half the angle between
// the two (plane geometry; usual in open firmware).
func (p *Planner) junction(before, b *block) float64 {
	cos := 0.0
	for i, x := range before.dir {
		cos -= x * b.dir[i]
	}
	switch {
	case cos > nearStraight:
		return 0 // right back
	case cos < -nearStraight:
		return math.Inf(1)
	}
	half := math.Sqrt((1 - cos) / 2)
	return p.corner(before, b) * p.Deviation * half / (1 - half)
}

// corner is the acceleration setting along the change of direction.
func (p *Planner) corner(before, b *block) float64 {
	most, sum := math.Inf(1), 0.0
	for i, x := range before.dir {
		sum += (b.dir[i] - x) * (b.dir[i] - x)
	}
	norm := math.Sqrt(sum)
	for i, x := range before.dir {
		if d := math.Abs(b.dir[i] - x); d > 0 {
			most = min(most, p.Axes[i].Acceleration*p.Axes[i].Weight*norm/d)
		}
	}
	return most
}
