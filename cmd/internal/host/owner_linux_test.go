package host_test

import (
	"os"
	"os/exec"
	"testing"

	"github.com/creack/pty"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/host"
)

// Who else has a port open is named, and we are not.
func TestHolders(t *testing.T) {
	board, tty, err := pty.Open()
	require.NoError(t, err)
	defer func() { _, _ = board.Close(), tty.Close() }()
	assert.Empty(t, host.Holders(tty.Name()))
	assert.Empty(t, host.Holders("/dev/no-such-port"))
	other := exec.Command("cat")
	other.Stdin = tty
	require.NoError(t, other.Start())
	defer func() { _, _ = other.Process.Kill(), other.Wait() }()
	require.Len(t, host.Holders(tty.Name()), 1)
	assert.Regexp(t, `^\S+ \(process \d+\)$`, host.Holders(tty.Name())[0])
	if os.Geteuid() == 0 {
		assert.NotEmpty(t, host.GroupOf("/dev/null"))
	}
	assert.Empty(t, host.GroupOf("/dev/no-such-port"))
}
