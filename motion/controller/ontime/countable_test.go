package ontime_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/controller/ontime"
	"seamrail/motion/plan/sample/many"
	"seamrail/motion/spec/rig"
)

// A table that gains 60 degrees a round at 160 steps a degree can be counted with
// 24 bits up to 32 768 degrees, from where on numbers are more than half a step apart.
// More rounds are refused, with how many would do, and those do; a controller
// with more bits takes them all, as does a rail that comes back, and a table that is
// not geared down.
func TestRoundsThatCanBeCounted(t *testing.T) {
	many.Long(t)
	turning := func(single bool, turns, steps exact.Rat) job {
		return job{frames: 96, span: 100, law: "3-4-5", turns: turns, change: func(r *rig.Rig) {
			r.Controller.SinglePrecision = single
			r.Axes[1].StepsPerUnit = steps
		}}
	}
	sixth, geared, direct := exact.New(1, 6), exact.Int(160), exact.New(6400, 360)
	tr := turning(true, sixth, geared).trajectory(t)
	c, err := ontime.Choose(tr, 10_000)
	require.NoError(t, err)
	require.False(t, c.Expected.Follows())
	require.ErrorContains(t, c.Expected.Faults.Err(), "axis table: rounds 10000 count further up than numbers of 24 bits tell steps well apart; takes of 546 rounds would do")
	require.Equal(t, []fault.Edit{{Path: "take.rounds", Text: "546"}}, c.Expected.Faults[0].Edits)
	for _, some := range []struct {
		j      job
		rounds int64
	}{
		{turning(true, sixth, geared), 546},
		{turning(true, exact.New(1, 20), direct), 10_000}, // 6400 steps a turn, 180 000 degrees in all
		{turning(false, sixth, geared), 10_000},
		{turning(true, exact.Rat{}, geared), 10_000},
	} {
		c, err = ontime.Choose(some.j.trajectory(t), some.rounds)
		require.NoError(t, err)
		require.True(t, c.Expected.Follows(), "%d: %+v", some.rounds, c.Expected)
		require.Equal(t, some.rounds, c.Expected.Ran, "to its last line")
	}
}
