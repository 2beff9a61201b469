package sample

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/unit"
	"seamrail/motion/law"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

const fps = 24

// Still is a loop of one second in which the rail goes 2 mm there and back
// with a dwell and rests at the seam.
func Still(t testing.TB) *trajectory.Trajectory {
	return Make(t, fps, Bench(rig.InverseTime), Rail(t, "3-4-5", 2))
}

// Through is Still with a table that turns a seventh in the loop and passes
// the seam at speed.
func Through(t testing.TB) *trajectory.Trajectory { return With(t, rig.InverseTime) }

// With is Through for a controller with the given feed style.
func With(t testing.TB, feed rig.FeedStyle) *trajectory.Trajectory {
	return Make(t, fps, Bench(feed), Rail(t, "3-4-5", 2), Table(t))
}

// Make plans moves on r in a loop of so many frames at 24 a second.
func Make(t testing.TB, frames int64, r rig.Rig, moves ...shot.AxisMove) *trajectory.Trajectory {
	t.Helper()
	return at(t, exact.Int(fps), frames, r, moves)
}

// Long is Through at 24000/1001 frames a second, 2400 of them.
func Long(t testing.TB) *trajectory.Trajectory {
	t.Helper()
	moves := []shot.AxisMove{Rail(t, "3-4-5", 2), Table(t)}
	return at(t, exact.New(24000, 1001), 2400, Bench(rig.InverseTime), moves)
}

func at(t testing.TB, rate exact.Rat, frames int64, r rig.Rig, moves []shot.AxisMove) *trajectory.Trajectory {
	t.Helper()
	c, err := clock.New(rate, rate, exact.Int(1))
	require.NoError(t, err)
	loop, err := c.LoopFrames(frames)
	require.NoError(t, err)
	labels, err := clock.NewTimecode(c.Playback, false)
	require.NoError(t, err)
	p, err := plan.Build(shot.Shot{
		Title: "Fernhollow lantern (six panes), test", Clock: c, Loop: loop, Axes: moves,
		Rounds: 2, Handles: 2, Timecode: labels, Start: 3600 * fps,
	}, r)
	require.NoError(t, err)
	return trajectory.New(p)
}

// Rail goes from 40 mm so many mm on and back, and rests an eighth of a second
// at the far end.
func Rail(t testing.TB, name string, span int64) shot.AxisMove {
	l := named(t, name)
	return shot.AxisMove{Name: "rail", Does: move.ThereAndBack{Ways: move.Ways{
		From: mm(40), To: mm(40 + span), Out: l, Back: l,
		Cycles: 1, OutShare: exact.New(1, 2), DwellFar: exact.New(1, 8),
	}}}
}

// Table turns a seventh in the loop at constant speed.
func Table(t testing.TB) shot.AxisMove {
	return shot.AxisMove{Name: "table", Does: move.Turn{Turns: exact.New(1, 7), Start: unit.Quantity{Dim: unit.Angle}, Law: named(t, "uniform")}}
}

func mm(n int64) unit.Quantity { return unit.Quantity{Value: exact.Int(n), Dim: unit.Length} }

func named(t testing.TB, name string) law.Law {
	l, err := law.Named(name)
	require.NoError(t, err)
	return l
}

// Bench is a rail X with 80 steps/mm and an endless table A with 10 steps a
// degree.
func Bench(feed rig.FeedStyle) rig.Rig {
	return rig.Rig{
		Name: "Test bench",
		Axes: []rig.Axis{
			{
				Name: "rail", Letter: "X", Max: 400, MaxSpeed: 400, MaxAcc: 3000, MaxJerk: 60000,
				StepsPerUnit: exact.Int(80), Mechanics: "80 steps per mm",
			},
			{
				Name: "table", Kind: rig.Rotary, Letter: "A", Endless: true, MaxSpeed: 180, MaxAcc: 720,
				StepsPerUnit: exact.Int(10), Mechanics: "10 steps per deg",
			},
		},
		Controller: rig.Controller{StepRate: 40000, Feed: feed, LineLength: 80, Decimals: 3},
		Cautions:   []string{"The table's belt slips above 200 deg/s! Keep hands off (really)."},
	}
}

// Ways returns an axis that goes there and back with other ways.
func Ways(m shot.AxisMove, change func(*move.Ways)) shot.AxisMove {
	s := m.Does.(move.Shuttle)
	w := s.Going()
	change(&w)
	return m.Doing(s.WithWays(w))
}

// Turning returns an axis that turns by so many turns in the loop.
func Turning(m shot.AxisMove, turns exact.Rat) shot.AxisMove {
	t := m.Does.(move.Turn)
	t.Turns = turns
	return m.Doing(t)
}
