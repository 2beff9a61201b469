package preview_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/plot/preview"
)

// fcTL has two numbers of 16 bits (W3C PNG, third edition). Worked out by hand.
func TestDelays(t *testing.T) {
	for _, c := range []struct {
		seconds  string
		num, den uint16
		off      float64
	}{
		{"1001/24000", 1001, 24000, 0},
		{"1001/30000", 1001, 30000, 0},
		{"1001/60000", 1001, 60000, 0},
		{"1/24", 1, 24, 0},
		{"1/25", 1, 25, 0},
		{"2", 2, 1, 0},
		{"65535", 65535, 1, 0},
		{"1/65535", 1, 65535, 0},
		{"1001/120000", 342, 40999, 2e-10},
		{"100000/3", 33333, 1, 1.0 / 3},
	} {
		d, err := preview.NewDelay(rat(t, c.seconds))
		require.NoError(t, err)
		assert.Equal(t, [2]uint16{c.num, c.den}, [2]uint16{d.Num, d.Den}, c.seconds)
		assert.InDelta(t, c.off, d.Off.Abs().Float(), 0.05e-9, c.seconds)
		assert.Equal(t, c.off == 0, d.Off.Sign() == 0)
	}
}

func TestDelaysThatNoPNGHolds(t *testing.T) {
	for _, s := range []string{"65536", "1/65536", "0", "-1"} {
		_, err := preview.NewDelay(rat(t, s))
		assert.ErrorContains(t, err, "1/65535 to 65535 s fit", s)
	}
}

// No other fraction of 16 bits is nearer.
func TestDelayIsTheNearest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		num, den := rapid.Int64Range(1, 5_000_000).Draw(t, "num"), rapid.Int64Range(1, 5_000_000).Draw(t, "den")
		sec := exact.New(num, den)
		d, err := preview.NewDelay(sec)
		if err != nil {
			t.Skip()
		}
		off := d.Off.Abs()
		require.True(t, d.Off.Equal(exact.New(int64(d.Num), int64(d.Den)).Sub(sec)))
		for range 200 {
			// The nearest numerator to some denominator, in whole numbers.
			other := rapid.Int64Range(1, 65535).Draw(t, "other")
			n := min((2*num*other+den)/(2*den), 65535)
			assert.False(t, exact.New(n, other).Sub(sec).Abs().Less(off), "%d/%d is nearer to %s than %d/%d", n, other, sec, d.Num, d.Den)
		}
	})
}
