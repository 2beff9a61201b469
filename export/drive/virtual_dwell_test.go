package drive_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/motion/exact"
	"seamrail/motion/rig"
	"seamrail/motion/sample"
)

// dwellStray is how far off it may be in mm, at any captured frame: the 1.8 ms
// are made up for over the whole round, at 40 mm/s and more.
const dwellStray = 0.08

// A rail that rests in each round is told to dwell, after which the board works
// out what waits in its receive buffer before it moves: that must not add up
// over the rounds.
func TestVirtualDwells(t *testing.T) {
	const rounds = 24
	m := sample.Rail(t, "cycloidal", 100)
	m.DwellFar = exact.New(1, 4)
	tr := sample.Make(t, 96, bench(rig.Buffered), m)
	tr.Plan().Rig.Controller.Greeting = ""
	v := onVirtual(t, tr, rounds, nil)
	r := v.run()
	require.NoError(t, r.Err(), "%v", v.w.said)
	begins, ends := v.span()
	require.InDelta(t, v.w.passes[0].Planned, ends-begins, 0.001, "first step to last")
	require.Less(t, v.worst(rounds, begins), dwellStray, "mm, at every captured frame")
}
