//go:build unix

package atomicfile_test

import (
	"net"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/atomicfile"
)

func TestOnlyPlainFilesAreRead(t *testing.T) {
	dir := t.TempDir()
	pipe, socket := filepath.Join(dir, "pipe"), filepath.Join(dir, "socket")
	require.NoError(t, syscall.Mkfifo(pipe, 0o600))
	l, err := net.Listen("unix", socket)
	require.NoError(t, err)
	defer func() { _ = l.Close() }()
	for name, want := range map[string]string{
		pipe:        "is a pipe; save what comes out of it to a file first, and name that",
		socket:      "is a socket; save what comes out of it to a file first, and name that",
		os.DevNull:  "is a device; name a plain file",
		dir:         "is a folder; name a file in it",
		dir + "/no": "no such file",
	} {
		_, err := atomicfile.Open(name)
		assert.ErrorContains(t, err, want)
		assert.ErrorContains(t, err, name)
	}
	assert.ErrorContains(t, atomicfile.Folder(dir, []atomicfile.File{{"pipe", text("x")}}, nil), "pipe is no plain file; move it away first")
}
