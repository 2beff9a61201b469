package sheet

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const byHand = `
[clock]
capture = "24"
playback = "24"
loop = "480 frames"
[rig.controller]
kind = "two-ends"
[rig.controller.buttons]
times = "10 s"
round-trips = "endless"
[rig.controller.ramp]
law = "3-4-5"
[rig.axis.rail]
travel = ["0 mm", "600 mm"]
speed = "none"
acceleration = "none"
[axis.rail]
from = "40 mm"
to = "340 mm"
`

// On a rig that is set and started by hand, what to set and press comes first, in its
// order; the table of ways would only say it again.
func TestWhatIsPressedComesFirst(t *testing.T) {
	p := pageOf(t, byHand)
	require.Len(t, p.Presses, 5)
	assert.Contains(t, p.Presses[0], "1. Know its own stop")
	assert.Contains(t, p.Presses[1], "2. Set one end with rail at 40 mm, where it sets out, and the other with rail at 340 mm. Set the time of a way to 10 s")
	assert.Empty(t, p.Moves.Rows)
	p.Fails = []string{"something that does not hold"}
	var b bytes.Buffer
	require.NoError(t, HTML(&b, p))
	html := b.String()
	assert.Less(t, strings.Index(html, pressesName), strings.Index(html, failsName))
	assert.Less(t, strings.Index(html, p.Presses[3][:20]), strings.Index(html, tapeName))
	b.Reset()
	require.NoError(t, Write(&b, []Page{p}))
	assert.NotEmpty(t, b.Bytes())
	assert.Empty(t, lantern(t).Presses, "a rig that is driven is told what to do")
}
