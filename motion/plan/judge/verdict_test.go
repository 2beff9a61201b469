package judge_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/camera/lensview"
	"seamrail/motion/cue"
	"seamrail/motion/plan"
	"seamrail/motion/plan/judge"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/shot"
	"seamrail/motion/verify"
)

// judged is the verdict on a shot, and what the verifier alone finds of it.
func judged(t *testing.T, parts ...string) (judge.Judged, verify.Verdict) {
	t.Helper()
	s, err := shot.Decode("f", []byte(strings.Join(parts, "\n")), nil)
	require.NoError(t, err)
	p, err := plan.Build(s, *s.Rig)
	require.NoError(t, err)
	tr := trajectory.New(p)
	seen, err := lensview.Examine(tr, s)
	require.NoError(t, err)
	hands, err := cue.New(p, s)
	require.NoError(t, err)
	return judge.New(s, p, seen, hands), verify.Check(tr)
}

// beyond are the findings that the verifier does not have.
func beyond(j judge.Judged, alone verify.Verdict) []string {
	var out []string
	for _, f := range j.Verdict.Findings[len(alone.Findings):] {
		out = append(out, f.Check)
	}
	return out
}

const railOf = `
[rig.axis.rail]
letter = "X"
travel = ["0 mm", "400 mm"]
speed = "400 mm/s"
acceleration = "3000 mm/s2"
steps = "80 per mm"
`

// tableOf turns as steadily through its seam, from an end of its travel.
const tableOf = `
[take]
rounds = 1
[rig.axis.table]
letter = "A"
kind = "rotary"
travel = ["0 deg", "90 deg"]
speed = "90 deg/s"
acceleration = "180 deg/s2"
steps = "3200 per turn"
[axis.table]
move = "turn"
turns = "1/6"
law = "uniform"
start = "0 deg"
`

// Of a shot that holds the verdict has what the verifier found and no more; what is not
// known is named in it as in the headline.
func TestTheVerdictOnASoundShot(t *testing.T) {
	j, alone := judged(t, railOf, clockOf, there)
	assert.True(t, j.Verdict.OK)
	assert.Equal(t, alone.Findings, j.Verdict.Findings)
	assert.NotEmpty(t, j.Verdict.Unknown, "it has no camera")
	assert.Equal(t, j.Glanced.Unknown, j.Verdict.Unknown)
	assert.Equal(t, j.Glanced.Fails, j.Verdict.Fails)
	assert.Contains(t, j.Glanced.Words, "is being worked out")
	assert.NotContains(t, j.Headline(nil).Words, "is being worked out")
	assert.Contains(t, j.Headline(nil).Unknown, "whether the controller follows")
}

// What the verifier cannot see is added: a run-up out of the travel, a lens that strikes.
// What it has seen is not told twice.
func TestWhatTheVerdictAdds(t *testing.T) {
	j, alone := judged(t, tableOf, clockOf)
	require.True(t, alone.OK)
	assert.False(t, j.Verdict.OK)
	assert.Contains(t, beyond(j, alone), "position in the run-up")
	assert.Equal(t, judge.Barred, j.Glanced.Tone)

	j, alone = judged(t, strings.Replace(railOf, "400 mm/s", "4 mm/s", 1), clockOf, there)
	require.False(t, alone.OK)
	assert.Empty(t, beyond(j, alone))

	j, alone = judged(t, railOf, clockOf, there, `
[camera]
magnification = "1:3"
focal-length = "100 mm"
pitch = "20 um"
shutter = "1/250 s"
front-diameter = "60 mm"
front-ahead = "395 mm"
[scene]
distance = "439 mm"
[scene.axis.rail]
measured-at = "40 mm"
[scene.product]
sides = 6
radius = "45 mm"
height = "100 mm"
`)
	require.True(t, alone.OK)
	assert.False(t, j.Verdict.OK)
	assert.Contains(t, beyond(j, alone), "clearance")
}
