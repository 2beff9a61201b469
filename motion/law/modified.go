package law

import "math"

// Both modified laws start with an eighth of the time in which acceleration
// rises as a quarter sine, as in R. L. Norton, Design of Machinery, cam
// chapter, and VDI 2143-1 (both from memory).
const (
	eighth = 0.125
	rate   = 4 * math.Pi // of the sine's phase, so a quarter wave takes 1/8
)

// rise is the first eighth for a peak acceleration of ca.
func rise(w, ca float64) Point {
	x := rate * w
	sin, cos := sinCos(x / 2)
	return Point{
		S: ca / (rate * rate) * lessSin(x, 2*sin*cos),
		V: ca / rate * 2 * sin * sin,
		A: ca * 2 * sin * cos,
		J: ca * rate * (cos - sin) * (cos + sin),
	}
}

// crest is the stretch x after p in which acceleration falls as a cosine of
// phase k x from ca.
func crest(p Point, x, ca, k float64) Point {
	sin, cos := sinCos(k * x / 2)
	return Point{
		S: p.S + p.V*x + ca/(k*k)*2*sin*sin,
		V: p.V + ca/k*2*sin*cos,
		A: ca * (cos - sin) * (cos + sin),
		J: -ca * k * 2 * sin * cos,
	}
}

// Peak accelerations, which bring s(1) to 1.
const (
	trapezoidPeak = 8 * math.Pi / (math.Pi + 2)
	sinePeak      = 4 * math.Pi * math.Pi / (math.Pi + 4)
)

// modifiedTrapezoid holds acceleration between quarter sines: up in 1/8, held
// to 3/8, down through nothing to 5/8, and the same in reverse.
type modifiedTrapezoid struct{}

func (modifiedTrapezoid) Name() string { return "modified-trapezoid" }

func (modifiedTrapezoid) At(u float64) Point {
	const ca = trapezoidPeak
	// s and v at 1/8 and 3/8.
	const s1, v1 = ca / rate * (eighth - 1/rate), ca / rate
	const s3, v3 = s1 + v1/4 + ca/32, v1 + ca/4
	w, far := fold(u)
	switch {
	case before(w, eighth, far):
		return unfold(rise(w, ca), far)
	case before(w, 3*eighth, far):
		x := w - eighth
		return unfold(Point{S: s1 + x*(v1+ca/2*x), V: v1 + ca*x, A: ca}, far)
	}
	return unfold(crest(Point{S: s3, V: v3}, w-3*eighth, ca, rate), far)
}

func (modifiedTrapezoid) Peaks() Peaks {
	return Peaks{
		V: 2, AtV: 0.5,
		A: trapezoidPeak, AtA: eighth,
		J: rate * trapezoidPeak, AtJ: 0,
	}
}

// Breaks returns where acceleration starts and stops being held.
func (modifiedTrapezoid) Breaks() []float64 { return []float64{0.125, 0.375, 0.625, 0.875} }

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

// before tells whether the folded w lies before the break b. In the far half
// time runs the other way, so a point on the break belongs to the stretch
// nearer the end.
func before(w, b float64, far bool) bool { return w < b || far && w == b }
