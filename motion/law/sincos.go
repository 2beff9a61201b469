package law

import "math"

// sinCos returns the sine and cosine of x in [0, pi/4] to an ulp or two. It
// spares a law the reduction of large angles in math.Sincos, which costs more
// than the law itself.
//
// Both are Maclaurin series, summed in pairs so that a processor can work on
// several terms at once. The first terms left out, x^19/19! and x^18/18!, are
// below 3e-18 here.
func sinCos(x float64) (sin, cos float64) {
	const (
		s3, s5, s7, s9 = -1. / 6, 1. / 120, -1. / 5040, 1. / 362880
		s11, s13       = s9 / -110, s9 / (110 * 156)
		s15, s17       = s13 / -210, s13 / (210 * 272)

		c4, c6, c8, c10 = 1. / 24, -1. / 720, 1. / 40320, -1. / 3628800
		c12, c14, c16   = c10 / -132, c10 / (132 * 182), c10 / (-132 * 182 * 240)
	)
	y := x * x
	y2 := y * y
	y4 := y2 * y2
	s := (s3 + s5*y) + (s7+s9*y)*y2 + ((s11+s13*y)+(s15+s17*y)*y2)*y4
	c := (c4 + c6*y) + (c8+c10*y)*y2 + ((c12+c14*y)+c16*y2)*y4
	return x + x*y*s, 1 - (y/2 - y2*c)
}

// quarter returns the sine and cosine of pi w for w in [0, 1/2], exact where
// either is nothing.
func quarter(w float64) (sin, cos float64) {
	if w > 0.25 {
		cos, sin = sinCos(math.Pi * (0.5 - w))
		return sin, cos
	}
	return sinCos(math.Pi * w)
}
