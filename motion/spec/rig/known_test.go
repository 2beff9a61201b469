package rig_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/spec/rig"
)

const marked = `# to be measured: a remark of its own marks nothing
[controller]
baud = 115200 # read: it answered
greeting = "a # guessed" # read
step-timer = "fine" # guessed: by its size
feed = "per-minute" # guesswork marks nothing
[axis.rail] # to be measured: which motor this is
travel = ["0 mm", "400 mm"] # to be measured
speed = "400 mm/s"
acceleration = "3000 mm/s2" # measured with a ruler
steps = "80 per mm"
settings = { speed = "300 mm/s", acceleration = "2000 mm/s2" } # guessed: as it is set
`

// A mark is how a remark behind a value begins, and nothing else.
func TestMarks(t *testing.T) {
	r, defaults, err := rig.Decode("bench.toml", []byte(marked))
	require.NoError(t, err)
	assert.Equal(t, []rig.Doubt{
		{Key: "controller.step-timer", Value: "fine", Known: rig.Guessed, Why: "by its size", File: "bench.toml", Line: 5},
		{Key: "axis.rail", Known: rig.ToMeasure, Why: "which motor this is", File: "bench.toml", Line: 7},
		{Key: "axis.rail.travel", Value: "0 mm, 400 mm", Known: rig.ToMeasure, File: "bench.toml", Line: 8},
		{Key: "axis.rail.settings.speed", Value: "300 mm/s", Known: rig.Guessed, Why: "as it is set", File: "bench.toml", Line: 12},
		{Key: "axis.rail.settings.acceleration", Value: "2000 mm/s2", Known: rig.Guessed, Why: "as it is set", File: "bench.toml", Line: 12},
	}, r.Doubts)
	assert.Equal(t, "rail", r.Doubts[2].Axis())
	assert.Empty(t, r.Doubts[0].Axis())
	assert.Contains(t, defaults, rig.Default{Key: "axis.rail.travel", Value: "0 mm, 400 mm", Why: "to be measured in bench.toml:8"})
	assert.Contains(t, defaults, rig.Default{Key: "controller.step-timer", Value: "fine", Why: "guessed in bench.toml:5: by its size"})
	assert.Len(t, rig.Marked("bench.toml", []byte(marked)), 7, "two were read")
	assert.Empty(t, rig.Marked("bench.toml", []byte("[x # guessed")), "what is no TOML has no marks")
}

// A value that has been measured says so, and nothing else changes.
func TestSettled(t *testing.T) {
	text := "[axis.rail]\r\ntravel = [\"0 mm\", \"4 #\"] # to be measured: its ends\r\nspeed = \"4 mm/s\" # mine\nsteps = \"8 per mm\" # read: $100"
	assert.Equal(t, "[axis.rail]\r\ntravel = [\"0 mm\", \"4 #\"] # measured with a ruler\r\nspeed = \"4 mm/s\" # mine\nsteps = \"8 per mm\" # read: $100",
		string(rig.Settled([]byte(text), "axis.rail.travel", "measured with a ruler")))
	assert.Contains(t, string(rig.Settled([]byte(text), "axis.rail.steps", "measured")), "steps = \"8 per mm\" # measured")
	for _, path := range []string{"axis.rail.speed", "axis.crane.speed", ""} {
		assert.Equal(t, text, string(rig.Settled([]byte(text), path, "measured")))
	}
	assert.Equal(t, "[x", string(rig.Settled([]byte("[x"), "x", "measured")))
}
