package against

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/plan/sample/many"
)

func laidOut(t require.TestingT, p Plan, k taking) Result {
	r, err := Lay(k.film(p), p)
	require.NoError(t, err)
	return r
}

// Without noise frame 0 is found to a hundredth of a frame, wherever it is.
func TestFrameZeroOfACleanTake(t *testing.T) {
	many.Check(t, 4, func(t *rapid.T) {
		p, k := fern()
		k.zero, k.noise = rapid.Float64Range(-200, 60).Draw(t, "zero"), 0
		r := laidOut(t, p, k)
		assert.InDelta(t, k.zero, r.Frame0.Value, 0.01)
		assert.True(t, r.Frame0.Known, "others %v", r.Frame0.Others)
	})
}

// With noise of half a pixel, a fifth of all frames far off, a hand before the lens for a second
// and frames of which nothing is known, it is found to half a frame; here to far less.
func TestFrameZeroOfABadTake(t *testing.T) {
	for seed := range uint64(many.Times(4, 100)) {
		p, k := fern()
		k.noise, k.outlier, k.hidden, k.lost, k.seed = 0.5, 0.2, [2]int{200, 224}, 0.05, seed
		k.zero = 20 + float64(seed)/7
		r := laidOut(t, p, k)
		assert.InDelta(t, k.zero, r.Frame0.Value, 0.1, "seed %d", seed)
		assert.Equal(t, NotKnown, r.Verdict.Kind, r.Verdict.Text)
		assert.Greater(t, r.Compared.Unknown, 24)
		assert.InDelta(t, 0.2*466, r.Alone, 40)
	}
}

// What is said of the uncertainty is so: in a hundred takes the errors are as large as it says.
func TestUncertainties(t *testing.T) {
	n := many.Times(10, 200)
	zero, gain, late := 0.0, 0.0, 0.0
	for seed := range uint64(n) {
		p, k := fern()
		k.noise, k.seed = 0.2, 100+seed
		r := laidOut(t, p, k)
		square := func(is, want float64, u float64) float64 { return (is - want) * (is - want) / (u * u) }
		zero += square(r.Frame0.Value, k.zero, r.Frame0.Sure)
		gain += square(r.Axes[0].Gain.X, 8, r.Axes[0].Doubt.X)
		late += square(r.Rounds[2].Late.Value, 0, r.Rounds[2].Late.Sure)
	}
	for name, sum := range map[string]float64{"zero": zero, "gain": gain, "late": late} {
		size := math.Sqrt(sum / float64(n))
		assert.Greater(t, size, 0.6, name)
		assert.Less(t, size, 1.5, name)
	}
}

// Rounds that are all alike, filmed without a beginning or an end: any of them may be the first.
func TestRoundsThatAreAlike(t *testing.T) {
	p, k := fern()
	p.RunUp, p.RunOut, p.Rounds = 0, 0, 4
	k.zero, k.frames = -150, 280
	r := laidOut(t, p, k)
	assert.False(t, r.Frame0.Known)
	require.NotEmpty(t, r.Frame0.Others)
	assert.Contains(t, r.Verdict.Text, "or as well at", "whatever else is said")
	for _, o := range append(r.Frame0.Others, r.Frame0.Number) {
		rounds := (o.Value - k.zero) / 144
		assert.InDelta(t, math.Round(rounds), rounds, 0.01, "%v", o)
	}
}

// An even move that was filmed without its ends says how fast it goes, and not which frame it is.
func TestAnEvenMove(t *testing.T) {
	p, k := fern()
	p.Axes[0].At = func(s float64) float64 { return 2 * s }
	p.Axes[0].Gain, p.Rounds, p.RunUp, p.RunOut = nil, 3, 0, 0
	k.zero, k.frames = -100, 200
	r := laidOut(t, p, k)
	assert.False(t, r.Frame0.Known)
	assert.Equal(t, NotKnown, r.Verdict.Kind, r.Verdict.Text)
	assert.Contains(t, r.Verdict.Text, "too even to tell")
}

// Of rounds that are alike the one is told whose frame 0 was recorded, and 0 has no sign.
func TestTheRoundThatWasRecorded(t *testing.T) {
	p, k := fern()
	p.RunUp, p.RunOut = 0, 0
	k.zero, k.frames = -144, 144
	r := laidOut(t, p, k)
	assert.Equal(t, IsPlan, r.Verdict.Kind, show(r))
	assert.InDelta(t, 0, r.Frame0.Value, 0.01)
	assert.Contains(t, r.Verdict.Text, "frame 0 may be at frame 0.0, or as well at -")
	assert.Equal(t, "-0.1 0.0 0.0 0.1", fmt.Sprintf("%.1f %.1f %.1f %.1f", tenth(-0.06), tenth(-0.04), tenth(0.04), tenth(0.06)))
}
