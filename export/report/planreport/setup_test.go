package planreport_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/report"
	"seamrail/export/report/planreport"
	"seamrail/motion/base/source"
	"seamrail/motion/spec/shot"
)

// Where each value stands is told: in short which files there are, and value by value on
// request. A shot with nothing under it says nothing of it.
func TestWhatLiesUnderTheShot(t *testing.T) {
	tr, v := load(t, "keys")
	laid := shot.Laid{
		Files: []shot.LaidFile{{Kind: "set-up", Name: "table.toml", Title: "Small table"}, {Kind: "lens", Name: "shelf/macro.toml", Title: "Macro"}},
		Values: []source.Leaf{
			{Path: "camera.focal-length", Text: source.Text{Text: "100 mm", File: "shelf/macro.toml", Line: 2, Column: 16}},
			{Path: "camera.aperture", Text: source.Text{Text: "f/11", Line: 9, Column: 12}, Below: []source.Text{
				{Text: "f/8", File: "table.toml", Line: 4, Column: 5}, {Text: "f/5.6", File: "room.toml", Line: 6, Column: 7}}},
			{Path: "take.rounds", Text: source.Text{Text: "4", Origin: "--rounds"}, Below: []source.Text{{Text: "3", File: "table.toml", Line: 2, Column: 3}}},
		},
	}
	d := judged(tr, v, planreport.Data{Laid: laid})
	var brief, whole, doc bytes.Buffer
	require.NoError(t, report.Text(&brief, d.Brief(), false))
	assert.Contains(t, brief.String(), "  set-up        Small table (table.toml)\n                lens: Macro (shelf/macro.toml)\n")
	require.NoError(t, report.Text(&whole, d.Report(), false))
	assert.Contains(t, whole.String(), `SET-UP
  set-up        Small table (table.toml)
  lens          Macro (shelf/macro.toml)

  value                is      stands in
  camera.focal-length  100 mm  shelf/macro.toml, line 2
  camera.aperture      f/11    the shot, line 9
    and not            f/8     table.toml, line 4
    and not            f/5.6   room.toml, line 6
  take.rounds          4       --rounds
    and not            3       table.toml, line 2
`)
	require.NoError(t, report.JSON(&doc, d.Facts()))
	assert.Contains(t, doc.String(), `"set_up"`)
	bare := judged(tr, v, planreport.Data{})
	for _, r := range []report.Report{bare.Brief(), bare.Report()} {
		whole.Reset()
		require.NoError(t, report.Text(&whole, r, false))
		assert.NotContains(t, whole.String(), "set-up")
		assert.NotContains(t, whole.String(), "SET-UP")
	}
	assert.Nil(t, bare.Facts().(planreport.Document).SetUp)
}
