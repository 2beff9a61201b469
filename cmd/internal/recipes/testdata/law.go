package law

import "math"

// poly56789 is the polynomial of the ninth degree, whose slope is 630 (u(1-u))^4: the
// slope of jerk starts and ends at nothing as well.
type poly56789 struct{}

func (poly56789) Name() string { return "5-6-7-8-9" }

func (poly56789) At(u float64) Point {
	w, far := fold(u)
	x := w * (1 - w)
	w2 := w * w
	return unfold(Point{
		S: w2 * w2 * w * (126 + w*(w*(540+w*(70*w-315))-420)),
		V: 630 * x * x * x * x,
		A: 2520 * x * x * x * (1 - 2*w),
		J: 2520 * x * x * (3 - 14*x),
	}, far)
}

func (poly56789) Peaks() Peaks {
	return Peaks{
		V: 315. / 128, AtV: 0.5,
		A: 2520. * 27 / 2744 / math.Sqrt(7), AtA: (1 - 1/math.Sqrt(7)) / 2,
		J: 78.75, AtJ: 0.5,
	}
}
