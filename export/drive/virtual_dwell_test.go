package drive_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/motion/exact"
	"seamrail/motion/rig"
	"seamrail/motion/sample"
)

// A rail that rests in each round is told to dwell, after which the board works
// out what waits in its receive buffer before it moves: that must not add up
// over the rounds. The board here dwells for as long as it is told.
func TestVirtualDwells(t *testing.T) {
	const rounds = 24
	m := sample.Rail(t, "cycloidal", 100)
	m.DwellFar = exact.New(1, 4)
	tr := sample.Make(t, 96, bench(rig.Buffered), m)
	tr.Plan().Rig.Controller.Greeting, tr.Plan().Rig.Controller.DwellGrain = "", 0
	v := onVirtual(t, tr, rounds, nil)
	r := v.run()
	require.NoError(t, r.Err(), "%v", v.w.said)
	begins, ends := v.span()
	require.InDelta(t, v.w.passes[0].Planned, ends-begins, 0.001, "first step to last")
	require.Less(t, v.worst(rounds, begins), 0.05, "mm, at every captured frame")
}
