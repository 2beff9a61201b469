package toppath

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/plan/sample/many"
	"seamrail/motion/track"
)

// drawLoop draws keys, holds and axes that do not move at all.
func drawLoop(t *rapid.T) (Loop, []Limit) {
	period := exact.Int(int64(rapid.IntRange(1, 60).Draw(t, "period")))
	n := rapid.IntRange(2, 16).Draw(t, "keys")
	hold := rapid.IntRange(0, n).Draw(t, "the key that all hold at")
	var loop Loop
	var limits []Limit
	for range rapid.IntRange(1, 4).Draw(t, "axes") {
		spec := track.KeysSpec{Advance: exact.Int(int64(rapid.SampledFrom([]int{0, 0, 360}).Draw(t, "advance")))}
		for i := range n {
			k := track.Key{Time: period.Mul(exact.New(int64(i), int64(n))), Pos: float64(rapid.IntRange(0, 30).Draw(t, "place")) * 10}
			if i == hold {
				k.Hold = period.Mul(exact.New(1, int64(2*n)))
			}
			spec.Keys = append(spec.Keys, k)
		}
		axis, err := track.Keys(period, spec)
		require.NoError(t, err)
		speed := float64(rapid.IntRange(1, 300).Draw(t, "speed"))
		acc := speed * rapid.Float64Range(0.3, 20).Draw(t, "acc per speed")
		limit := Limit{speed, acc, acc * rapid.Float64Range(1, 40).Draw(t, "jerk per acc")}
		if rapid.IntRange(0, 4).Draw(t, "no limit of jerk") == 0 {
			limit.Jerk = 0
		}
		loop, limits = append(loop, axis), append(limits, limit)
	}
	return loop, limits
}

// TestProperties: whatever the loop, its limits are kept, the least time is the
// least, and slower axes take no less on the same cells.
func TestProperties(t *testing.T) {
	many.Check(t, 20, func(t *rapid.T) {
		loop, limits := drawLoop(t)
		s, err := New(loop, limits)
		require.NoError(t, err)
		checkLimits(t, s, limits)
		require.GreaterOrEqual(t, s.Seconds(), s.Bound()*(1-2*sameCells))
		one := rapid.IntRange(0, len(limits)-1).Draw(t, "one")
		limits[one].Speed /= 2
		limits[one].Acc /= 4
		require.GreaterOrEqual(t, least(t, loop, limits, s.cells()), s.Bound()*(1-2*sameCells))
	})
}

// TestAPeakBetweenLooks: on this path, which the property test came upon, the second
// axis turns so sharply that its acceleration rose by two thousandths between two of
// the sixteen places at which a cell is looked at.
func TestAPeakBetweenLooks(t *testing.T) {
	period := exact.Int(59)
	places := [][]float64{
		{160, 110, 10, 150, 210, 30, 70, 50, 120, 90, 150, 160, 60},
		{170, 20, 250, 70, 70, 270, 170, 10, 10, 260, 290, 260, 50},
	}
	var loop Loop
	for _, list := range places {
		var spec track.KeysSpec
		for i, pos := range list {
			k := track.Key{Time: period.Mul(exact.New(int64(i), 13)), Pos: pos}
			if i == 8 {
				k.Hold = period.Mul(exact.New(1, 26))
			}
			spec.Keys = append(spec.Keys, k)
		}
		axis, err := track.Keys(period, spec)
		require.NoError(t, err)
		loop = append(loop, axis)
	}
	limits := []Limit{{25, 77.3838850603, 2465.16083}, {145, 117.5243997, 3443.1929}}
	s, err := New(loop, limits)
	require.NoError(t, err)
	checkLimits(t, s, limits)
}
