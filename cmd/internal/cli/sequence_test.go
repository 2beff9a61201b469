package cli_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/cli"
)

func TestSequenceParses(t *testing.T) {
	var got *cli.SequenceOptions
	c := cli.NewCmdSequence(cli.Streams{}, func(o *cli.SequenceOptions) error { got = o; return nil })
	require.NoError(t, parse(c, "day/clip.toml", "--json", "-o", "strip.pdf"))
	assert.Equal(t, "day/clip.toml", got.File)
	assert.Equal(t, "strip.pdf", got.Output)
	assert.True(t, got.JSON)
	c = cli.NewCmdSequence(cli.Streams{}, func(o *cli.SequenceOptions) error { got = o; return nil })
	require.NoError(t, parse(c))
	assert.Empty(t, got.File)
	assert.Empty(t, got.Output)
	assert.Error(t, parse(c, "a.toml", "b.toml"))
}
