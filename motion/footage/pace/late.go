package pace

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// lateness is how late a take is at each edge of rest, and evenly in between: what a move takes
// longer is spread over it, and what a rest takes longer lies in the rest.
type lateness struct {
	at   []float64 // planned frames, rising
	late []float64 // frames
}

// share of an instant that knots i and i+1 have; the first and the last go on for ever.
func (t lateness) hat(planned float64) (i int, next float64) {
	n := len(t.at)
	for i = 0; i < n-1 && planned >= t.at[i+1]; i++ {
	}
	if i == n-1 || planned <= t.at[0] {
		return i, 0
	}
	return i, (planned - t.at[i]) / (t.at[i+1] - t.at[i])
}

func (t lateness) of(planned float64) float64 {
	i, next := t.hat(planned)
	if next == 0 {
		return t.late[i]
	}
	return (1-next)*t.late[i] + next*t.late[i+1]
}

const (
	// newtons is how often lateness and gain are bettered together.
	newtons = 4
	// longestStep is how far lateness is moved at once, frames: farther, slopes are others.
	longestStep = 1.0
)

// together fits the lateness of all edges and the gain at once, and returns the variance of each
// lateness: a gain that rises passes for an edge that is early, and what it may hide is told.
func (l *laid) together(t *lateness) (variance []float64) {
	c := l.copied()
	for range newtons {
		n, right := c.equations(*t)
		e, ok := factored(n)
		if !ok {
			return nil
		}
		step := e.solve(right)
		for i := range t.late {
			t.late[i] += min(max(step[i], -longestStep), longestStep)
		}
		for i := range c.share {
			c.share[i] += step[len(t.late)+i]
		}
		variance = e.variances(len(t.late))
	}
	return variance
}

// equations are the normal equations of a step of Gauss and Newton: of the logarithms of changes,
// lateness first, then shares.
func (l *laid) equations(t lateness) (*mat.SymDense, []float64) {
	e, p := len(t.late), l.unknowns(l.model)
	n, right, j := mat.NewSymDense(e+p, nil), make([]float64, e+p), make([]float64, e+p)
	var row []float64
	for k := range l.y {
		from, to := l.planned(float64(l.from[k])), l.planned(float64(l.to[k]))
		middle := (from + to) / 2
		late, own := t.of(middle), l.quiet
		row = l.terms(l.model, from-late, to-late, row)
		l.want[k] = l.sum(row)
		slope := (math.Log(max(own, l.expected(from-late-slightly, to-late-slightly))) - math.Log(max(own, l.expected(from-late+slightly, to-late+slightly)))) / (2 * slightly)
		s := l.scatter(k)
		r := l.off(k)
		w := weigh(r/s) / (s * s)
		if w == 0 {
			continue
		}
		i, next := t.hat(middle)
		used := []int{i}
		j[i] = slope * (1 - next)
		if next > 0 {
			used, j[i+1] = append(used, i+1), slope*next
		}
		for b, v := range row {
			used, j[e+b] = append(used, e+b), v/l.want[k]
		}
		for x, a := range used {
			right[a] += w * j[a] * r
			for _, b := range used[:x+1] {
				n.SetSym(a, b, n.At(a, b)+w*j[a]*j[b])
			}
		}
	}
	return n, right
}
