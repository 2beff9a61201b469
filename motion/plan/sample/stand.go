package sample

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/plan"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
	"seamrail/motion/turntable/spin"
)

// Display is a rail that goes 60 mm there and back in so many frames at 24 a
// second, and beside it a clockwise display stand of an exactly known period in
// seconds under a product of some faces that look alike.
func Display(t testing.TB, frames int64, period exact.Rat, symmetry int64) *trajectory.Trajectory {
	t.Helper()
	rate := exact.Int(fps)
	c, err := clock.New(rate, rate, exact.Int(1))
	require.NoError(t, err)
	loop, err := c.LoopFrames(frames)
	require.NoError(t, err)
	r := Bench(rig.InverseTime)
	r.Stands = []rig.Stand{{
		Stand: spin.Stand{Name: "display", Speeds: []spin.Speed{{Name: "slow", Period: period}}},
		Bases: []string{"as stated"},
	}}
	p, err := plan.Build(shot.Shot{
		Title: "Fernhollow lantern, no wire", Clock: c, Loop: loop, Axes: []shot.AxisMove{Rail(t, "3-4-5", 60)}, Rounds: 1,
		Spins: []shot.Spin{{Name: "display", Symmetry: symmetry}}, Shortest: rate.Inv(), Longest: loop.OnScreen().Mul(exact.Int(2)),
	}, r)
	require.NoError(t, err)
	return trajectory.New(p)
}
