package alike_test

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/footage"
	"seamrail/motion/footage/alike"
	"seamrail/motion/plan/sample/many"
)

// A round there and back, begun while it moves: of all its frames it goes on, with one too few or
// too many, or another light at its end, it does not.
func TestARoundIsALoopAsAWhole(t *testing.T) {
	r := rand.New(rand.NewPCG(61, 62))
	for i := range many.Times(40, 400) {
		noise, far, seed, period := 0.01*r.Float64(), 15+15*r.Float64(), r.Uint64(), 40+r.IntN(40)
		at := func(k int) float64 { return far * (1 - math.Sin(2*math.Pi*float64(k)/float64(period))) / 2 }
		whole := func(frames int, brighter float32) alike.Whole {
			draw := pan(seed, noise, at)
			s := collect(t, 24, 14, frames, func(k int, g footage.Gray) {
				draw(k, g)
				for n := range g.Pix {
					g.Pix[n] += brighter * float32(k) / float32(frames)
				}
			})
			w, ok, err := s.AsAWhole(t.Context())
			require.NoError(t, err)
			require.True(t, ok)
			return w
		}
		assert.True(t, whole(period, 0).Unseen(), "take %d: %+v, noise %g, %g px in %d frames", i, whole(period, 0), noise, far, period)
		for _, off := range []int{-3, 3} {
			assert.False(t, whole(period+off, 0).Unseen(), "take %d by %d: %+v", i, off, whole(period+off, 0))
		}
		lit := whole(period, 0.1)
		assert.False(t, lit.Unseen(), "take %d: %+v", i, lit)
		assert.InDelta(t, -0.1, lit.Light, 0.01)
	}
}

// One frame too few is seen where there is no noise.
func TestOneFrameTooFewIsSeen(t *testing.T) {
	for _, period := range []int{40, 60, 80} {
		at := func(k int) float64 { return 20 * (1 - math.Sin(2*math.Pi*float64(k)/float64(period))) / 2 }
		for off, unseen := range map[int]bool{-1: false, 0: true, 1: false} {
			w, _, err := collect(t, 24, 14, period+off, pan(7, 0, at)).AsAWhole(t.Context())
			require.NoError(t, err)
			assert.Equal(t, unseen, w.Unseen(), "%d of %d: %+v", period+off, period, w)
			assert.Equal(t, off == 1, w.Twice, "%d of %d: %+v", period+off, period, w)
		}
	}
}

func TestTooShortAWhole(t *testing.T) {
	s := collect(t, 24, 14, 11, pan(7, 0, func(k int) float64 { return float64(k) }))
	_, ok, err := s.AsAWhole(t.Context())
	require.NoError(t, err)
	assert.False(t, ok)
	ctx, end := context.WithCancel(t.Context())
	end()
	_, _, err = collect(t, 24, 14, 600, pan(7, 0, func(k int) float64 { return float64(k) })).AsAWhole(ctx)
	assert.ErrorIs(t, err, context.Canceled)
}
