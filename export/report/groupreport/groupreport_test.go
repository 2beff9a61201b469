package groupreport_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/report"
	"seamrail/export/report/groupreport"
	"seamrail/motion/base/exact"
	"seamrail/motion/edit/passes"
	"seamrail/motion/edit/selects"
	"seamrail/motion/plan/sample"
)

func filmed(take int, pass string, stood, took float64) passes.Filmed {
	return passes.Filmed{
		Take: take, Pass: pass, Plan: "a", Rounds: 3, Planned: 10, Took: took, OutBy: 0.002, Keep: take == 1,
		Start: passes.Start{Capture: exact.Int(50), Frames: 100, Axes: []passes.Place{
			{Axis: "rail", Unit: "mm", Planned: 40, Stood: &stood, From: "above", Low: 40, High: 100}, {Axis: "tilt", Unit: "deg", Stood: &stood},
		}},
		Off: []selects.Off{{Axis: "rail", Unit: "mm", Value: -0.01}, {Axis: "tilt", Unit: "deg"}},
	}
}

func text(t *testing.T, d groupreport.Data) string {
	var b strings.Builder
	require.NoError(t, report.Text(&b, d.Report(), false))
	return b.String()
}

func TestGolden(t *testing.T) {
	s := passes.Scale{PerUnit: map[string]float64{"rail": 20}, PerSecond: 100}
	d := groupreport.Data{Name: "plates", Group: passes.Of([]passes.Filmed{
		filmed(1, "light", 40, 10), filmed(2, "clean plate", 40.01, 9.9995), filmed(3, "light", 40, 10),
	}, s)}
	sample.Golden(t, "group.txt", text(t, d))
	var doc strings.Builder
	require.NoError(t, report.JSON(&doc, d.Facts()))
	sample.Golden(t, "group.json", doc.String())
}

// What is said where not all is known, and where they do not match.
func TestWhatIsNotKnown(t *testing.T) {
	one, other := filmed(1, "a", 40, 10), filmed(2, "b", 40, 0)
	d := groupreport.Data{Name: "x", Virtual: true, Group: passes.Of([]passes.Filmed{one}, passes.Scale{})}
	assert.Contains(t, text(t, d), "ONE PASS")
	assert.Contains(t, text(t, d), "nothing was filmed")
	assert.NotContains(t, text(t, d), "NOT SEEN")
	other.Off, other.Start.Axes = nil, []passes.Place{{Axis: "rail", From: "above"}, {Axis: "tilt"}}
	d.Group, d.NoScale = passes.Of([]passes.Filmed{one, other}, passes.Scale{}), "the shot has changed since"
	got := text(t, d)
	for _, want := range []string{"ALIKE  These passes were filmed alike: the shot has changed since", "rail not reported; tilt not reported", "not measured of both", "not measured\n"} {
		assert.Contains(t, strings.ReplaceAll(got, "  out by", ""), strings.TrimSuffix(want, "\n"))
	}
	other.Plan = "b"
	d.Group = passes.Of([]passes.Filmed{one, other}, passes.Scale{})
	assert.Contains(t, text(t, d), "NO MATCH")
}
