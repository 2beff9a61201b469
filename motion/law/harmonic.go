package law

import "math"

// harmonic is simple harmonic motion, s = (1 - cos(pi u))/2, one of the basic
// cam laws (Norton, Design of Machinery, cam chapter).
type harmonic struct{}

// Harmonic returns the law: there and back by it, at once, is a sine.
func Harmonic() Law { return harmonic{} }

func (harmonic) Name() string { return "harmonic" }

// At works with the half angle, so that s keeps its digits near the ends:
// 1 - cos x = 2 sin^2(x/2).
func (harmonic) At(u float64) Point {
	w, far := fold(u)
	sin, cos := sinCos(math.Pi / 2 * w)
	return unfold(Point{
		S: sin * sin,
		V: math.Pi * sin * cos,
		A: math.Pi * math.Pi / 2 * (cos - sin) * (cos + sin),
		J: -math.Pi * math.Pi * math.Pi * sin * cos,
	}, far)
}

// Peaks has the jerk inside the move; at the ends acceleration starts and
// stops at once.
func (harmonic) Peaks() Peaks {
	return Peaks{
		V: math.Pi / 2, AtV: 0.5,
		A: math.Pi * math.Pi / 2, AtA: 0,
		J: math.Pi * math.Pi * math.Pi / 2, AtJ: 0.5,
	}
}

// Inverse solves s = sin^2(pi u/2). Atan2 keeps its digits at both ends.
func (harmonic) Inverse(s float64) float64 {
	s = clamp(s)
	return 2 / math.Pi * math.Atan2(math.Sqrt(s), math.Sqrt(1-s))
}
