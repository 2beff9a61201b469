package against

import "math"

// extreme is how many standard deviations the greatest of so many windows of chance is beyond
// which one in a thousand takes lies: by the tail of the normal, exp(-z*z/2), of each of the ways.
func extreme(n, m int) float64 {
	windows := ways * float64(n) / float64(m) * 4 // they overlap
	return math.Sqrt(2 * math.Log(1000*max(1, windows)))
}

// apart is the most that the mean of m frames is off by, and the first frame of the first that is
// off by more than a bound; -1 where none is.
func (l *laid) apart(m int, bound float64) (most float64, first int) {
	first = -1
	many := l.alone() > fewAlone
	for i := 0; i+m <= l.n; i++ {
		var sum effect
		var each [ways][]float64
		n, rough, all := 0.0, 0.0, l.off(i, i+m)
		for k := i; k < i+m; k++ {
			if l.weights[k] > 0 || l.known[k] && all {
				n++
				rough += l.rough[k] * l.rough[k]
				for w := range sum {
					sum[w], each[w] = sum[w]+l.r[w][k], append(each[w], l.r[w][k])
				}
			}
		}
		if n < float64(m)/2 {
			continue
		}
		for w := range sum {
			if many { // an outlier that nobody marked is among them
				sum[w] = n * middle(each[w])
			}
		}
		d := sum.size() / n * math.Sqrt(n/float64(m)) / max(1, math.Sqrt(rough/n))
		if most = max(most, d); d > bound && first < 0 {
			first = i
		}
	}
	return most, first
}

// mostly is the share of a window's frames that must be known for it to be off as a whole.
const mostly = 0.8

// off tells whether none of a window's frames has any weight, and all are off alike: they are no
// outliers then, the motion is off.
func (l *laid) off(from, to int) bool {
	var sum effect
	n, squares := 0.0, 0.0
	for i := from; i < to; i++ {
		switch {
		case l.weights[i] > 0:
			return false
		case l.known[i]:
			n++
			for w := range sum {
				sum[w] += l.r[w][i]
				squares += l.r[w][i] * l.r[w][i]
			}
		}
	}
	mean := sum.size() / max(1, n)
	// They scatter less than they are off, and nearly all of them are known.
	return n >= mostly*float64(to-from) && squares/n < 2*mean*mean
}
