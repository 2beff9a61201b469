package style

import "math"

// Extent returns the least and greatest finite value; 0, 0 when there is none.
func Extent(ys []float64) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, y := range ys {
		if !math.IsInf(y, 0) && !math.IsNaN(y) {
			lo, hi = min(lo, y), max(hi, y)
		}
	}
	if lo > hi {
		return 0, 0
	}
	return lo, hi
}

// Level tells whether a range is nothing but rounding: below one part in a
// thousand million of its size, or of one unit.
func Level(lo, hi float64) bool {
	return hi-lo <= 1e-9*max(1, math.Abs(lo), math.Abs(hi))
}

// Pad leaves a little air above and below a range, and opens up a level one.
func Pad(lo, hi float64) (float64, float64) {
	if Level(lo, hi) {
		open := max(math.Abs(lo)*0.1, 1)
		return lo - open, hi + open
	}
	span := hi - lo
	return lo - span*0.08, hi + span*0.08
}

// Spread moves wanted heights apart until neighbours are at least gap apart,
// keeping their order and staying as low as they can. wanted is in rising order.
func Spread(wanted []float64, gap, lo, hi float64) []float64 {
	out := make([]float64, len(wanted))
	for i, y := range wanted {
		out[i] = max(y, lo)
		if i > 0 {
			out[i] = max(out[i], out[i-1]+gap)
		}
	}
	top := hi
	for i := len(out) - 1; i >= 0; i-- {
		out[i] = min(out[i], top)
		top = out[i] - gap
	}
	return out
}
