package cli_test

import (
	"bytes"
	"io"
	"testing"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/cli"
	"seamrail/cmd/internal/cli/command"
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
	c := cli.NewCmdExport(command.Streams{}, func(o *cli.ExportOptions) error { got = o; return nil })
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
	c := cli.NewCmdExport(command.Streams{}, func(o *cli.ExportOptions) error { got = o; return nil })
	require.NoError(t, parse(c, "frames"))
	assert.Equal(t, "-", got.Output)
	assert.Equal(t, "ns", got.Unit)
	assert.Equal(t, "1 ms", got.Tick)
	assert.Empty(t, got.Shot.Shot)
	assert.False(t, got.Force)
}

func TestPlanParses(t *testing.T) {
	var got *cli.PlanOptions
	c := cli.NewCmdPlan(command.Streams{}, func(o *cli.PlanOptions) error { got = o; return nil })
	require.NoError(t, parse(c, "--json", "--axis", "focus"))
	assert.True(t, got.Told.JSON)
	assert.Equal(t, "focus", got.Shot.Axis)
}

func TestMakeHasItsFolder(t *testing.T) {
	var made *cli.MakeOptions
	c := cli.NewCmdMake(command.Streams{}, func(o *cli.MakeOptions) error { made = o; return nil })
	require.NoError(t, parse(c))
	assert.Equal(t, "loop", made.Output)
}

// TestColour runs the plan for a terminal: the words are the same, and every
// colour that is put on is taken off again.
func TestColour(t *testing.T) {
	var plain, colour bytes.Buffer
	require.Zero(t, cli.Run(command.Streams{Out: &plain, Err: io.Discard}, []string{"plan"}))
	require.Zero(t, cli.Run(command.Streams{Out: &colour, Err: io.Discard, Colour: true}, []string{"plan"}))
	assert.NotContains(t, plain.String(), "\x1b")
	assert.Equal(t, bytes.Count(colour.Bytes(), []byte("\x1b[")), 2*bytes.Count(colour.Bytes(), []byte("\x1b[0m")))
	assert.Equal(t, bytes.Count(plain.Bytes(), []byte("\n")), bytes.Count(colour.Bytes(), []byte("\n")))
}
