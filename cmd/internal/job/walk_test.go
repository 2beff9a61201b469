package job

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A walk is ten times as slow as a take, and no longer than a hand stays on the stop; it
// keeps to a tenth of every speed.
func TestHowSlowlyAPlanIsWalkedThrough(t *testing.T) {
	for loop, want := range map[string]string{"6 s": "10 times as slowly as a take", "90 s": "3.3 times as slowly as a take",
		"450 s": "1.5 times as fast as a take"} {
		j := made(t, Source{Over: []Value{{Key: "clock.loop", Text: loop}}})
		w, err := j.Walk()
		require.NoError(t, err, loop)
		assert.Equal(t, want, w.Words(), loop)
		assert.True(t, w.Chosen.Expected.Follows())
		assert.LessOrEqual(t, w.Trajectory.TakeTime(1).Float(), 1.05*walkSeconds)
		for _, a := range w.Trajectory.Plan().Axes {
			assert.LessOrEqual(t, math.Abs(a.Extremes.Speed.Value), walkShare*a.Rig.MaxSpeed*(1+1e-9))
			assert.LessOrEqual(t, math.Abs(a.Extremes.Acc.Value), a.Rig.MaxAcc*(1+1e-9))
		}
	}
}

func TestTidy(t *testing.T) {
	for in, want := range map[float64]string{10: "10", 9.96: "10", 4.501: "4.6", 0.0123: "0.013", 1: "1", 123: "130", 0.1: "0.1"} {
		assert.Equal(t, want, tidy(in).Decimal(4), "%g", in)
		assert.GreaterOrEqual(t, tidy(in).Float(), in*(1-1e-9))
	}
}

// Into the lantern nobody goes by single axes; what is not known of a way is said.
func TestWay(t *testing.T) {
	j := made(t, Source{})
	axes, words, err := j.Way([]float64{0, 0}, []float64{70, 30})
	require.NoError(t, err)
	assert.Equal(t, []int{0, 1}, axes)
	assert.Empty(t, words)
	_, _, err = j.Way([]float64{40, 0}, []float64{420, 30})
	assert.ErrorContains(t, err, "in whatever order the axes go there, the lens strikes what the product turns through")
	bare := made(t, Source{Over: typed("from=20 mm", "to=90 mm")})
	axes, words, err = bare.Way([]float64{0}, []float64{70})
	require.NoError(t, err)
	assert.Equal(t, []int{0}, axes)
	assert.Empty(t, words, "nothing is said of what nobody described")
}
