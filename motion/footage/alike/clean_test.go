package alike_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/footage"
	"seamrail/motion/footage/alike"
	"seamrail/motion/plan/sample/many"
)

// pan draws lights that go by, of a band without end; noise is that of a pixel.
func pan(seed uint64, noise float64, at func(k int) float64) func(k int, g footage.Gray) {
	r := rand.New(rand.NewPCG(seed, 8))
	type spot struct{ x, y, radius, light float64 }
	var band []spot
	for x := -20.0; x < 400; x += 3 + 6*r.Float64() {
		band = append(band, spot{x, 14 * r.Float64(), 2 + 2*r.Float64(), 0.2 + 0.5*r.Float64()})
	}
	return func(k int, g footage.Gray) {
		for i := range g.Pix {
			g.Pix[i] = 0.1
		}
		for _, s := range band {
			if x := s.x - at(k); x > -9 && x < float64(g.Width)+9 {
				blob(g, x, s.y, s.radius, s.light)
			}
		}
		grain(g, r, noise)
	}
}

// No loop is told unseen in takes that never come back, whatever their noise, up to a pace at
// which the picture is crossed within a second.
func TestTakesWithoutALoopHaveNone(t *testing.T) {
	r := rand.New(rand.NewPCG(41, 42))
	for i := range many.Times(200, 2000) {
		noise, speed, seed := 0.03*r.Float64(), 0.2+r.Float64(), r.Uint64()
		s := collect(t, 24, 14, 60+r.IntN(60), pan(seed, noise, func(k int) float64 { return speed * float64(k) }))
		f, err := alike.Best(t.Context(), s, alike.Range{Min: 24, Max: 110, Top: 1})
		require.NoError(t, err)
		assert.False(t, f.Any(), "take %d: %+v of %+v, noise %g, %g px a frame", i, f.Runs[0].Seam, f.Bound, noise, speed)
		assert.Positive(t, f.Runs[0].Dissolve)
	}
}

// A move there and back, twice, eased: the second pass is the loop, at any noise.
func TestTakesWithALoopHaveIt(t *testing.T) {
	r := rand.New(rand.NewPCG(51, 52))
	for i := range many.Times(50, 500) {
		noise, far, seed := 0.03*r.Float64(), 10+20*r.Float64(), r.Uint64()
		period := 40 + r.IntN(20)
		at := func(k int) float64 { return far * (1 - math.Cos(2*math.Pi*float64(k)/float64(period))) / 2 }
		s := collect(t, 24, 14, 2*period+r.IntN(30), pan(seed, noise, at))
		f, err := alike.Best(t.Context(), s, alike.Range{Min: 30, Max: 70, Top: 1})
		require.NoError(t, err)
		assert.True(t, f.Any(), "take %d: %+v of %+v, noise %g, %g px", i, f.Runs[0].Seam, f.Bound, noise, far)
		// What jumps is less than an ordinary step, which is at most that of the middle.
		best := f.Runs[0].Pair
		assert.InDelta(t, at(best.Last()), at(best.First), math.Pi*far/float64(period)/2, "take %d: %+v", i, best)
		assert.InDelta(t, period, best.Length, 6, "take %d", i)
		assert.Zero(t, f.Runs[0].Dissolve)
	}
}
