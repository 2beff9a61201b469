package track

import "math"

// walk goes from the keys' own places to the least over the keys that are not
// held, stops at the first bound in the way and holds that key, and where
// nothing is in the way lets go of the key that pulls away most. The integral
// falls with each step and so no set of bounds comes twice (J. Nocedal and
// S. J. Wright, Numerical Optimization, 2nd ed., Springer 2006, section 16.5,
// DOI 10.1007/978-0-387-40065-5).
func (r *keySpline) walk(at []float64, most int) error {
	for i := range at {
		if r.knots[i].within > 0 {
			at[i] = math.NaN()
			r.move(i, 0)
		}
	}
	for range most {
		before := r.offs()
		if err := r.smoothed(func(i int) bool { return math.IsNaN(at[i]) }); err != nil {
			return err
		}
		if r.stop(at, before) {
			continue
		}
		worst := r.worst(at)
		if worst < 0 {
			return nil
		}
		at[worst] = math.NaN()
	}
	return errRestless
}

func (r *keySpline) offs() []float64 {
	out := make([]float64, len(r.knots))
	for i, k := range r.knots {
		out[i] = k.off
	}
	return out
}

// stop goes back to the first bound on the way from before, if there is one,
// and holds the key there.
func (r *keySpline) stop(at, before []float64) bool {
	share, first := 1.0, -1
	for i, k := range r.knots {
		if k.within == 0 || !math.IsNaN(at[i]) || math.Abs(k.off) <= k.within {
			continue
		}
		if s := (math.Copysign(k.within, k.off) - before[i]) / (k.off - before[i]); s < share || first < 0 {
			share, first = s, i
		}
	}
	if first < 0 {
		return false
	}
	at[first] = math.Copysign(r.knots[first].within, r.knots[first].off)
	for i, k := range r.knots {
		if k.within > 0 && math.IsNaN(at[i]) {
			r.move(i, before[i]+share*(k.off-before[i]))
		}
	}
	r.move(first, at[first])
	return true
}

// worst returns the held key that pulls away from its bound most, or -1.
func (r *keySpline) worst(at []float64) int {
	slopes, stiff := r.slopes()
	worst, most := -1, releaseSlack
	for i, k := range r.knots {
		if k.within == 0 || math.IsNaN(at[i]) {
			continue
		}
		if pull := slopes[i] * at[i] / (stiff[i] * k.within * k.within); pull > most {
			worst, most = i, pull
		}
	}
	return worst
}
