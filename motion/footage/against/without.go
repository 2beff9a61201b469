package against

import (
	"math"

	"gonum.org/v1/gonum/floats"
)

// fewFrames and moreFrames are how many frames an explanation must do without, those for which it
// does most: an outlier that nobody marked is no cause. It is more where many are out.
const (
	fewFrames  = 1
	moreFrames = 4
)

// without are two sums of squares without the frames that differ most in them.
func (l *laid) without(r, rest column) (before, after float64) {
	drop := make([]float64, l.n)
	for i := range drop {
		for k := range ways {
			a, b := r.v[k*l.n+i], rest.v[k*l.n+i]
			drop[i] += a*a - b*b
		}
	}
	before, after = r.dot(r), rest.dot(rest)
	frames := fewFrames
	if l.alone() > fewAlone {
		frames = moreFrames
	}
	for range min(frames, l.n-1) {
		i := floats.MaxIdx(drop)
		for k := range ways {
			a, b := r.v[k*l.n+i], rest.v[k*l.n+i]
			before, after = before-a*a, after-b*b
		}
		drop[i] = math.Inf(-1)
	}
	return before, max(after, math.SmallestNonzeroFloat64)
}

// alone is the share of known frames that do not count.
func (l *laid) alone() float64 {
	out, known := 0.0, 0.0
	for i, k := range l.known {
		known += step(k)
		out += step(k && l.weights[i] == 0)
	}
	return out / max(1, known)
}
