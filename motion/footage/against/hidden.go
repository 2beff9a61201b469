package against

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
)

// hidden is the uncertainty that poses state beyond what differs from frame to frame, px: it is
// the same in neighbours, as where poses are chained, and no mean makes it less.
func (w *witness) hidden(r *Result) float64 {
	d := w.full.standing()
	return math.Sqrt(max(0, d*d-r.Noise*r.Noise))
}

// standing is the uncertainty that nine of ten poses state while nothing moves, px, where they are
// not smeared; of all poses where something always moves.
func (l *laid) standing() float64 {
	var rests, all []float64
	for i, k := range l.known {
		if !k {
			continue
		}
		if all = append(all, l.doubt[i]); !l.moving(l.when[i]) {
			rests = append(rests, l.doubt[i])
		}
	}
	if len(rests) < leastKnown {
		rests = all
	}
	slices.Sort(rests)
	return stat.Quantile(0.9, stat.Empirical, rests, nil)
}
