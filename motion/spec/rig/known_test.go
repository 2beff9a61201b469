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
func TestSet(t *testing.T) {
	set := func(text, path, value, how string) string {
		out, err := rig.Set("r.toml", []byte(text), path, value, how)
		require.NoError(t, err)
		return string(out)
	}
	text := "[axis.rail]\r\ntravel = \"4 #\" # to be measured: its end\r\nspeed = \"4 mm/s\" # mine\nsteps = \"8 per mm\" # read: $100"
	assert.Equal(t, "[axis.rail]\r\ntravel = \"5 mm\" # measured with a ruler\r\nspeed = \"4 mm/s\" # mine\nsteps = \"8 per mm\" # read: $100",
		set(text, "axis.rail.travel", "5 mm", "measured with a ruler"))
	assert.Contains(t, set(text, "axis.rail.steps", "9 per mm", "measured"), "steps = \"9 per mm\" # measured")
	assert.Contains(t, set(text, "axis.rail.steps", "9 per mm", ""), "steps = \"9 per mm\" # read: $100", "nobody says how it is known now")
	assert.Contains(t, set(text, "axis.rail.speed", "5 mm/s", "measured"), "speed = \"5 mm/s\" # mine\n")
	// What was not there says so too.
	assert.Contains(t, set(text, "axis.rail.backlash", "0.1 mm", "measured"), "[axis.rail]\r\nbacklash = \"0.1 mm\"  # measured\r\ntravel")
	assert.Contains(t, set(text, "axis.rail.backlash", "0.1 mm", ""), "backlash = \"0.1 mm\"\r\n")
	_, err := rig.Set("r.toml", []byte("[x"), "x", "1", "measured")
	assert.Error(t, err)
}

// A question that stands behind a # is answered where it stands, if it is of that table.
func TestAQuestionIsAnswered(t *testing.T) {
	question := "# backlash     = \"0.05 mm\" # to be measured: play that is taken up\n"
	for text, want := range map[string]string{
		"[axis.rail]\nspeed = \"4 mm/s\"\n" + question + "\n[axis.table]\n" + question: "[axis.rail]\nspeed = \"4 mm/s\"\nbacklash     = \"0.1 mm\" # measured\n\n[axis.table]\n" + question,
		"[axis.table]\n" + question + "[axis.rail]\nspeed = \"4 mm/s\"\n":              "[axis.table]\n" + question + "[axis.rail]\nbacklash = \"0.1 mm\"  # measured\nspeed = \"4 mm/s\"\n",
		"[axis.rail]\n# backlash = \"9 mm\" # worn belt\n":                             "[axis.rail]\nbacklash = \"0.1 mm\"  # measured\n# backlash = \"9 mm\" # worn belt\n",
		"[axis.rail]\nbacklash = \"1 mm\"\n" + question:                                "[axis.rail]\nbacklash = \"0.1 mm\"\n" + question,
	} {
		out, err := rig.Set("r.toml", []byte(text), "axis.rail.backlash", "0.1 mm", "measured")
		require.NoError(t, err)
		assert.Equal(t, want, string(out))
	}
}
