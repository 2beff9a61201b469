package law

import "math"

// modifiedSine follows the quarter sine with half a slower cosine, three
// quarters of the time long.
type modifiedSine struct{}

func (modifiedSine) Name() string { return "modified-sine" }

func (modifiedSine) At(u float64) Point {
	const ca = sinePeak
	const s1, v1 = ca / rate * (eighth - 1/rate), ca / rate
	w, far := fold(u)
	if before(w, eighth, far) {
		return unfold(rise(w, ca), far)
	}
	return unfold(crest(Point{S: s1, V: v1}, w-eighth, ca, rate/3), far)
}

func (modifiedSine) Peaks() Peaks {
	return Peaks{
		V: sinePeak / math.Pi, AtV: 0.5,
		A: sinePeak, AtA: eighth,
		J: rate * sinePeak, AtJ: 0,
	}
}

// Breaks returns where one sine gives way to the other: jerk passes through
// nothing there without a jump, but its slope changes.
func (modifiedSine) Breaks() []float64 { return []float64{0.125, 0.875} }
