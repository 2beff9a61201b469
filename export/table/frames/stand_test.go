package frames_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/table/frames"
	"seamrail/motion/base/exact"
	"seamrail/motion/plan/sample"
)

// A clockwise stand of 7 s a turn is at -360k/168 degrees at frame k of 24 a
// second: -15/7 of a degree a frame.
func TestAStandHasAColumn(t *testing.T) {
	tr := sample.Display(t, 24, exact.Int(7), 6)
	table := text(t, tr, frames.Options{})
	assert.Contains(t, table, "# stand display: not commanded; its angle, degrees anticlockwise seen from above, from the face that is in front at frame 0, whichever it is, at -51.428571 deg/s as measured\n")
	var rows []string
	for line := range strings.Lines(table) {
		if !strings.HasPrefix(line, "#") {
			rows = append(rows, strings.TrimSuffix(line, "\n"))
		}
	}
	require.Len(t, rows, 25)
	last := func(row string) string { return row[strings.LastIndexByte(row, ',')+1:] }
	assert.Equal(t, "display_stand_deg", last(rows[0]))
	assert.Equal(t, "0", last(rows[1]))
	assert.Equal(t, "-2.142857", last(rows[2]))
	assert.Equal(t, "-15", last(rows[8]), "frame 7")
	assert.Equal(t, strings.Count(rows[0], ","), strings.Count(rows[24], ","))
}
