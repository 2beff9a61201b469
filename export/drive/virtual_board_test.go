package drive_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/export/drive/virtual"
	"seamrail/motion/controller/program"
	"seamrail/motion/spec/rig"
)

// A board with a real one's step timer, and a resonator 0.3 % slow, is 14 ms
// late a round. Its rate error, measured over a long run and kept in the rig
// file, brings it within a quarter of a millisecond; measured again, to every
// captured frame within 0.05 mm after ten rounds.
func TestVirtualBoardIsTimedOnce(t *testing.T) {
	const rounds = 10
	rate := 0.0
	for _, allowed := range []struct{ late, worst float64 }{{20e-3, 20}, {0.25e-3, 0.25}, {0.1e-3, 0.05}} {
		tr := smooth(t, rig.Buffered, 96)
		tr.Plan().Rig.Controller.RateError = rate
		take := chosen(t, tr, rounds)
		source := func() drive.Source { return program.New(tr, take) }
		m := onVirtualWith(t, tr, rounds, source, func(o *virtual.Options) {
			o.Timer, o.ClockError = virtual.SixteenMHz, 0.003
		})
		require.NoError(t, m.run().Err())
		begins, ends := m.span()
		planned := m.w.passes[0].Planned
		late := (ends - begins - planned) / rounds
		t.Logf("rate error %.6f: %.3f ms late a round, %.3f mm", rate, late*1000, m.worst(rounds, begins))
		if rate == 0 {
			require.InDelta(t, 12e-3, late, 0.1e-3, "0.3 % of 4 s; what the timer adds is made up for")
		}
		require.InDelta(t, 0, late, allowed.late)
		require.Less(t, m.worst(rounds, begins), allowed.worst)
		rate = (1+rate)*(ends-begins)/planned - 1
	}
}
