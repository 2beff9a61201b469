package pace

import (
	"math"

	"seamrail/motion/law"
)

// Suited is another law of motion under which the same moves suit the frames.
type Suited struct {
	Law string
	// Lowers is by how much it lowers the criterion of Schwarz, in what chance makes of it; below
	// 0 it raises it.
	Lowers float64
}

// piece is a stretch of an axis's table in which it goes one way.
type piece struct{ from, to int }

// pieces are those of an axis.
func (a axis) pieces() (out []piece) {
	way, from := 0.0, 0
	for k := 1; k < len(a.table); k++ {
		d := a.table[k] - a.table[k-1]
		s := 0.0
		if math.Abs(d) > stands {
			s = math.Copysign(1, d)
		}
		if s == way {
			continue
		}
		if way != 0 {
			out = append(out, piece{from, k - 1})
		}
		way, from = s, k-1
	}
	if way != 0 {
		out = append(out, piece{from, len(a.table) - 1})
	}
	return out
}

// under is the plan with all moves, from rest or turn to the next, under another law.
func (t track) under(w law.Law) track {
	moving := make([]axis, len(t.moving))
	for i, a := range t.moving {
		table := append([]float64(nil), a.table...)
		for _, p := range a.pieces() {
			from, to := a.table[p.from], a.table[p.to]
			for k := p.from; k <= p.to; k++ {
				table[k] = from + (to-from)*w.At(float64(k-p.from)/float64(p.to-p.from)).S
			}
		}
		a.table = table
		moving[i] = a
	}
	t.moving = moving
	return t
}

// likeness of a law's curve to the plan's own: what is nearer than this share of the travel is
// the plan's law, or one that no film tells from it.
const sameLaw = 0.004

// differs is by how much of its travel an axis goes otherwise at the most.
func (t track) differs(o track) (most float64) {
	for i, a := range t.moving {
		for k, v := range a.table {
			most = max(most, math.Abs(v-o.moving[i].table[k]))
		}
	}
	return most
}

// tellLaws compares the plan's motion with all named laws, each with the gain that suits it best.
func (l *laid) tellLaws() (out []Suited) {
	own, kin := l.schwarz(), l.kin()
	for _, w := range law.All() {
		other := l.under(w)
		if l.differs(other) < sameLaw {
			continue
		}
		least := math.Inf(1)
		for _, m := range l.models(l.movingFrames()) {
			if m.spins != l.model.spins || m.round != l.model.round && m.order > 0 || m.order > l.model.order {
				continue
			}
			c := l.copied()
			c.track, c.model, c.share = other, m, nil
			c.fit()
			c.scatters()
			c.fit()
			least = min(least, c.schwarz())
		}
		out = append(out, Suited{w.Name(), (own - least) / kin})
	}
	return out
}
