package plan_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/plan"
)

// swinging passes the seam at its full speed towards the near end of its travel. Its
// stop takes 20 frames or more, a little beyond the end of the move itself.
const swinging = `
shot = "swinging"
[clock]
capture = "24"
playback = "59.94"
loop = "62 frames"
[take]
rounds = 3
[rig]
rig = "r"
[rig.controller]
kind = "step-player"
[rig.axis.rail]
kind = "linear"
belt = { pitch = "3 mm", teeth = 30 }
motor-steps = 200
microsteps = 8
speed = "715.279 mm/s"
acceleration = "1196.31 mm/s2"
jerk = "970.5 mm/s3"
travel = ["%s", "176.815 mm"]
[axis.rail]
move = "there-and-back"
from = "-8 mm"
to = "126.815 mm"
law = "harmonic"
phase = "3/4"
`

// TestARampIsAsGentleAsFits: half of the limits where there is room, all of them
// where it takes that, and refused where that leaves the travel too.
func TestARampIsAsGentleAsFits(t *testing.T) {
	stops := func(near string) (int64, float64, []plan.Breach) {
		p := mustBuild(t, fmt.Sprintf(swinging, near))
		out := p.Axes[0].RunOut
		return p.RunOut, out.At(out.Length()).Pos, p.Breaches()
	}
	half, stop, broken := stops("-60 mm")
	require.Empty(t, broken)
	assert.Less(t, stop, -20.)
	three, before, broken := stops(fmt.Sprintf("%.3f mm", stop+0.01))
	require.Empty(t, broken)
	assert.Less(t, three, half)
	assert.Greater(t, before, stop)
	all, last, broken := stops(fmt.Sprintf("%.3f mm", before+0.01))
	require.Empty(t, broken)
	assert.Less(t, all, three)
	_, _, broken = stops(fmt.Sprintf("%.6f mm", last-0.001))
	assert.Empty(t, broken)
	_, at, broken := stops(fmt.Sprintf("%.6f mm", last+0.001))
	require.Len(t, broken, 1)
	assert.Equal(t, "run-out", broken[0].Phase)
	assert.Equal(t, last, at, "what is told is the least that it would take")
}

// TestWhatTheShotBreaksIsSaidOnce: where the loop asks too much at the seam itself, a
// run-up to there has no fault of its own.
func TestWhatTheShotBreaksIsSaidOnce(t *testing.T) {
	const keyed = bench + `
[axis.rail]
move = "keys"
keys = [{ at = "0 frames", pos = "0.2 mm", speed = "2 mm/s" }, { at = "20 frames", pos = "120 mm" }, { at = "90 frames", pos = "150 mm" }, { at = "130 frames", pos = "20 mm" }]
`
	p := mustBuild(t, keyed)
	var quantities []string
	for _, b := range p.Breaches() {
		assert.Equal(t, "loop", b.Phase)
		quantities = append(quantities, b.Quantity)
	}
	assert.Equal(t, []string{plan.Speed, plan.Acceleration, plan.Jerk, plan.StepRate}, quantities)
	assert.Less(t, p.RunUp, int64(120), "nor does it take a minute")

	// The other side: the loop keeps its limits, and only the run-up has no room.
	gentle := strings.NewReplacer(`"0.2 mm", speed = "2 mm/s"`, `"0.2 mm", speed = "8 mm/s"`, `"120 mm"`, `"2 mm"`, `"150 mm"`, `"3 mm"`, `"20 mm"`, `"1 mm"`).Replace(keyed)
	broken := mustBuild(t, gentle).Breaches()
	require.NotEmpty(t, broken)
	for _, b := range broken {
		assert.Equal(t, plan.Position, b.Quantity)
	}
}
