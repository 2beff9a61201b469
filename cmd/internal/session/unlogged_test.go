package session

import (
	"bytes"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/job"
)

// A rig without a shot is driven without a log, which would lie beside nothing.
func TestARigAloneIsNotLogged(t *testing.T) {
	t.Chdir(t.TempDir())
	j, err := job.AtRest("")
	require.NoError(t, err)
	var out bytes.Buffer
	o := Options{Unlogged: true, Virtual: true, Fast: true, Confirmed: true, Terminal: Terminal{Out: &out}}
	require.NoError(t, Operate(o, j, func() {}), out.String())
	assert.Contains(t, out.String(), "Virtual take 1: finished, 1 round")
	left, err := os.ReadDir(".")
	require.NoError(t, err)
	assert.Empty(t, left)
}
