package track

import "math"

// maxSteps bounds the search for a root. Halving [0, 1] alone reaches the
// spacing of float64 in 53 steps near 1 and in fewer than this anywhere that
// matters; Newton steps usually need six.
const maxSteps = 100

// roots returns, in ascending order, the roots inside (0, 1) of the polynomial
// c[0] + c[1] u + .... The roots of the derivative split [0, 1] into
// stretches on which the polynomial is monotone and so has at most one each.
// A touching root is found only where it is exactly zero in float64.
func roots(c []float64) []float64 {
	if len(c) < 2 {
		return nil
	}
	var out []float64
	from, before := 0.0, c[0]
	for _, to := range append(roots(derive(c)), 1) {
		after := horner(c, to)
		switch {
		case math.Signbit(before) != math.Signbit(after) && before != 0 && after != 0:
			out = append(out, bracketed(c, from, to, before))
		case after == 0 && to < 1:
			out = append(out, to)
		}
		from, before = to, after
	}
	return out
}

// bracketed finds the one root in (lo, hi) by Newton steps, halving whenever a
// step would leave the bracket (Numerical Recipes, section 9.4). atLo is the
// value at lo.
func bracketed(c []float64, lo, hi, atLo float64) float64 {
	slope := derive(c)
	u := (lo + hi) / 2
	for range maxSteps {
		f := horner(c, u)
		if f == 0 {
			return u
		}
		if (f < 0) == (atLo < 0) {
			lo = u
		} else {
			hi = u
		}
		next := u - f/horner(slope, u)
		if !(next > lo && next < hi) {
			next = (lo + hi) / 2
		}
		if next == u || next == lo || next == hi {
			return next
		}
		u = next
	}
	return u
}

func derive(c []float64) []float64 {
	if len(c) < 2 {
		return nil
	}
	d := make([]float64, len(c)-1)
	for i := range d {
		d[i] = float64(i+1) * c[i+1]
	}
	return d
}

func horner(c []float64, u float64) float64 {
	f := 0.0
	for i := len(c) - 1; i >= 0; i-- {
		f = f*u + c[i]
	}
	return f
}
