package drive_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/motion/base/exact"
	"seamrail/motion/controller/ontime"
	"seamrail/motion/controller/program"
	"seamrail/motion/move"
	"seamrail/motion/plan/sample"
	"seamrail/motion/spec/rig"
)

const (
	// modelStep is by how many steps the rig of software may be elsewhere than the
	// model that chose the blocks has it: they are two, and where one has just
	// taken a step the other may be about to.
	modelStep = 1
	// timerRound is the longest interval of a 16-bit timer of 16 MHz, in s. Its
	// counter goes on while the rig stands, so that the first interval of a take is
	// shorter by what has gone by, up to a whole one: that depends on what moved
	// before, which the model takes for the way to the start, and shifts all frames
	// alike.
	timerRound = 65536 / 16e6
)

// A rail that rests in each round is told to dwell, for whole grains of the board,
// after which the board works out what waits in its receive buffer before it moves:
// that must not add up over the rounds.
func TestVirtualDwells(t *testing.T) {
	const rounds = 24
	m := sample.Rail(t, "cycloidal", 100)
	m = sample.Ways(m, func(w *move.Ways) { w.DwellFar = exact.New(1, 4) })
	tr := sample.Make(t, 96, bench(rig.Buffered), m)
	c := &tr.Plan().Rig.Controller
	c.Greeting = ""
	require.Equal(t, rig.Buffered.Defaults().DwellGrain, c.DwellGrain)
	require.NotZero(t, c.DwellGrain)
	take := followed(t, tr, rounds)
	source := func() drive.Source { return program.New(tr, take.Take) }
	v := onVirtualWith(t, tr, rounds, source, nil)
	r := v.run()
	require.NoError(t, r.Err(), "%v", v.w.said)
	begins, ends := v.span()
	require.InDelta(t, v.w.passes[0].Planned, ends-begins, 0.001, "first step to last")

	x := take.Expected
	begun := ends - x.Executed
	require.InDelta(t, begins, begun, timerRound)
	worst, step := v.worst(rounds, begun), modelStep/tr.Axis(0).StepsPerUnit.Float()
	t.Logf("%.6f s of %.6f foretold; %.4f mm off, %.4f foretold", ends-begins, x.Executed, worst, x.Axes[0].Worst)
	require.InDelta(t, math.Abs(x.Axes[0].Worst), worst, step, "as foretold")
	require.Less(t, worst, ontime.PromisedDistance+step, "mm, at every captured frame")
}

// A take may begin at rest: its first line is answered when that is over, and it
// began when that did.
func TestATakeThatBeginsAtRest(t *testing.T) {
	for _, kind := range []rig.ControllerKind{rig.Buffered, rig.Lockstep} {
		m := sample.Rail(t, "cycloidal", 100)
		m = sample.Ways(m, func(w *move.Ways) { w.DwellFar, w.DwellNear, w.Phase = exact.Int(0), exact.Int(4), exact.New(4, 5) })
		tr := sample.Make(t, 240, bench(kind), m)
		tr.Plan().Rig.Controller.Greeting = ""
		c, err := ontime.Choose(tr, 2)
		require.NoError(t, err)
		require.True(t, c.Take.Round[0].Rest)
		require.Greater(t, c.Take.Round[0].Seconds.Float(), 1.)
		source := func() drive.Source { return program.New(tr, c.Take) }
		v := onVirtualWith(t, tr, 2, source, nil)
		r := v.run()
		require.NoError(t, r.Err(), "%v: %v", kind, v.w.said)
		require.Equal(t, drive.Finished, v.w.passes[0].End)
	}
}
