package spin_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
	"seamrail/motion/turntable/spin"
)

// A table of 3200 steps a turn that turns a seventh in a loop makes 457 1/7
// steps. After ten thousand rounds it stands where it should, to the step, and
// in between it was never off by more than the half step of rounding.
func TestSeventhOfATurnNeverDrifts(t *testing.T) {
	const rounds, perTurn = 10_000, 3200
	r := sample.Bench(rig.InverseTime)
	r.Axes[1].StepsPerUnit = exact.New(perTurn, 360)
	turns := exact.New(1, 7)
	left := spin.RemainderOf(exact.Int(perTurn), turns)
	assert.Equal(t, "3200/7", left.Steps.String())
	assert.EqualValues(t, 457, left.Whole)
	assert.Equal(t, "1/7", left.Part.String())
	assert.EqualValues(t, 7, left.Rounds)

	tr := sample.Make(t, 24, r, sample.Table(t))
	stream := tr.Steps(trajectory.StepOptions{Rounds: rounds})
	round, stands := int64(1), int64(0)
	check := func() {
		ideal := left.Steps.Mul(exact.Int(round))
		off := ideal.Sub(exact.Int(stands)).Abs()
		require.False(t, exact.New(1, 2).Less(off), "round %d: %s off", round, off)
		round++
	}
	const second = 1_000_000_000 // a round, in ns
	for {
		s, more := stream.Next()
		for round < rounds && (!more || s.Nanos >= round*second) {
			check()
		}
		if !more {
			break
		}
		stands = s.Position
	}
	check()
	// 10000/7 turns of 3200 steps are 4571428 4/7.
	assert.EqualValues(t, 4_571_429, stands)
}

func TestRemainders(t *testing.T) {
	for _, c := range []struct {
		turns, steps, part string
		whole, rounds      int64
	}{
		{"1/6", "1600/3", "1/3", 533, 3},
		{"1/8", "400", "0", 400, 1},
		{"-1/7", "-3200/7", "-1/7", -457, 7},
		{"2", "6400", "0", 6400, 1},
	} {
		turns, err := exact.Parse(c.turns)
		require.NoError(t, err)
		got := spin.RemainderOf(exact.Int(3200), turns)
		assert.Equal(t, c.steps, got.Steps.String())
		assert.Equal(t, c.part, got.Part.String())
		assert.Equal(t, c.whole, got.Whole)
		assert.Equal(t, c.rounds, got.Rounds)
	}
}
