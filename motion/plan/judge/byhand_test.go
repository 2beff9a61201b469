package judge_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/camera/lensview"
	"seamrail/motion/camera/picture"
	"seamrail/motion/cue"
	"seamrail/motion/plan"
	"seamrail/motion/plan/judge"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/shot"
)

const handShot = `
[clock]
capture = "24"
playback = "24"
loop = "LOOP frames"
[take]
rounds = ROUNDS
[camera]
sensor-width = "36 mm"
sensor-height = "20.25 mm"
pixels-wide = 1920
pixels-high = 1080
focal-length = "50 mm"
focus = "400 mm"
[scene]
distance = "600 mm"
[scene.axis.rail]
role = "slide"
heading = "push-in"
measured-at = "40 mm"
[scene.product]
shape = "cylinder"
radius = "45 mm"
height = "120 mm"
[rig.controller]
kind = "two-ends"
[rig.controller.buttons]
times = "1 s to 60 s in steps of 0.5 s"
pauses = "0 s to 10 s in steps of 1 s"
round-trips = "endless"
MEASURED
[rig.controller.ramp]
law = "trapezoidal"
time = "1 s"
[rig.axis.rail]
travel = ["0 mm", "600 mm"]
speed = "none"
acceleration = "none"
[axis.rail]
from = "40 mm"
to = "340 mm"
`

func ownRounds(t *testing.T, loop, rounds, measured string) (picture.Verdict, judge.Judged) {
	t.Helper()
	text := strings.NewReplacer("LOOP", loop, "ROUNDS", rounds, "MEASURED", measured).Replace(handShot)
	s, err := shot.Decode("s.toml", []byte(text), nil)
	require.NoError(t, err)
	p, err := plan.Build(s, *s.Rig)
	require.NoError(t, err)
	seen, err := lensview.Examine(trajectory.New(p), s)
	require.NoError(t, err)
	j := judge.New(s, p, seen, cue.Sheet{})
	for _, v := range j.Others {
		assert.NotEqual(t, "torque", v.Check, "its motors are its own affair")
		if v.Check == judge.OwnRounds {
			return v, j
		}
	}
	t.Fatal("nothing is said of its own rounds")
	return picture.Verdict{}, j
}

// Whether its own rounds close is not known before its clock has been measured; then it is
// by how far the seam is off in the picture, on both sides of what is seen.
func TestItsOwnRounds(t *testing.T) {
	v, j := ownRounds(t, "192", "3", "")
	assert.Equal(t, picture.Unknown, v.Level)
	assert.Equal(t, []string{"controller.buttons.measured"}, v.Missing)
	assert.Contains(t, v.Text, "each thousandth that it is off by makes 0.19 frames")
	assert.Contains(t, j.Glanced.Unknown, judge.OwnRounds)
	assert.NotContains(t, j.Glanced.Words, "controller")

	v, _ = ownRounds(t, "192", "3", `measured = ["500 rounds of 8 s in 4000 s"]`)
	assert.Equal(t, picture.Good, v.Level, v.Text)
	v, _ = ownRounds(t, "192", "3", `measured = ["2 rounds of 8 s in 16 s"]`)
	assert.Equal(t, picture.Poor, v.Level, v.Text)
	v, _ = ownRounds(t, "193", "3", `measured = ["500 rounds of 8 s in 4004 s"]`)
	assert.Equal(t, picture.Poor, v.Level, "nearly a frame longer: the rig has set out again: %s", v.Text)
	assert.Contains(t, v.Text, "the loop is longer than the rig's own round by 0.81 captured frames")
	require.NotEmpty(t, v.Cures.Words())
	assert.Equal(t, "takes of one round, started anew each time (take.rounds = 1)", v.Cures.Words()[0])
	v, _ = ownRounds(t, "193", "1", `measured = ["500 rounds of 8 s in 4004 s"]`)
	assert.Equal(t, picture.Good, v.Level, "the cure cures: %s", v.Text)
	assert.Contains(t, v.Text, "it rests at the seam all the same")
}
