package shot_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/spec/shot"
)

// cued is the base shot with a pebble, a pour and a strike.
const cued = base + `
[[cue]]
name     = "pebble"
hand     = "left"
at       = "72 frames"
fall     = "0.3 m"
reaction = "150 ms"
rounds   = [3, 2, 2]

[[cue]]
name  = "pour"
at    = "turnaround"
axis  = "rail"
which = 1
after = "-0.5 s"
fall  = "20 cm"
flow  = "200 mm/s"
lead  = "0.35 s"
beats = 4
beat  = "0.4 s"

[[cue]]
name     = "match"
at       = "far-end"
measured = "0.62 s"
beats    = 0
rounds   = 2
`

func TestCues(t *testing.T) {
	s := decode(t, cued)
	require.Len(t, s.Cues, 3)
	pebble, pour, match := s.Cues[0], s.Cues[1], s.Cues[2]
	assert.Equal(t, "left", pebble.Hand)
	assert.Empty(t, pebble.Event)
	assert.Equal(t, "3/5", pebble.At.String(), "72 frames at 24 are 3 s on screen, a fifth of that on the set")
	assert.Equal(t, exact.Int(300), pebble.Fall)
	assert.Equal(t, "3/20", pebble.Reaction.String(), "hands know no slow motion")
	assert.Equal(t, []int64{2, 3}, pebble.Rounds)
	assert.True(t, pebble.In(2))
	assert.False(t, pebble.In(1))
	assert.EqualValues(t, 3, pebble.Beats)
	assert.Equal(t, "1/2", pebble.Beat.String())

	assert.Equal(t, "hand", pour.Hand)
	assert.Equal(t, shot.Turnaround, pour.Event)
	assert.Equal(t, "rail", pour.Axis)
	assert.EqualValues(t, 1, pour.Which)
	assert.Equal(t, "-1/10", pour.After.String())
	assert.Equal(t, exact.Int(200), pour.Flow)
	assert.Equal(t, "7/20", pour.Lead.String())
	assert.EqualValues(t, 4, pour.Beats)
	assert.Equal(t, "2/5", pour.Beat.String())
	assert.Zero(t, pour.Reaction.Sign(), "a hand that is counted to moves with the beat")
	assert.Equal(t, []int64{2}, pour.Rounds, "once, in the round to keep of three")
	assert.Empty(t, pour.Leaves)

	assert.Equal(t, "31/50", match.Measured.String())
	assert.Equal(t, "1/5", match.Reaction.String(), "and one that is not, after it hears")
	assert.Equal(t, []int64{2}, match.Rounds)
	assert.NoError(t, compile(t).Validate(read(t, cued)))
}

func TestCueDefaultsAreTold(t *testing.T) {
	told := map[string]string{}
	for _, d := range decode(t, cued).Defaults {
		told[d.Key] = d.Value
	}
	for key, value := range map[string]string{
		"cue[1].beats": "3", "cue[1].beat": "1/2 s", "cue[2].hand": "hand", "cue[2].reaction": "0 s", "cue[3].reaction": "1/5 s",
	} {
		assert.Equal(t, value, told[key], key)
	}
	assert.NotContains(t, told, "cue[3].beat")
}

// A cue of one line more than a name and a time, and what is wrong with it.
func TestFaultsOfCues(t *testing.T) {
	const start = base + "\n[[cue]]\nname = \"pebble\"\n"
	for text, want := range map[string]string{
		start + "hand = \"left\"":                                `13:3: cue[1].at is missing; give it, such as at = "72 frames" or at = "turnaround"`,
		base + "\n[[cue]]\nat = \"3 s\"":                         `13:3: cue[1].name is missing; give it, such as name = "pebble"`,
		start + "at = \"never\"":                                 `15:6: cue[1].at "never" does not begin with a number`,
		start + "at = \"-1 s\"":                                  `15:6: cue[1].at "-1 s" must be 0 or more; "1 s" would do`,
		start + "at = \"3 mm\"":                                  `15:6: cue[1].at "3 mm" is a length`,
		start + "at = \"3 s\"\naxis = \"rail\"":                  `16:8: cue[1].axis "rail" does not go with a time; it belongs to at = "turnaround"`,
		start + "at = \"3 s\"\nwhich = 2":                        `16:9: cue[1].which "2" does not go with a time`,
		start + "at = \"turnaround\"\nwhich = 0":                 `16:9: cue[1].which "0" must be from 1 to 1000`,
		start + "at = \"3 s\"\nfall = \"-1 mm\"":                 `16:8: cue[1].fall "-1 mm" must be from 0 mm to 10000 mm`,
		start + "at = \"3 s\"\nfall = \"1 s\"":                   `16:8: cue[1].fall "1 s" is a time`,
		start + "at = \"3 s\"\nflow = \"1 m/s\"":                 `16:8: cue[1].flow "1 m/s" takes the height it falls from; add it, such as fall = "300 mm"`,
		start + "at = \"3 s\"\nlead = \"3 frames\"":              `16:8: cue[1].lead "3 frames" is a count of frames`,
		start + "at = \"3 s\"\nmeasured = \"1 s\"\nlead=\"1 s\"": `17:6: cue[1].lead "1 s" is part of what is measured; keep one of the two`,
		start + "at = \"3 s\"\nbeat = \"50 ms\"":                 `16:8: cue[1].beat "50 ms" must be from 0.1 s to 5 s`,
		start + "at = \"3 s\"\nbeats = 17":                       `16:9: cue[1].beats "17" must be from 0 to 16`,
		start + "at = \"3 s\"\nrounds = []":                      `16:1: cue[1].rounds must name a round; left out, it happens once`,
		start + "at = \"3 s\"\nrounds = \"every\"":               `16:10: cue[1].rounds "every" must be a round, from 1, or "each"; left out, it happens once, in the round to keep`,
		start + "at = \"3 s\"\nrounds = [1, \"each\"]":           `16:14: cue[1].rounds[2] "each" stands for all rounds, and others are named beside it; keep one of the two`,
		start + "at = \"3 s\"\nrounds = [1, 0]":                  `16:14: cue[1].rounds[2] "0" must be from 1 to 1000000`,
		start + "at = \"3 s\"\ndrop = \"1 m\"":                   `16:1: cue[1].drop is not a key that means anything here`,
	} {
		oneFault(t, text, want)
	}
}
