package cli_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/cli"
	"seamrail/cmd/internal/cli/command"
)

func TestSheetParses(t *testing.T) {
	var got *cli.SheetOptions
	c := cli.NewCmdSheet(command.Streams{}, func(o *cli.SheetOptions) error { got = o; return nil })
	require.NoError(t, parse(c, "a.toml", "-o", "a.html", "--rig", "r.toml"))
	assert.Equal(t, "a.toml", got.Shot.Shot)
	assert.Equal(t, "r.toml", got.Shot.Rig)
	assert.Equal(t, "a.html", got.Output)
	require.NoError(t, parse(c, "--sequence", "clip.toml"))
	assert.Equal(t, "clip.toml", got.Sequence)
	require.Error(t, parse(c, "a.toml", "b.toml"))
}
