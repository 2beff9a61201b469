package against

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/spec/rig"
	"seamrail/motion/vibration/ringdown"
	"seamrail/motion/vibration/spring"
)

// keeping is a rig whose rail swings as lines say.
const keeping = `[axis.rail]
travel = ["0 mm", "400 mm"]
speed = "400 mm/s"
acceleration = "3000 mm/s2"
steps = "80 per mm"
`

// What is kept of a swing is read back from a rig file as it was measured.
func TestLinesAreReadBack(t *testing.T) {
	s := Shake{Measured: ringdown.Measured{Spring: spring.Spring{Frequency: 5.9973, Damping: 0.0497}, FrequencySure: 0.0123}}
	lines, err := s.Lines("rail")
	require.NoError(t, err)
	r, _, err := rig.Decode("s", []byte(keeping+strings.Join(lines, "\n")+"\n"))
	require.NoError(t, err)
	a := r.Axes[0]
	assert.InDelta(t, 5.997, a.Shake.Spring.Frequency, 1e-9)
	assert.InDelta(t, 0.0497, a.Shake.Spring.Damping, 1e-9)
	assert.InDelta(t, 0.012, a.Shake.FrequencySure, 1e-9)
}

// A swing that a rig file would refuse is not handed on.
func TestSwingsThatAreNotKept(t *testing.T) {
	s := Shake{Measured: ringdown.Measured{Spring: spring.Spring{Frequency: 6, Damping: 1e-4}, FrequencySure: 0.01}}
	_, err := s.Lines("rail")
	assert.ErrorContains(t, err, "must be 0.05 % or more")
	s.FrequencySure = math.Inf(1)
	_, err = s.Lines("rail")
	assert.ErrorContains(t, err, "longer rests would do")
}
