package session

import (
	"bytes"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/job"
	"seamrail/export/drive"
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

// However many keys repeat while the engine is held up, what stops the rig or lets go of it
// is not what is lost.
func TestAStopIsNotCrowdedOut(t *testing.T) {
	hold := drive.Request{Kind: drive.JogHold}
	for _, kind := range []drive.RequestKind{drive.Stop, drive.Quit, drive.JogRelease} {
		to := make(chan drive.Request, requestsHeld)
		for range 2 * requestsHeld {
			offer(to, hold)
		}
		require.Len(t, to, requestsHeld)
		offer(to, drive.Request{Kind: kind})
		for range 2 * requestsHeld { // and not by those that come after it
			offer(to, hold)
			offer(to, drive.Request{Kind: drive.JogRelease})
		}
		found := false
		for range requestsHeld {
			found = found || (<-to).Kind == kind
		}
		assert.True(t, found)
	}
}
