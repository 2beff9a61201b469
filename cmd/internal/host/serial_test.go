//go:build linux || darwin

package host_test

import (
	"os"
	"testing"
	"time"

	"github.com/creack/pty"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/host"
	"seamrail/export/drive"
)

const baud = 115200

// The real serial library on a pseudo terminal: bytes both ways, one holder at
// a time, and an end that is told when the other side vanishes.
func TestSerialPort(t *testing.T) {
	board, tty, err := pty.Open()
	require.NoError(t, err)
	defer func() { _ = tty.Close() }()
	port, err := host.Open(tty.Name(), baud)
	require.NoError(t, err)
	if os.Geteuid() != 0 { // the superuser is let in (ioctl_tty(2), TIOCEXCL)
		_, err = host.Open(tty.Name(), baud)
		assert.ErrorContains(t, err, "is in use by another program")
	}
	w := host.New(port, baud, nil, nil)
	n, err := w.Write([]byte("G4 P0.5\n"))
	require.NoError(t, err)
	require.Equal(t, 8, n)
	buf := make([]byte, 64)
	n, err = board.Read(buf)
	require.NoError(t, err)
	assert.Equal(t, "G4 P0.5\n", string(buf[:n]))
	_, err = board.Write([]byte("ok\r\n"))
	require.NoError(t, err)
	e := w.Wait(w.Now().Add(soon))
	assert.Equal(t, drive.Heard, e.Kind)
	assert.Equal(t, "ok\r\n", string(e.Bytes))
	require.NoError(t, board.Close())
	assert.Equal(t, drive.Gone, w.Wait(w.Now().Add(soon)).Kind)
	began := time.Now()
	assert.NoError(t, w.Close())
	assert.Less(t, time.Since(began), soon)
}

func TestPortsThatCannotBeOpened(t *testing.T) {
	_, err := host.Open("/dev/no-such-port", baud)
	assert.EqualError(t, err, `port /dev/no-such-port is not there; "seamrail ports" lists those that are`)
	_, err = host.Open("/dev/null", baud)
	assert.EqualError(t, err, "/dev/null is not a serial port")
	_, err = host.Open(t.TempDir(), baud)
	assert.Error(t, err)
}
