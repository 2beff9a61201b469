package optimal

import (
	"math"
	"math/cmplx"
)

// half is where a move ends, its middle being at 0.
const half = 0.5

// function is one of those that the n-th derivative is orthogonal to, on [0,
// half]: even or odd over the whole move, so that half of it tells all.
type function interface {
	at(x float64) float64
	slope(x float64) float64
	// area is an antiderivative, 0 at 0.
	area(x float64) float64
}

// power is x to the k, over half to the k, so that it ends at 1.
type power int

func (k power) at(x float64) float64 { return math.Pow(x/half, float64(k)) }

func (k power) slope(x float64) float64 {
	if k == 0 {
		return 0
	}
	return float64(k) / half * math.Pow(x/half, float64(k-1))
}

func (k power) area(x float64) float64 {
	return half / float64(k+1) * math.Pow(x/half, float64(k+1))
}

// swing is the real or the imaginary part of x^m times the even or the odd part
// of e^(gx), m being 0 or 1, over what makes its greatest value nearly 1.
type swing struct {
	g       complex128
	m       int
	odd     bool // part of the exponential
	imag    bool
	oneOver float64
}

// scaled is how many places of a function its size is taken from.
const scaled = 64

func newSwing(g complex128, m int, odd, imag bool) swing {
	s := swing{g, m, odd, imag, 1}
	most := 0.0
	for i := range scaled {
		most = max(most, math.Abs(s.at(half*float64(i+1)/scaled)))
	}
	s.oneOver = 1 / most
	return s
}

// fold takes c of g and of -g, with e^(gx) and e^(-gx), together to the part of the
// exponential.
func (s swing) fold(x float64, c func(g, e complex128) complex128) float64 {
	e := cmplx.Exp(s.g * complex(x, 0))
	a, b := c(s.g, e), c(-s.g, 1/e)
	if s.odd {
		b = -b
	}
	z := (a + b) / 2
	if s.imag {
		return imag(z) * s.oneOver
	}
	return real(z) * s.oneOver
}

func (s swing) at(x float64) float64 {
	return s.fold(x, func(_, e complex128) complex128 {
		if s.m == 0 {
			return e
		}
		return e * complex(x, 0)
	})
}

func (s swing) slope(x float64) float64 {
	return s.fold(x, func(g, e complex128) complex128 {
		if s.m == 0 {
			return g * e
		}
		return e * (1 + g*complex(x, 0))
	})
}

func (s swing) area(x float64) float64 {
	return s.fold(x, func(g, e complex128) complex128 {
		if s.m == 0 {
			return (e - 1) / g
		}
		return (e*(g*complex(x, 0)-1) + 1) / (g * g)
	})
}

// basis returns what the n-th derivative of a law is orthogonal to besides the
// leading power: the lower powers of its parity, and the swings of a spring.
func basis(order int, q Quiet) []function {
	var out []function
	for k := order - 3; k >= 0; k -= 2 {
		out = append(out, power(k))
	}
	if q.Swings == 0 {
		return out
	}
	w := 2 * math.Pi * q.Swings
	g := complex(w*q.Damping, w*math.Sqrt(1-q.Damping*q.Damping))
	odd := order%2 == 0
	out = append(out, q.parts(g, 0, odd)...)
	if q.Robust {
		out = append(out, q.parts(g, 1, !odd)...)
	}
	return out
}

// parts are both parts of a swing; without damping one of them is nothing.
func (q Quiet) parts(g complex128, m int, odd bool) []function {
	if q.Damping == 0 {
		return []function{newSwing(g, m, odd, odd)}
	}
	return []function{newSwing(g, m, odd, false), newSwing(g, m, odd, true)}
}
