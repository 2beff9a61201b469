package preview_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/camera/lensview"
	"seamrail/motion/plan"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/shot"
)

// onStand is a lantern of six panes on a display stand with a period of its own,
// filmed for 1.2 s.
const onStand = `
[clock]
capture = "120"
playback = "24"
loop = "144 frames"
[rig.axis.rail]
letter = "X"
travel = ["0 mm", "400 mm"]
speed = "400 mm/s"
acceleration = "3000 mm/s2"
steps = "80 per mm"
[rig.stand.display.speed.slow]
period = "%s s"
uncertainty = "0.001 s"
[axis.rail]
at = "40 mm"
[camera]
magnification = "1:5"
focal-length = "50 mm"
pitch = "20 um"
[scene]
[scene.product]
sides = 6
radius = "45 mm"
height = "100 mm"
[spin.display]
`

// A display stand turns in the picture though no axis does, and the seam shows
// whether its period suits the loop: 7.2 s brings the next pane, 7 s does not.
func TestStandsTurn(t *testing.T) {
	for period, jumps := range map[string]bool{"7.2": false, "7": true} {
		s, err := shot.Decode("f", fmt.Appendf(nil, onStand, period), nil)
		require.NoError(t, err)
		p, err := plan.Build(s, *s.Rig)
		require.NoError(t, err)
		tr := trajectory.New(p)
		scene, ok := lensview.Scene(s, *s.Rig)
		require.True(t, ok)
		f := finder(t, lensview.Motion(tr), scene, 160)
		assert.Greater(t, apart(t, f.Frame(0), f.Frame(30)), 1.0)
		assert.Contains(t, strings.Join(f.Assumed(), "\n"), "which face the stand shows when the loop begins")
		assert.Equal(t, jumps, f.Seam(4).Hitches(), "%s s", period)
	}
}
