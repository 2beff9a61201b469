package track

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
)

// The slow search and the quick one, which share only the solving of a system,
// end at the same places.
func TestWalkingAndGuessingAgree(t *testing.T) {
	agreed := 0
	rapid.Check(t, func(t *rapid.T) {
		spec := KeysSpec{}
		for i := range rapid.IntRange(2, 9).Draw(t, "keys") {
			k := Key{Time: exact.Int(int64(i)), Pos: rapid.Float64Range(-50, 50).Draw(t, "pos")}
			k.Within = rapid.SampledFrom([]float64{0, 1, 5, 40}).Draw(t, "within")
			spec.Keys = append(spec.Keys, k)
		}
		spec.Keys[0].Within = 0
		period := exact.Int(int64(len(spec.Keys)))
		quick, slow := newKeySpline(period, spec), newKeySpline(period, spec)
		at, count := make([]float64, len(quick.knots)), 0
		for i, k := range quick.knots {
			if k.within > 0 {
				at[i], count = math.NaN(), count+1
			}
		}
		done, err := quick.guess(append([]float64(nil), at...))
		require.NoError(t, err)
		require.NoError(t, slow.walk(at, maxWalks*max(1, count)))
		if !done {
			return
		}
		agreed++
		for i := range quick.knots {
			assert.InDelta(t, quick.knots[i].off, slow.knots[i].off, 1e-6*max(1, quick.knots[i].within))
			assert.InDelta(t, quick.knots[i].vel, slow.knots[i].vel, 1e-4)
		}
	})
	assert.Positive(t, agreed)
}
