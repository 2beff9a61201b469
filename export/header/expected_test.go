package header_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/export/header"
	"seamrail/motion/controller/ontime"
)

func TestExpectedInWords(t *testing.T) {
	p := ontime.Prediction{
		Rounds: 3, Blocks: 57, Longest: 0.0225, RoundPlanned: 1.2012, RoundExecuted: 1.2015,
		RoundLate: 0.0003, Late: -0.00004, Ran: 3, Within: ontime.PromisedLate,
		Axes: []ontime.Deviation{{Axis: "rail", Unit: "mm", Worst: -0.0204, Frame: 41, Wanted: 0.05}},
	}
	require.Equal(t, []string{
		"1.2015 s for 1.2012 s each round, 0.3 ms late", "on time after 3 rounds",
		"rail 0.020 mm off at the worst, frame 41", "57 lines a round, none longer than 22.5 ms",
		"held to 1 ms in all and rail 0.05 mm at each frame; all its lines were run on a model of such a board",
	}, header.Expected(p))
	p.Rounds = 9000
	require.Contains(t, header.Expected(p), "held to 1 ms in all and rail 0.05 mm at each frame; the lines of its first 3 rounds were run on a model of such a board")
	p.Rounds, p.RoundLate, p.Late = 1, -0.0015, 312
	lines := header.Expected(p)
	require.Equal(t, "1.2015 s for 1.2012 s each round, 1.5 ms early", lines[0])
	require.Equal(t, "312.0 s late after 1 round", lines[1])
	require.Equal(t, []string{"plays a table of steps: each step on its tick, no planning of its own"},
		header.Expected(ontime.Prediction{Exact: true}))
}
