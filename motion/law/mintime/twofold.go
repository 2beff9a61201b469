package mintime

import "math"

// twofold is a number as an unevaluated sum, good to about twice the digits of
// one: T. J. Dekker, "A floating-point technique for extending the available
// precision", Numerische Mathematik 18:224-242, 1971, DOI 10.1007/BF01397083.
// What is left when two nearly equal distances are subtracted decides which
// kind of move is the quickest, so it must not be rounding.
type twofold struct{ head, tail float64 }

func add(a, b float64) twofold {
	s := a + b
	t := s - a
	return twofold{s, (a - (s - t)) + (b - t)}
}

func mul(a, b float64) twofold {
	p := a * b
	return twofold{p, math.FMA(a, b, -p)}
}

func div(a twofold, b float64) twofold {
	q := a.head / b
	return twofold{q, (math.FMA(-q, b, a.head) + a.tail) / b}
}

// root returns the square root of a/b.
func root(a twofold, b float64) twofold {
	w := math.Sqrt(a.head / b)
	if w == 0 {
		return twofold{}
	}
	bw := mul(b, w)
	return twofold{w, (math.FMA(-bw.head, w, a.head) - bw.tail*w + a.tail) / (2 * bw.head)}
}

func (a twofold) plus(b twofold) twofold {
	s := add(a.head, b.head)
	return twofold{s.head, s.tail + a.tail + b.tail}
}

func (a twofold) times(b twofold) twofold {
	p := mul(a.head, b.head)
	return twofold{p.head, p.tail + a.head*b.tail + a.tail*b.head}
}

// from returns d minus a as one number.
func (a twofold) from(d float64) float64 {
	s := add(d, -a.head)
	return s.head + (s.tail - a.tail)
}

func (a twofold) value() float64 { return a.head + a.tail }
