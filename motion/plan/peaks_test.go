package plan

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/track"
)

// TestThePeaksOfARamp are the greatest of what is seen instant by instant, inside too: a
// ramp that backs is furthest where it turns, one that is told to slow down as it arrives
// is faster on the way, and one that may not jerk pushes hardest in between.
func TestThePeaksOfARamp(t *testing.T) {
	inside := map[string]int{}
	rapid.Check(t, func(rt *rapid.T) {
		seam := track.State{Pos: rapid.Float64Range(-100, 100).Draw(rt, "pos"), Vel: rapid.Float64Range(-100, 100).Draw(rt, "vel"), Acc: rapid.Float64Range(-900, 900).Draw(rt, "acc")}
		length := exact.New(rapid.Int64Range(1, 200).Draw(rt, "frames"), 120)
		for _, r := range []*Ramp{newRunUp(seam, length), newRunOut(seam, length)} {
			lo, hi, speed, acc, jerk := r.peaks()
			const looks = 2000
			low, high, fast, hard, sharp := math.Inf(1), math.Inf(-1), 0.0, 0.0, 0.0
			for k := range looks + 1 {
				s := r.At(r.Length() * float64(k) / looks)
				low, high = math.Min(low, s.Pos), math.Max(high, s.Pos)
				fast, hard, sharp = math.Max(fast, math.Abs(s.Vel)), math.Max(hard, math.Abs(s.Acc)), math.Max(sharp, math.Abs(s.Jerk))
			}
			// Beside an extreme a look is off by half of its bend over a step squared.
			step := r.Length() / looks
			require.InDelta(rt, low, lo, 1e-9+hard*step*step)
			require.InDelta(rt, high, hi, 1e-9+hard*step*step)
			require.InDelta(rt, fast, speed, 1e-9+sharp*step*step)
			require.InDelta(rt, hard, acc, 1e-9+24*(math.Abs(seam.Vel)/r.Length()+math.Abs(seam.Acc))/looks/looks)
			require.InDelta(rt, sharp, jerk, 1e-6*sharp)
			require.Equal(rt, acc, r.Peak())
			ends := [2]track.State{r.At(0), r.At(r.Length())}
			for what, is := range map[string]bool{
				"place": lo < math.Min(ends[0].Pos, ends[1].Pos)-1e-6 || hi > math.Max(ends[0].Pos, ends[1].Pos)+1e-6,
				"speed": speed > math.Abs(seam.Vel)+1e-6, "push": acc > math.Abs(seam.Acc)+1e-6,
			} {
				if is {
					inside[what]++
				}
			}
		}
	})
	for _, what := range []string{"place", "speed", "push"} {
		assert.Positive(t, inside[what], "some are greatest inside in %s", what)
	}
}
