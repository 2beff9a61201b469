package reachreport_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/report"
	"seamrail/export/report/reachreport"
	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/plan/reach"
)

// bench has a law that will do for one of two travels, and one that jumps.
func bench(t *testing.T) reachreport.Data {
	t.Helper()
	c, err := clock.New(exact.Int(120), exact.Int(24), exact.Rat{})
	require.NoError(t, err)
	loop := func(frames int64) clock.Loop {
		l, err := c.LoopFrames(frames)
		require.NoError(t, err)
		return l
	}
	return reachreport.Data{
		Table: reach.Table{Axis: "rail", Unit: "mm", Travels: []float64{40, 1234.5}, Laws: []string{"3-4-5", "uniform"}, Cells: [][]reach.Cell{
			{{Travel: 40, Possible: true, Loop: loop(96), Binding: "speed"}, {Travel: 1234.5, Possible: true, Loop: loop(2500), Binding: "jerk"}},
			{{Travel: 40, Binding: "acceleration"}, {Travel: 1234.5, Binding: "acceleration"}},
		}},
		Fits: []string{"axis rail would fit with law = 3-4-5"},
	}
}

func TestGolden(t *testing.T) {
	var b strings.Builder
	require.NoError(t, report.Text(&b, bench(t).Report(), false))
	assert.Equal(t, `Shortest loop, in seconds on screen: rail, there and back

  travel, mm            40  1234
  3-4-5                  4 104.2
  uniform                -     -

  - no loop will do: the law jumps in acceleration, which the rig limits

WHAT WOULD FIT
  + axis rail would fit with law = 3-4-5
`, b.String())
}

func TestFacts(t *testing.T) {
	d := bench(t).Facts().(reachreport.Document)
	assert.Equal(t, []float64{40, 1234.5}, d.Travels)
	require.Len(t, d.Laws, 2)
	assert.Equal(t, int64(96), d.Laws[0].Loops[0].Shortest.Screen)
	assert.Equal(t, int64(96), d.Laws[0].Loops[0].Shortest.Captured)
	assert.Equal(t, "speed", d.Laws[0].Loops[0].Binding)
	assert.Nil(t, d.Laws[1].Loops[0].Shortest)
}
