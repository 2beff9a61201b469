package mintime

import "math"

// lowest returns the least number between low and high at which f, which rises,
// is not below 0, or high if there is none.
func lowest(low, high float64, f func(float64) float64) float64 {
	if !(low > 0 && low < high) {
		return min(low, high)
	}
	fl, fh := f(low), math.Inf(1)
	if fl >= 0 {
		return low
	}
	for next := 2 * low; high > math.MaxFloat64; next *= 4 {
		if next > math.MaxFloat64 {
			return high
		}
		if fh = f(next); fh >= 0 {
			high = next
		}
	}
	b := bracket{low, high, fl, fh}
	return b.close(f)
}

// bracket is where a rising function passes 0.
type bracket struct{ low, high, atLow, atHigh float64 }

// close narrows the bracket by the rule of false position, halving the value of
// a side that stays (M. Dowell and P. Jarratt, BIT 11:168-174, 1971,
// DOI 10.1007/BF01934364), and by the geometric mean where that is of no use or
// too slow. It returns the upper end.
func (b *bracket) close(f func(float64) float64) float64 {
	const patience = 16 // steps of false position, which needs ten or so
	last := 0.
	for i := 0; i < maxSteps && b.high-b.low > settled*b.high; i++ {
		mid := b.low + (b.high-b.low)*b.atLow/(b.atLow-b.atHigh)
		if i > patience || !(mid > b.low && mid < b.high) {
			mid = math.Sqrt(b.low) * math.Sqrt(b.high)
		}
		at := f(mid)
		same := at*last > 0
		last = at
		if at < 0 {
			b.low, b.atLow = mid, at
			if same {
				b.atHigh /= 2
			}
		} else {
			b.high, b.atHigh = mid, at
			if same {
				b.atLow /= 2
			}
		}
	}
	return b.high
}
