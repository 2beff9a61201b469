package sample

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/motion/cue"
	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// filmed is a shot of two axes that loops in 1.2012 s of real time, six seconds
// on screen, and has a run-up.
const filmed = `shot = "Fernhollow lantern, pebbles & petals"
[clock]
capture = "119.88"
playback = "23.976"
loop = "144 frames"
[rig]
file = "bench.toml"
[axis.rail]
move = "there-and-back"
from = "40 mm"
to = "100 mm"
[axis.table]
move = "turn"
turns = "1/6"
law = "uniform"
`

// Cued is a take of so many rounds, counted in for three beats or more, of a
// loop of rail and table with the cues in text.
func Cued(t testing.TB, text string, rounds int64) cue.Take {
	t.Helper()
	s, err := shot.Decode("lantern.toml", []byte(filmed+text), nil)
	require.NoError(t, err)
	p, err := plan.Build(s, Bench(rig.InverseTime))
	require.NoError(t, err)
	sheet, err := cue.New(p, s)
	require.NoError(t, err)
	return sheet.ForTake(rounds, 3)
}

// TwoHands is cues of two hands: a pebble that is counted to and lands at the
// turnaround, and a petal that is not, seen in the second round.
const TwoHands = `[[cue]]
name = "pebble <small>"
hand = "right"
at = "turnaround"
fall = "300 mm"
beat = "0.35 s"
rounds = "each"
[[cue]]
name = "petal --> cup"
hand = "left"
at = "30 frames"
measured = "0.7 s"
beats = 0
rounds = 2
`
