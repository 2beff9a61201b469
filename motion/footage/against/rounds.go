package against

import "math"

// untimed is a take without what changed its time, to be told in another way: only frame 0 and
// what is laid on top stay.
func (w *witness) untimed(shapes ...[]float64) *laid {
	l := w.full.copied()
	was := w.full
	l.warps = l.warps[:1:1]
	for _, s := range shapes {
		l.warps = append(l.warps, warp{shape: s})
	}
	late := make([]float64, l.n)
	for i := range late {
		late[i] = float64(i) - was.planned(float64(i))
	}
	l.begin(late)
	return l
}

// begin gives shapes the share of a lateness that they have, by plain least squares: a start.
func (l *laid) begin(late []float64) {
	var cols []column
	for _, w := range l.warps {
		c := column{0, make([]float64, l.n)}
		for i := range c.v {
			c.v[i] = at(w.shape, float64(i))
		}
		cols = append(cols, c)
	}
	s := solve(cols, column{0, late})
	for k := range l.warps {
		l.warps[k].late = s.beta[k]
	}
	l.fit()
	l.doubts()
}

// rate is by what share the take goes slower than its plan, over all of it.
func (w *witness) rate() Number {
	l := w.untimed(slope(w.full.n, w.full.warps[0].late))
	late := l.warps[1].late // of the frames recorded; of those planned it is a little more
	return Number{late / (1 - late), w.grow * l.warps[1].sure}
}

// mostRounds bounds how many rounds are told one by one, the first ones: each is an unknown of a
// dense solve, with a row as long as the take for each way.
const mostRounds = 120

// rounds are how late each round was: lateness goes evenly through each, from what it was at the
// end of the one before.
func (w *witness) rounds() (out []Round) {
	full := w.full
	first, last := full.roundsSeen()
	if last-first >= mostRounds {
		last = first + mostRounds - 1
	}
	loop := float64(full.Loop)
	var shapes [][]float64
	for r := first; r <= last; r++ {
		shapes = append(shapes, full.shaped(func(j float64) float64 {
			x := j/loop - float64(r)
			if x > 1 && r < last {
				return max(0, 2-x)
			}
			return min(max(x, 0), 1)
		}))
	}
	l := w.untimed(shapes...)
	n := ways * (1 + l.terms())
	for k := range shapes {
		r := Round{Index: first + k, Late: Number{l.warps[k+1].late, w.grow * l.warps[k+1].sure}, Longer: Number{l.warps[k+1].late, 0}}
		terms := map[int]float64{n + 1 + k: 1}
		if k > 0 {
			r.Longer.Value -= l.warps[k].late
			terms[n+k] = -1
		}
		r.Longer.Sure = w.grow * l.result.sureOf(terms)
		ms := 1000 / l.rate
		r.MS = Number{r.Late.Value * ms, r.Late.Sure * ms}
		r.Known = r.Late.Sure < mostDoubt
		out = append(out, r)
	}
	return out
}

// sureOf is the standard uncertainty of a sum of shares of columns, where the noise is 1.
func (s *solved) sureOf(terms map[int]float64) float64 {
	v := make([]float64, len(s.kept))
	left := len(terms)
	for i, k := range s.kept {
		if t, ok := terms[k]; ok {
			v[i], left = t/s.size[k], left-1
		}
	}
	if left > 0 {
		return math.Inf(1)
	}
	sum, inverse := 0.0, s.inverse()
	for i := range v {
		for j := range v {
			sum += v[i] * v[j] * inverse.At(i, j)
		}
	}
	return math.Sqrt(max(0, sum))
}
