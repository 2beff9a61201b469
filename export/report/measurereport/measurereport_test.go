package measurereport_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/report"
	"seamrail/export/report/measurereport"
	"seamrail/motion/plan/sample"
)

func TestGolden(t *testing.T) {
	play := 0.12
	d := measurereport.Data{Rig: "bench.toml", Found: []measurereport.Found{
		{
			Axis: "rail", What: "backlash", Value: &play, Unit: "mm", Sigma: 0.004, Bound: 0.008,
			Told:  []measurereport.Fact{{Label: "play", Text: "0.12 mm, give or take 0.008 (95 %)"}},
			Lines: []measurereport.Line{{Path: "axis.rail.backlash", Old: "0.05 mm", New: "0.12 mm"}}, Written: true,
		},
		{Axis: "rail", What: "speed", Unit: "mm/s", Doubts: []string{"steps were lost at the least that was tried"}},
		{Axis: "table", What: "turn", Value: &play, Unit: "steps/deg"},
	}}
	var text, doc strings.Builder
	require.NoError(t, report.Text(&text, d.Report(), false))
	require.NoError(t, report.JSON(&doc, d.Facts()))
	sample.Golden(t, "measure.txt", text.String())
	sample.Golden(t, "measure.json", doc.String())
	assert.Equal(t, "nothing", measurereport.Data{}.Report().Subtitle)
	assert.Equal(t, measurereport.Document{Schema: measurereport.Schema, Found: []measurereport.Found{}}, measurereport.Data{}.Facts())
}
