package frames_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/frames"
	"seamrail/motion/plan"
	"seamrail/motion/shot"
	"seamrail/motion/trajectory"
)

const display = `
[clock]
playback = "24"
loop = "24 frames"
[rig.axis.rail]
letter = "X"
travel = ["0 mm", "400 mm"]
speed = "400 mm/s"
acceleration = "3000 mm/s2"
steps = "80 per mm"
[rig.stand.display.speed.slow]
period = "7 s"
uncertainty = "0 s"
[axis.rail]
from = "40 mm"
to = "50 mm"
[spin.display]
symmetry = 6
`

// A clockwise stand of 7 s a turn is at -360k/168 degrees at frame k of 24 a
// second: -15/7 of a degree a frame.
func TestAStandHasAColumn(t *testing.T) {
	s, err := shot.Decode("t", []byte(display), nil)
	require.NoError(t, err)
	p, err := plan.Build(s, *s.Rig)
	require.NoError(t, err)
	tr := trajectory.New(p)
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
