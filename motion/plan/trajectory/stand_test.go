package trajectory_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/plan"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/shot"
	"seamrail/motion/verify"
)

const display = `
[clock]
capture = "119.88"
playback = "23.976"
loop = "412 frames"
[rig.axis.rail]
letter = "X"
travel = ["0 mm", "400 mm"]
speed = "400 mm/s"
acceleration = "3000 mm/s2"
steps = "80 per mm"
[rig.stand.display]
direction = "anticlockwise"
start-in-phase = true
[rig.stand.display.speed.slow]
period = "20.6 s"
uncertainty = "0.01 s"
[axis.rail]
from = "40 mm"
to = "100 mm"
[spin.display]
symmetry = 6
start = "15 deg"
`

// Frame k of 120000/1001 a second comes after 1001k/120000 s, so the stand is at
// 15 + 360/20.6 of that: 15 + 360360k/2472000 degrees, a million rounds on too.
func TestAStandIsExactAtEveryFrame(t *testing.T) {
	s, err := shot.Decode("display.toml", []byte(display), nil)
	require.NoError(t, err)
	p, err := plan.Build(s, *s.Rig)
	require.NoError(t, err)
	tr := trajectory.New(p)
	require.Equal(t, 1, tr.StandCount())
	for _, k := range []int64{-1, 0, 1, 411, 412, 412_000_000} {
		want := exact.Int(15).Add(exact.New(360360, 2472000).Mul(exact.Int(k)))
		assert.True(t, tr.StandAngle(0, k).Equal(want), "frame %d: %s", k, tr.StandAngle(0, k))
	}
	stand := tr.Stand(0)
	assert.Equal(t, "display", stand.Name)
	assert.True(t, stand.Face.Equal(exact.Int(60)))
	assert.True(t, stand.Off.Equal(exact.New(360360*412, 2472000).Sub(exact.Int(60))))
	assert.False(t, stand.Hard)
	assert.True(t, verify.Check(tr).OK)
}

// Steps and axes know nothing of a stand.
func TestAStandTakesNoSteps(t *testing.T) {
	s, err := shot.Decode("display.toml", []byte(display), nil)
	require.NoError(t, err)
	p, err := plan.Build(s, *s.Rig)
	require.NoError(t, err)
	tr := trajectory.New(p)
	assert.Equal(t, 1, tr.AxisCount())
	steps := tr.Steps(trajectory.StepOptions{Rounds: 1})
	n := 0
	for step, ok := steps.Next(); ok; step, ok = steps.Next() {
		require.Zero(t, step.Axis)
		n++
	}
	assert.Equal(t, 2*60*80, n)
}
