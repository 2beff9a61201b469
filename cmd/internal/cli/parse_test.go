package cli_test

import (
	"bytes"
	"io"
	"testing"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/cli"
)

// parse runs a command on a command line with its output caught.
func parse(c *cobra.Command, args ...string) error {
	c.SetArgs(args)
	c.SetOut(io.Discard)
	c.SetErr(io.Discard)
	c.SilenceErrors, c.SilenceUsage = true, true
	return c.Execute()
}

func TestExportParses(t *testing.T) {
	var got *cli.ExportOptions
	c := cli.NewCmdExport(cli.Streams{}, func(o *cli.ExportOptions) error { got = o; return nil })
	require.NoError(t, parse(c, "steps", "a.toml", "-o", "s.csv", "--unit", "us", "--tick", "2 ms", "--force"))
	assert.Equal(t, "steps", got.What)
	assert.Equal(t, "a.toml", got.Shot.Shot)
	assert.Equal(t, "s.csv", got.Output)
	assert.Equal(t, "us", got.Unit)
	assert.Equal(t, "2 ms", got.Tick)
	assert.True(t, got.Force)
}

func TestExportDefaults(t *testing.T) {
	var got *cli.ExportOptions
	c := cli.NewCmdExport(cli.Streams{}, func(o *cli.ExportOptions) error { got = o; return nil })
	require.NoError(t, parse(c, "frames"))
	assert.Equal(t, "-", got.Output)
	assert.Equal(t, "ns", got.Unit)
	assert.Equal(t, "1 ms", got.Tick)
	assert.Empty(t, got.Shot.Shot)
	assert.False(t, got.Force)
}

func TestPlotParses(t *testing.T) {
	var got *cli.PlotOptions
	c := cli.NewCmdPlot(cli.Streams{}, func(o *cli.PlotOptions) error { got = o; return nil })
	require.NoError(t, parse(c, "a.toml", "--jerk", "--compare", "harmonic,3-4-5", "--rig", "r.toml"))
	assert.Equal(t, "loop.png", got.Output)
	assert.True(t, got.Jerk)
	assert.Equal(t, []string{"harmonic", "3-4-5"}, got.Compare)
	assert.Equal(t, "r.toml", got.Shot.Rig)
}

func TestPlanParses(t *testing.T) {
	var got *cli.PlanOptions
	c := cli.NewCmdPlan(cli.Streams{}, func(o *cli.PlanOptions) error { got = o; return nil })
	require.NoError(t, parse(c, "--json", "--axis", "focus"))
	assert.True(t, got.JSON)
	assert.Equal(t, "focus", got.Shot.Axis)
}

func TestReachParsesAndMakeHasItsFolder(t *testing.T) {
	var reach *cli.ReachOptions
	c := cli.NewCmdReach(cli.Streams{}, func(o *cli.ReachOptions) error { reach = o; return nil })
	require.NoError(t, parse(c, "--travel", "30 mm,60 mm", "-o", "r.png"))
	assert.Equal(t, []string{"30 mm", "60 mm"}, reach.Travels)
	assert.Equal(t, "r.png", reach.Output)
	var made *cli.MakeOptions
	c = cli.NewCmdMake(cli.Streams{}, func(o *cli.MakeOptions) error { made = o; return nil })
	require.NoError(t, parse(c))
	assert.Equal(t, "loop", made.Output)
}

func TestNewWritesHereUnlessTold(t *testing.T) {
	var got *cli.NewOptions
	c := cli.NewCmdNew(cli.Streams{}, func(o *cli.NewOptions) error { got = o; return nil })
	require.NoError(t, parse(c))
	assert.Equal(t, ".", got.Dir)
}

// TestColour runs the plan for a terminal: the words are the same, and every
// colour that is put on is taken off again.
func TestColour(t *testing.T) {
	var plain, colour bytes.Buffer
	require.Zero(t, cli.Run(cli.Streams{Out: &plain, Err: io.Discard}, []string{"plan"}))
	require.Zero(t, cli.Run(cli.Streams{Out: &colour, Err: io.Discard, Colour: true}, []string{"plan"}))
	assert.NotContains(t, plain.String(), "\x1b")
	assert.Equal(t, bytes.Count(colour.Bytes(), []byte("\x1b[")), 2*bytes.Count(colour.Bytes(), []byte("\x1b[0m")))
	assert.Equal(t, bytes.Count(plain.Bytes(), []byte("\n")), bytes.Count(colour.Bytes(), []byte("\n")))
}
