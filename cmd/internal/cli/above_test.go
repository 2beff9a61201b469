package cli_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/cli"
	"seamrail/cmd/internal/cli/command"
)

func TestAboveParses(t *testing.T) {
	var got *cli.AboveOptions
	c := cli.NewCmdAbove(command.Streams{}, func(o *cli.AboveOptions) error { got = o; return nil })
	require.NoError(t, parse(c, "a.toml", "-o", "s.svg", "--paper", "A3", "--scale", "1:2"))
	assert.Equal(t, "a.toml", got.Shot.Shot)
	assert.Equal(t, []string{"s.svg", "A3", "1:2"}, []string{got.Output, got.Paper, got.Scale})
	c = cli.NewCmdAbove(command.Streams{}, func(o *cli.AboveOptions) error { got = o; return nil })
	require.NoError(t, parse(c))
	assert.Equal(t, []string{"above.pdf", "A4", ""}, []string{got.Output, got.Paper, got.Scale})
	assert.Error(t, parse(c, "a.toml", "b.toml"))
}
