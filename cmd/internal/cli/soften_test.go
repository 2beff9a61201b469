package cli_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/cli"
	"seamrail/cmd/internal/cli/command"
)

func TestSoftenParses(t *testing.T) {
	var got *cli.SoftenOptions
	c := cli.NewCmdSoften(command.Streams{}, func(o *cli.SoftenOptions) error { got = o; return nil })
	require.NoError(t, parse(c, "a.toml", "--frequency", "6 Hz", "--damping", "3 %", "--limits", "50 %", "--keep", "jerk", "--json", "--axis", "rail"))
	assert.Equal(t, "a.toml", got.Shot.Shot)
	assert.Equal(t, "6 Hz", got.Frequency)
	assert.Equal(t, "3 %", got.Damping)
	assert.Equal(t, "50 %", got.Limits)
	assert.Equal(t, "jerk", got.Keep)
	assert.Equal(t, "rail", got.Shot.Axis)
	assert.True(t, got.JSON)
	require.Error(t, parse(c, "a.toml", "b.toml"))
}
