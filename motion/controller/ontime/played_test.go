package ontime_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/controller/ontime"
)

// What is played goes where the take goes: out and back, one stretch after the other, in
// the time that is foretold of it.
func TestWhatIsPlayedIsTheTake(t *testing.T) {
	j := job{frames: 96, span: 200, law: "harmonic"}
	tr, c := j.trajectory(t), j.choose(t)
	made, err := ontime.Played(tr, c.Take)
	require.NoError(t, err)
	require.Greater(t, len(made), 100)
	way, far := 0.0, 0.0
	for i, x := range made {
		assert.Greater(t, x.To, x.From)
		if i > 0 {
			assert.GreaterOrEqual(t, x.From, made[i-1].To)
		}
		way += x.Way
		far = max(far, math.Abs(way))
	}
	assert.InDelta(t, 0, way, 1e-9)
	assert.InDelta(t, 200, far, 0.1)
	// It moves for the whole round, but for the slow first step and the last.
	assert.InDelta(t, c.Expected.RoundExecuted, made[len(made)-1].To-made[0].From, 0.1)
}
