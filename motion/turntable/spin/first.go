package spin

import (
	"math/big"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
)

// First returns the first loop of at least lo frames' grains, to any length that
// a loop may have, that closes for the product at speed v; false where none does.
// It takes as many steps as the continued fraction of the faces turned a loop is
// long, however far away the loop is.
func First(c clock.Clock, p Product, v Speed, from exact.Rat) (clock.Loop, bool) {
	g := grainOf(c)
	if g.per == 0 {
		return clock.Loop{}, false
	}
	lo, _ := g.span(from, from)
	faces := g.real(1).Quo(v.Period).Mul(exact.Int(p.Symmetry))
	// Half a face must have been turned for 0 to be a match.
	lo = max(lo, least(exact.New(1, 2).Quo(faces).Ceil(), exact.Int(g.limit()+1)).Whole())
	i, ok := firstWithin(faces, p.Limit(v.Period, c.Capture).Mul(exact.Int(p.Symmetry)), lo)
	if !ok || i > g.limit() {
		return clock.Loop{}, false
	}
	return g.loop(i), true
}

// Nearer returns loops, the shortest first and at most most of them, each of which
// is nearer to a match than any shorter one: they are what a longer loop can win.
// Their counts are denominators of the convergents of the faces turned in one.
func Nearer(c clock.Clock, p Product, v Speed, most int) []clock.Loop {
	g := grainOf(c)
	if g.per == 0 {
		return nil
	}
	var out []clock.Loop
	faces := g.real(1).Quo(v.Period).Mul(exact.Int(p.Symmetry))
	for _, r := range Convergents(faces, g.limit()) {
		i := r.Den().Int64()
		turned := r.Sign() > 0
		if again := len(out) > 0 && out[len(out)-1].Screen == i*g.per; turned && !again && len(out) < most {
			out = append(out, g.loop(i))
		}
	}
	return out
}

// firstWithin returns the least i of at least lo for which i*a lies within bound
// of a whole number, and false where there is none of 63 bits.
func firstWithin(a, bound exact.Rat, lo int64) (int64, bool) {
	size := a.Den()
	width := floorOf(bound, size)
	if new(big.Int).Lsh(width, 1).Cmp(new(big.Int).Sub(size, big.NewInt(1))) >= 0 {
		return lo, true // everything is that close
	}
	step := new(big.Int).Mod(a.Num(), size)
	// (lo+y)*step must fall in [-width, width] round the circle of size.
	start := new(big.Int).Mul(step, big.NewInt(lo))
	low := new(big.Int).Sub(new(big.Int).Neg(width), start)
	low.Mod(low, size)
	high := new(big.Int).Add(low, new(big.Int).Lsh(width, 1))
	if high.Cmp(size) >= 0 {
		return lo, true // y = 0 is inside
	}
	y := firstIn(step, size, low, high)
	if y == nil || !y.IsInt64() {
		return 0, false
	}
	i := new(big.Int).Add(y, big.NewInt(lo))
	return i.Int64(), i.IsInt64()
}

// firstIn returns the least y of at least 0 with low <= step*y mod size <= high,
// and nil where there is none; 0 <= step < size, 0 <= low <= high < size. When
// no multiple of step lies inside, some multiple of size must lie as far below
// one of step as the interval says, which is the same question asked of size mod
// step: Euclid's algorithm, halved at each turn by going round the other way.
func firstIn(step, size, low, high *big.Int) *big.Int {
	if low.Sign() == 0 {
		return new(big.Int)
	}
	if step.Sign() == 0 {
		return nil
	}
	if new(big.Int).Lsh(step, 1).Cmp(size) > 0 {
		return firstIn(new(big.Int).Sub(size, step), size, new(big.Int).Sub(size, high), new(big.Int).Sub(size, low))
	}
	y := ceilQuo(low, step)
	if new(big.Int).Mul(y, step).Cmp(high) <= 0 {
		return y
	}
	z := firstIn(new(big.Int).Mod(size, step), step, negMod(high, step), negMod(low, step))
	if z == nil {
		return nil
	}
	return ceilQuo(z.Mul(z, size).Add(z, low), step)
}

func ceilQuo(a, b *big.Int) *big.Int {
	out := new(big.Int).Add(a, b)
	return out.Sub(out, big.NewInt(1)).Quo(out, b)
}

func negMod(a, b *big.Int) *big.Int {
	out := new(big.Int).Neg(a)
	return out.Mod(out, b)
}
