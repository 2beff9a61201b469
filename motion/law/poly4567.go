package law

import "math"

// poly4567 is the 4-5-6-7 polynomial, s = 35u^4 - 84u^5 + 70u^6 - 20u^7: jerk
// too starts and ends at nothing (Norton, Design of Machinery, cam chapter).
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
