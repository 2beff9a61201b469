package judge_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/camera/picture"
	"seamrail/motion/cue"
	"seamrail/motion/plan"
	"seamrail/motion/plan/judge"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

const doubtful = `[controller]
step-timer = "fine" # guessed: by its size
[axis.rail] # to be measured: which motor this is
letter = "X"
travel = ["0 mm", "400 mm"] # to be measured
speed = "400 mm/s" # measured with a ruler
acceleration = "3000 mm/s2"
steps = "80 per mm" # read: $100
[axis.crane]
travel = ["0 mm", "90 mm"] # to be measured
speed = "40 mm/s"
acceleration = "300 mm/s2"
steps = "80 per mm"
`

// What a plan stands on and nobody has measured is not known; what is guessed is told;
// an axis that the shot does not move is no matter.
func TestAGuessIsNoMeasurement(t *testing.T) {
	s, err := shot.Decode("s", []byte("[clock]\ncapture = 24\nplayback = 24\nloop = \"4 s\"\n[rig]\nfile = \"bench.toml\"\n[axis.rail]\nmove = \"swing\"\nabout = \"70 mm\"\namplitude = \"20 mm\"\n"), nil)
	require.NoError(t, err)
	of := func(text string) (map[string]picture.Verdict, judge.Judged) {
		r, _, err := rig.Decode("bench.toml", []byte(text))
		require.NoError(t, err)
		p, err := plan.Build(s, r)
		require.NoError(t, err)
		j := judge.New(s, p, nil, cue.Sheet{})
		out := map[string]picture.Verdict{}
		for _, v := range j.Others {
			out[v.Check] = v
		}
		return out, j
	}
	all, j := of(doubtful)
	asked, guessed := all["questions of the rig file"], all["guesses of the rig file"]
	assert.Equal(t, picture.Unknown, asked.Level)
	assert.Contains(t, asked.Text, "2 lines of it are still to be measured")
	assert.Contains(t, asked.Text, "axis.rail of bench.toml: which it is (line 3), travel (5)")
	assert.NotContains(t, asked.Text, "crane")
	assert.Equal(t, picture.Fair, guessed.Level)
	assert.Contains(t, guessed.Text, "1 line of it is guessed")
	assert.Contains(t, guessed.Text, "controller of bench.toml: step-timer (line 2)")
	assert.Contains(t, j.Glanced.Unknown, "questions of the rig file", "the headline says so")

	all, _ = of(`[axis.rail]
travel = ["0 mm", "400 mm"]
speed = "400 mm/s"
acceleration = "3000 mm/s2"
steps = "80 per mm"
`)
	assert.NotContains(t, all, "questions of the rig file")
	assert.NotContains(t, all, "guesses of the rig file")
}
