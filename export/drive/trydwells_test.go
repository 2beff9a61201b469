package drive_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/export/drive/virtual"
	"seamrail/motion/base/exact"
	"seamrail/motion/move"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/sample/many"
	"seamrail/motion/spec/rig"
)

// resting is a run of a rail that rests by dwells of less than a grain more than
// some, on a board with another grain than the rig file has.
func resting(t testing.TB, kind rig.ControllerKind, file, board float64) *machine {
	m := sample.Rail(t, "cycloidal", 40)
	m = sample.Ways(m, func(w *move.Ways) { w.DwellFar, w.DwellNear = exact.Int(0), exact.New(1, 3) })
	tr := sample.Make(t, 96, bench(kind), m)
	c := &tr.Plan().Rig.Controller
	c.Greeting, c.DwellGrain, c.IdleDelay, c.IdleStated = "", file, 0, true
	return onVirtual(t, tr, 2, func(o *virtual.Options) { o.DwellGrain = board })
}

// Dwells that do not last as the rig file has it are found before the take, with
// what the rig file should say.
func TestDwellsAreTried(t *testing.T) {
	many.Long(t)
	for _, kind := range []rig.ControllerKind{rig.Buffered, rig.Lockstep} {
		for _, c := range []struct {
			file, board float64
			said        string // nothing: it runs
		}{
			{0, 0, ""}, {0.05, 0.05, ""}, {0.02, 0.02, ""},
			{0, 0.05, `Say dwell-grain = "50 ms" in the rig file`},
			{0, 0.02, `Say dwell-grain = "20 ms" in the rig file`},
			{0.04, 0.1, `Say dwell-grain = "100 ms" in the rig file`},
			{0.02, 0.03, `Say dwell-grain = "30 ms" in the rig file`},
		} {
			m := resting(t, kind, c.file, c.board)
			err := m.run().Err()
			if c.said == "" || kind == rig.Lockstep { // that spreads its last steps over the rest
				require.NoError(t, err, "%v %+v: %v", kind, c, m.w.said)
				continue
			}
			var fault *drive.Failure
			require.ErrorAs(t, err, &fault, "%v %+v", kind, c)
			assert.Equal(t, drive.Mismatched, fault.End)
			assert.Contains(t, fault.Detail, c.said, "%v", kind)
			assert.Empty(t, m.w.passes, "no pass has begun")
		}
	}
}

// A take that never dwells has none tried.
func TestNoDwellIsTriedInVain(t *testing.T) {
	tr := smooth(t, rig.Buffered, 96)
	tr.Plan().Rig.Controller.DwellGrain = 0
	m := onVirtual(t, tr, 2, func(o *virtual.Options) { o.DwellGrain = 0.05 })
	require.NoError(t, m.run().Err())
}
