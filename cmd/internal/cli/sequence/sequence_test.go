package sequence_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/cli/sequence"
)

func TestSequenceParses(t *testing.T) {
	var got *sequence.Options
	c := sequence.NewCmdSequence(command.Streams{}, func(o *sequence.Options) error { got = o; return nil })
	c.SetArgs([]string{"day/clip.toml", "--json", "--takes", "5", "-o", "strip.pdf", "--make", "out"})
	require.NoError(t, c.Execute())
	assert.Equal(t, "day/clip.toml", got.File)
	assert.Equal(t, "strip.pdf", got.Output)
	assert.Equal(t, "out", got.Make)
	assert.True(t, got.Told.JSON)
	assert.Equal(t, "5", got.Takes)
	c = sequence.NewCmdSequence(command.Streams{}, func(o *sequence.Options) error { got = o; return nil })
	c.SetArgs(nil)
	require.NoError(t, c.Execute())
	assert.Empty(t, got.File)
	assert.Empty(t, got.Output)
	assert.Error(t, c.Args(c, []string{"a.toml", "b.toml"}))
}
