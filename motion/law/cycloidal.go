package law

import "math"

// cycloidal is s = u - sin(2 pi u)/(2 pi): acceleration is one sine wave
// (Norton, Design of Machinery, cam chapter).
type cycloidal struct{}

func (cycloidal) Name() string { return "cycloidal" }

func (cycloidal) At(u float64) Point {
	w, far := fold(u)
	sin, cos := quarter(w)
	return unfold(Point{
		S: lessSin(2*math.Pi*w, 2*sin*cos) / (2 * math.Pi),
		V: 2 * sin * sin,
		A: 4 * math.Pi * sin * cos,
		J: 4 * math.Pi * math.Pi * (cos - sin) * (cos + sin),
	}, far)
}

func (cycloidal) Peaks() Peaks {
	return Peaks{
		V: 2, AtV: 0.5,
		A: 2 * math.Pi, AtA: 0.25,
		J: 4 * math.Pi * math.Pi, AtJ: 0,
	}
}

// seriesBelow is where lessSin turns to its series. From here up the plain
// difference loses less than three bits, as x - sin x > x/7.
const seriesBelow = 1

// lessSin returns x - sin x for x >= 0, given sin x, to a few units in the
// last place. Near 0 the difference of the two would be all rounding: at
// x = 1e-8 it comes out as nothing, or negative.
func lessSin(x, sin float64) float64 {
	if x >= seriesBelow {
		return x - sin
	}
	// Maclaurin series; the first term left out is x^19/19!, below 1e-16 of
	// the sum for x <= 1.
	y := x * x
	return x * y / 6 * (1 - y/20*(1-y/42*(1-y/72*(1-y/110*(1-y/156*(1-y/210*(1-y/272)))))))
}
