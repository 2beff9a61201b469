package spin_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/cli/spin"
)

func TestSpinParses(t *testing.T) {
	var got *spin.Options
	c := spin.NewCmdSpin(command.Streams{}, func(o *spin.Options) error { got = o; return nil })
	c.SetArgs([]string{"a.toml", "--period", "20.4 s", "--period", "10 s", "--uncertainty", "0.05 s",
		"--timed", "20 turns in 412.3 s", "--reaction", "0.2 s", "--direction", "anticlockwise", "--drift", "1 %",
		"--also", "period 11 s, symmetry 4", "--symmetry", "6", "--radius", "45 mm", "--pixels-per-mm", "12",
		"--within", "0.5 px", "--between", "4 s,12 s", "--cycles", "2", "--offers", "60,100", "--most", "3",
		"--rig", "r.toml", "--json", "-o", "s.png"})
	require.NoError(t, c.Execute())
	assert.Equal(t, "a.toml", got.Shot.Shot)
	assert.Equal(t, "r.toml", got.Shot.Rig)
	assert.Equal(t, []string{"20.4 s", "10 s"}, got.Periods)
	assert.Equal(t, "0.05 s", got.Uncertainty)
	assert.Equal(t, []string{"20 turns in 412.3 s"}, got.Timed)
	assert.Equal(t, "0.2 s", got.Reaction)
	assert.Equal(t, "anticlockwise", got.Direction)
	assert.Equal(t, "1 %", got.Drift)
	assert.Equal(t, []string{"period 11 s, symmetry 4"}, got.Also, "its commas part its properties")
	assert.Equal(t, "6", got.Symmetry)
	assert.Equal(t, "45 mm", got.Radius)
	assert.Equal(t, "12", got.Pixels)
	assert.Equal(t, "0.5 px", got.Within)
	assert.Equal(t, []string{"4 s", "12 s"}, got.Between)
	assert.Equal(t, "2", got.Cycles)
	assert.Equal(t, []string{"60", "100"}, got.Offers)
	assert.Equal(t, 3, got.Most)
	assert.True(t, got.JSON)
	assert.Equal(t, "s.png", got.Output)
}

func TestSpinDefaults(t *testing.T) {
	var got *spin.Options
	c := spin.NewCmdSpin(command.Streams{}, func(o *spin.Options) error { got = o; return nil })
	c.SetArgs(nil)
	require.NoError(t, c.Execute())
	assert.Empty(t, got.Shot.Shot)
	assert.Empty(t, got.Periods)
	assert.Equal(t, 10, got.Most)
	assert.False(t, got.JSON)
	assert.Empty(t, got.Output)
}
