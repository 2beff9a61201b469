package shake_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/cli/shake"
)

func TestShakeParses(t *testing.T) {
	var got *shake.Options
	c := shake.NewCmdShake(command.Streams{}, func(o *shake.Options) error { got = o; return nil })
	c.SetArgs([]string{"a.toml", "--axis", "rail", "--ring-down", "k.csv", "--column", "2", "--pixels-per-mm", "12", "--json", "-o", "s.png"})
	require.NoError(t, c.Execute())
	assert.Equal(t, "a.toml", got.Shot.Shot)
	assert.Equal(t, "rail", got.Shot.Axis)
	assert.Equal(t, "k.csv", got.RingDown)
	assert.Equal(t, 2, got.Column)
	assert.Equal(t, "12", got.Pixels)
	assert.True(t, got.JSON)
	assert.Equal(t, "s.png", got.Output)

	c = shake.NewCmdShake(command.Streams{}, func(o *shake.Options) error { got = o; return nil })
	c.SetArgs([]string{"--peaks", "2 at 0.1 s,1 at 0.3 s"})
	require.NoError(t, c.Execute())
	assert.Equal(t, []string{"2 at 0.1 s", "1 at 0.3 s"}, got.Peaks)
	assert.Error(t, c.Args(c, []string{"a.toml", "b.toml"}))
}
