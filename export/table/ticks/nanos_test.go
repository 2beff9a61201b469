package ticks

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
)

// Counting tick by tick must give what the exact product gives, rounded down,
// from any tick, negative ones too.
func TestNanosNeverDrift(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tick := exact.New(rapid.Int64Range(1, 1000).Draw(t, "n"), rapid.Int64Range(1000, 1_000_003).Draw(t, "d"))
		first := rapid.Int64Range(-100_000, 100_000).Draw(t, "first")
		c := newNanos(tick, first)
		for n := first; n < first+200; n++ {
			want := tick.Mul(exact.Int(n)).Mul(exact.Int(nanosPerSecond)).Floor().Whole()
			require.Equal(t, want, c.whole, "tick %d", n)
			c.advance()
		}
	})
}
