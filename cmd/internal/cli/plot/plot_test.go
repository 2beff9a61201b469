package plot_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/cli/plot"
)

func TestPlotParses(t *testing.T) {
	var got *plot.Options
	c := plot.NewCmdPlot(command.Streams{}, func(o *plot.Options) error { got = o; return nil })
	c.SetArgs([]string{"a.toml", "--jerk", "--compare", "harmonic,3-4-5", "--rig", "r.toml"})
	require.NoError(t, c.Execute())
	assert.Equal(t, "loop.png", got.Output)
	assert.True(t, got.Jerk)
	assert.Equal(t, []string{"harmonic", "3-4-5"}, got.Compare)
	assert.Equal(t, "r.toml", got.Shot.Rig)
}
