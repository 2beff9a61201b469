package law

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
