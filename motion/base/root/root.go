// Package root searches along one number: where a condition gives way, by halving, and
// where a function is greatest, by the golden section. How far either goes is the
// caller's to say.
//
// Sources: W. H. Press et al., Numerical Recipes, 3rd ed., 2007, ISBN
// 978-0-521-88068-8, sections 9.1 (bisection) and 10.2 (golden section); J. Kiefer,
// Sequential minimax search for a maximum, Proc. AMS 4:502-506, 1953, DOI
// 10.1090/S0002-9939-1953-0055639-3.
package root

// Bisect narrows [lo, hi], where early holds at lo and not at hi, to where it gives
// way: by so many halvings at most, until the ends are no further apart than apart,
// and never beyond the last bit. It returns both ends.
func Bisect(lo, hi float64, halvings int, apart float64, early func(float64) bool) (from, to float64) {
	for range halvings {
		mid := (lo + hi) / 2
		if hi-lo <= apart || mid <= lo || mid >= hi {
			break
		}
		if early(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo, hi
}

// Whole returns the whole number next to fails, on the side of holds, from which on
// all do. Either may be the greater.
func Whole[N int | int64](fails, holds N, do func(N) bool) N {
	for fails-holds > 1 || holds-fails > 1 {
		if mid := fails + (holds-fails)/2; do(mid) {
			holds = mid
		} else {
			fails = mid
		}
	}
	return holds
}

// Golden returns where f, which has one top in [lo, hi], is greatest: by so many cuts
// at most, until the ends are no further apart than apart. Half the digits of a place
// are all that a top shows.
func Golden(lo, hi float64, cuts int, apart float64, f func(float64) float64) float64 {
	const ratio = 0.6180339887498949 // (sqrt(5) - 1)/2
	a, b := hi-ratio*(hi-lo), lo+ratio*(hi-lo)
	fa, fb := f(a), f(b)
	for range cuts {
		if hi-lo <= apart {
			break
		}
		if fa < fb {
			lo, a, fa = a, b, fb
			b = lo + ratio*(hi-lo)
			fb = f(b)
		} else {
			hi, b, fb = b, a, fa
			a = hi - ratio*(hi-lo)
			fa = f(a)
		}
	}
	return (lo + hi) / 2
}
