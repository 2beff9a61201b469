package ticks

import "seamrail/motion/base/exact"

const nanosPerSecond = 1_000_000_000

// nanos counts ticks in whole nanoseconds, rounded down, with the remainder
// carried as a fraction of integers, so that it never drifts.
type nanos struct {
	whole        int64
	part, den    int64 // whole + part/den is exact, 0 <= part < den
	step, excess int64 // a tick is step + excess/den
}

// newNanos starts at tick n. The tick must have passed countable.
func newNanos(tick exact.Rat, n int64) nanos {
	each := tick.Mul(exact.Int(nanosPerSecond))
	den := exact.Int(each.Den().Int64())
	at := each.Mul(exact.Int(n))
	return nanos{
		whole: at.Floor().Whole(), part: at.Frac().Mul(den).Whole(), den: den.Whole(),
		step: each.Floor().Whole(), excess: each.Frac().Mul(den).Whole(),
	}
}

// maxBits keeps the sum of two remainders inside 63 bits.
const maxBits = 62

// countable tells whether the tick's fraction of a nanosecond has a
// denominator that fits.
func countable(tick exact.Rat) bool {
	return tick.Mul(exact.Int(nanosPerSecond)).Den().BitLen() <= maxBits
}

func (c *nanos) advance() {
	c.whole += c.step
	c.part += c.excess
	if c.part >= c.den {
		c.part -= c.den
		c.whole++
	}
}
