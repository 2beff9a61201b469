package spin

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
)

// The wagon wheel of every textbook on sampling, at 24 pictures a second: a
// wheel of twelve spokes at two turns a second moves on by exactly one spoke a
// picture and stands; at 1.9 it falls behind by a twentieth of a spoke; at one
// turn a second it moves by half a spoke and neither goes on nor back.
func TestStrobeOfAWagonWheel(t *testing.T) {
	at := func(turnsASecond exact.Rat) Strobe { return StrobeOf(turnsASecond.Inv(), exact.Int(24), 12) }
	still := at(exact.Int(2))
	assert.True(t, still.Stands())
	assert.False(t, still.Backwards())
	back := at(exact.New(19, 10))
	assert.True(t, back.Backwards())
	assert.Equal(t, "-1/240", back.Apparent.String()) // 1.9/24 - 1/12, by hand
	half := at(exact.Int(1))
	assert.Equal(t, "1/24", half.Apparent.String(), "the tie goes forward")
	assert.Equal(t, "1", half.Reversal.String())
	assert.Equal(t, "1/2", half.Still.String())
	assert.Equal(t, "24", half.Slowest.String())
}

// The apparent turn is the alias of the true one: a signal of k f cycles a
// second sampled at rate R looks like k f - R round(k f/R) (Shannon 1949), and
// the eye finds it by looking for the nearest alike face.
func TestStrobeIsTheNearestFace(t *testing.T) {
	backwards := 0
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.Int64Range(1, 24).Draw(t, "k")
		period := exact.New(rapid.Int64Range(1, 3000).Draw(t, "period"), rapid.Int64Range(1, 100).Draw(t, "den"))
		rate := exact.New(rapid.Int64Range(1, 240).Draw(t, "rate"), rapid.Int64Range(1, 10).Draw(t, "per"))
		s := StrobeOf(period, rate, k)
		// Look round the wheel: where is the alike face nearest to the old place?
		turn := s.True.Frac().Float()
		nearest := math.Inf(1)
		for face := -k; face <= k; face++ {
			if off := turn + float64(face)/float64(k); math.Abs(off) < math.Abs(nearest)-1e-12 {
				nearest = off
			}
		}
		assert.InDelta(t, math.Abs(nearest), s.Apparent.Abs().Float(), 1e-12)
		signal := float64(k) / period.Float()
		alias := signal - rate.Float()*math.RoundToEven(signal/rate.Float())
		assert.InDelta(t, math.Abs(alias), s.Apparent.Abs().Float()*float64(k)*rate.Float(), 1e-6*signal)
		half := exact.New(1, 2*k)
		assert.False(t, half.Less(s.Apparent))
		assert.True(t, half.Neg().Less(s.Apparent))
		if s.Backwards() {
			backwards++
			assert.True(t, period.Less(s.Reversal), "slower than the reversal it goes forward")
			assert.True(t, rate.Less(s.Slowest))
		}
	})
	assert.Positive(t, backwards)
}

func TestStrobeRefusesNothing(t *testing.T) {
	assert.Panics(t, func() { StrobeOf(exact.Rat{}, exact.Int(24), 1) })
	assert.Panics(t, func() { StrobeOf(exact.Int(1), exact.Int(24), 0) })
}
