package against

import "math"

// muchAtOnce is how many causes that are seen are too many for one take: a rig has one fault at a
// time, or two, and a mixture of many imitates any motion.
const muchAtOnce = 4

// anyMotion tells whether a motion that nobody planned, the same in each round, explains a take
// better than all the causes that were found, by Schwarz's criterion: it pays for all its knots.
func (w *witness) anyMotion() bool {
	if n := len(w.reasons()); n == 0 || n >= muchAtOnce {
		return n > 0
	}
	l := w.plain.copied()
	l.weights, l.sigma = w.full.weights, w.full.sigma
	l.fit()
	wins := []window{{}}
	for i, weight := range l.weights {
		if weight > 0 {
			wins[0].frames = append(wins[0].frames, i)
		}
	}
	along := l.look(wins)
	cols := l.base()
	for _, shape := range l.knots() {
		cols = append(cols, l.weigh(spread(shape, along)))
	}
	free := solve(cols, l.weigh(l.y))
	rest := free.residual(l.weigh(l.y))
	n := ways * l.counted()
	any := n*math.Log(rest.dot(rest)) + float64(len(free.kept)+ways-1)*math.Log(n)
	unknowns := float64(len(w.full.result.kept))
	for _, f := range w.found {
		if f.swing != nil {
			unknowns += 2 + ways - 1
		}
	}
	return any < n*math.Log(w.full.squares())+unknowns*math.Log(n)
}

// A free motion has knots so many frames apart, since the softest law bends within that, and so
// many at the most.
const (
	knotFrames = 4.0
	mostKnots  = 96
)

// knots are the shapes of a motion that is the same in each round: cubic B-splines that go round
// (C. de Boor, A Practical Guide to Splines, rev. ed., Springer 2001, ISBN 0-387-95366-3).
func (l *laid) knots() (out [][]float64) {
	loop := float64(l.Loop)
	count := max(4, math.Ceil(loop/max(knotFrames, loop/mostKnots)))
	for k := range int(count) {
		out = append(out, l.shaped(func(j float64) float64 {
			d := j*count/loop - float64(k)
			return bump(math.Abs(d - count*math.Round(d/count)))
		}))
	}
	return out
}

// bump is the cubic B-spline, so many knots from its middle.
func bump(d float64) float64 {
	switch {
	case d < 1:
		return 2.0/3 - d*d + d*d*d/2
	case d < 2:
		return (2 - d) * (2 - d) * (2 - d) / 6
	}
	return 0
}
