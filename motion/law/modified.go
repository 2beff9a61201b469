package law

import "math"

// Both modified laws start with an eighth of the time in which acceleration
// rises as a quarter sine, as in Norton, Design of Machinery, cam chapter, and
// VDI 2143-1.
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

// before tells whether the folded w lies before the break b. In the far half
// time runs the other way, so a point on the break belongs to the stretch
// nearer the end.
func before(w, b float64, far bool) bool { return w < b || far && w == b }
