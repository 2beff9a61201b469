package law

import "math"

// minimumJerk is the 3-4-5 polynomial, s = 10u^3 - 15u^4 + 6u^5. Of all laws
// at rest at both ends, with no acceleration there, it has the least integral
// of squared jerk (T. Flash and N. Hogan, J. Neurosci. 5(7):1688-1703, 1985,
// from memory).
type minimumJerk struct{}

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

// poly4567 is the 4-5-6-7 polynomial, s = 35u^4 - 84u^5 + 70u^6 - 20u^7: jerk
// too starts and ends at nothing (R. L. Norton, Design of Machinery, cam
// chapter, from memory).
type poly4567 struct{}

func (poly4567) Name() string { return "4-5-6-7" }

func (poly4567) At(u float64) Point {
	w, far := fold(u)
	x := w * (1 - w)
	w2 := w * w
	return unfold(Point{
		S: w2 * w2 * (35 + w*(w*(70-20*w)-84)),
		V: 140 * x * x * x,
		A: 420 * x * x * (1 - 2*w),
		J: 840 * x * (1 - 5*x),
	}, far)
}

func (poly4567) Peaks() Peaks {
	return Peaks{
		V: 35. / 16, AtV: 0.5,
		A: 84 * math.Sqrt(5) / 25, AtA: (1 - 1/math.Sqrt(5)) / 2,
		J: 52.5, AtJ: 0.5,
	}
}
