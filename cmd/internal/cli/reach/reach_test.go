package reach_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/cli/reach"
)

func TestReachParses(t *testing.T) {
	var got *reach.Options
	c := reach.NewCmdReach(command.Streams{}, func(o *reach.Options) error { got = o; return nil })
	c.SetArgs([]string{"--travel", "30 mm,60 mm", "-o", "r.png"})
	require.NoError(t, c.Execute())
	assert.Equal(t, []string{"30 mm", "60 mm"}, got.Travels)
	assert.Equal(t, "r.png", got.Output)
}
