package root_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/root"
)

// Where a step lies, to the last bit, to so much, or by so many halvings.
func TestBisect(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.Float64Range(-50, 50).Draw(t, "at")
		looks := 0
		early := func(x float64) bool { looks++; return x < at }
		lo, hi := root.Bisect(-100, 100, 2000, 0, early)
		require.Less(t, lo, at)
		require.GreaterOrEqual(t, hi, at)
		require.Equal(t, hi, math.Nextafter(lo, 200), "no float lies between")
		lo, hi = root.Bisect(-100, 100, 2000, 1e-3, early)
		require.True(t, lo < at && at <= hi && hi-lo <= 1e-3 && hi-lo > 1e-4)
		looks = 0
		lo, hi = root.Bisect(-100, 100, 5, 0, early)
		require.Equal(t, 5, looks)
		require.InDelta(t, 200./32, hi-lo, 1e-12)
	})
}

func TestWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.IntRange(1, 999).Draw(t, "at")
		assert.Equal(t, at, root.Whole(0, 1000, func(n int) bool { return n >= at }))
		assert.Equal(t, at, root.Whole(1000, 0, func(n int) bool { return n <= at }))
	})
}

// A top that is not even on both sides, and how many looks it takes: one a cut.
func TestGolden(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.Float64Range(0.01, 0.99).Draw(t, "at")
		looks := 0
		top := func(x float64) float64 {
			looks++
			if x < at {
				return -3 * (x - at) * (x - at)
			}
			return at - x
		}
		require.InDelta(t, at, root.Golden(0, 1, 100, 1e-8, top), 1e-8)
		require.InDelta(t, math.Log(1e8)/math.Log(1.618), looks-2, 1)
		looks = 0
		root.Golden(0, 1, 10, 0, top)
		require.Equal(t, 12, looks)
	})
}
