package exact

import (
	"cmp"
	"math"
	"math/big"
	"math/bits"
)

// Nearly all numbers fit into two words, and are worked out there: without memory of their
// own, and as exactly. Sums and products follow Knuth, The Art of Computer Programming,
// volume 2 (ISBN 0-201-89684-2), section 4.5.1, which divides first by what is common, so
// that what fits seldom overflows on the way.

// of is r, which nobody changes any more, in its shortest form: equal numbers have equal
// forms.
func of(r *big.Rat) Rat {
	if r.Num().IsInt64() && r.Denom().IsInt64() && r.Num().Int64() != math.MinInt64 {
		return Rat{n: r.Num().Int64(), d: r.Denom().Int64() - 1}
	}
	return Rat{r: r}
}

// den is the denominator of a number that is short.
func (a Rat) den() int64 { return a.d + 1 }

// short tells whether two numbers are.
func short(a, b Rat) bool { return a.r == nil && b.r == nil }

// plus is a + b of two short ones, if that is short.
func (a Rat) plus(b Rat) (Rat, bool) {
	common := gcd(a.den(), b.den())
	left, right := a.den()/common, b.den()/common
	x, ok := times(a.n, right)
	y, fine := times(b.n, left)
	n, sound := sum(x, y)
	if !ok || !fine || !sound {
		return Rat{}, false
	}
	rest := gcd(n, common)
	d, ok := times(left, b.den()/rest)
	return Rat{n: n / rest, d: d - 1}, ok
}

// by is a * b of two short ones, if that is short.
func (a Rat) by(b Rat) (Rat, bool) {
	x, y := gcd(a.n, b.den()), gcd(b.n, a.den())
	n, ok := times(a.n/x, b.n/y)
	d, fine := times(a.den()/y, b.den()/x)
	return Rat{n: n, d: d - 1}, ok && fine
}

// against is how two short ones compare.
func (a Rat) against(b Rat) int {
	if s, o := a.Sign(), b.Sign(); s != o || s == 0 {
		return cmp.Compare(s, o)
	}
	ahead, abehind := bits.Mul64(size(a.n), uint64(b.den()))
	bahead, bbehind := bits.Mul64(size(b.n), uint64(a.den()))
	switch {
	case ahead == bahead && abehind == bbehind:
		return 0
	case (ahead < bahead || ahead == bahead && abehind < bbehind) == (a.n > 0):
		return -1
	}
	return 1
}

// times is a product, and whether it fits. No factor is math.MinInt64.
func times(a, b int64) (int64, bool) {
	high, low := bits.Mul64(size(a), size(b))
	if high != 0 || low > math.MaxInt64 {
		return 0, false
	}
	if (a < 0) != (b < 0) {
		return -int64(low), true
	}
	return int64(low), true
}

// sum is a sum, and whether it fits.
func sum(a, b int64) (int64, bool) {
	s := a + b
	return s, (a > 0) != (b > 0) || (s > 0) == (a > 0) && s != math.MinInt64
}

// gcd is the greatest common divisor of two numbers of which the second is above 0, by
// Euclid's algorithm.
func gcd(a, b int64) int64 {
	x, y := size(a), uint64(b)
	for x != 0 {
		x, y = y%x, x
	}
	return int64(y)
}

// size is a number without its sign.
func size(a int64) uint64 {
	if a < 0 {
		return uint64(-a)
	}
	return uint64(a)
}
