package law

import "math"

// minimumJerk is the 3-4-5 polynomial, s = 10u^3 - 15u^4 + 6u^5. Of all laws
// at rest at both ends, with no acceleration there, it has the least integral
// of squared jerk (T. Flash and N. Hogan, J. Neurosci. 5(7):1688-1703, 1985,
// DOI 10.1523/JNEUROSCI.05-07-01688.1985).
type minimumJerk struct{}

// MinimumJerk returns the law, the usual one from rest to rest.
func MinimumJerk() Law { return minimumJerk{} }

func (minimumJerk) Name() string { return "3-4-5" }

func (minimumJerk) At(u float64) Point {
	w, far := fold(u)
	x := w * (1 - w)
	return unfold(Point{
		S: w * w * w * (10 + w*(6*w-15)),
		V: 30 * x * x,
		A: 60 * x * (1 - 2*w),
		J: 60 * (1 - 6*x),
	}, far)
}

func (minimumJerk) Peaks() Peaks {
	return Peaks{
		V: 15. / 8, AtV: 0.5,
		A: 10 / math.Sqrt(3), AtA: (3 - math.Sqrt(3)) / 6,
		J: 60, AtJ: 0,
	}
}
