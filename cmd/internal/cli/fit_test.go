package cli

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/cli/command"
	"seamrail/motion/camera/picture"
)

func TestFitParses(t *testing.T) {
	var got *FitOptions
	c := NewCmdFit(command.Streams{}, func(o *FitOptions) error { got = o; return nil })
	c.SetArgs([]string{"lantern.toml", "--between", "4 s,12 s", "--laws", "3-4-5,harmonic", "--accept", "good", "--json", "--loop", "5 s"})
	require.NoError(t, c.Execute())
	assert.Equal(t, "lantern.toml", got.Shot.Shot)
	assert.Equal(t, []string{"4 s", "12 s"}, got.Between)
	assert.Equal(t, []string{"3-4-5", "harmonic"}, got.Laws)
	assert.Equal(t, picture.Good.String(), got.Accept)
	assert.True(t, got.JSON)
}
