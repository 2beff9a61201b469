//go:build linux || darwin

package cli_test

import (
	"bytes"
	"io"
	"os"
	"os/exec"
	"testing"
	"time"

	"github.com/creack/pty"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/exit"
)

// at types into the program at a terminal, once it has printed what it is waited for, and
// returns its exit code and what it printed.
func at(t *testing.T, dir, until, typed string, args ...string) (code int, printed string) {
	t.Helper()
	cmd := exec.Command("seamrail", args...)
	cmd.Dir = dir
	master, err := pty.StartWithSize(cmd, &pty.Winsize{Rows: 24, Cols: 80})
	require.NoError(t, err)
	terminal := waitable(t, master)
	defer terminal.Close()
	require.NoError(t, terminal.SetDeadline(time.Now().Add(patience)))
	var out bytes.Buffer
	for some := make([]byte, 4096); !bytes.Contains(out.Bytes(), []byte(until)); {
		n, err := terminal.Read(some)
		require.NoError(t, err, out.String())
		out.Write(some[:n])
	}
	_, err = terminal.WriteString(typed)
	require.NoError(t, err)
	_, _ = io.Copy(&out, terminal) // ends with an error of its own when the program is gone
	_ = cmd.Wait()
	return cmd.ProcessState.ExitCode(), out.String()
}

// At a real terminal the numbers are asked; Ctrl-C and Ctrl-D write nothing.
func TestNewAtATerminal(t *testing.T) {
	dir := t.TempDir()
	code, printed := at(t, dir, "capture (23.976 to 240) [119.88] ", "\n\n\n\n260 mm\n", "new", "pass")
	assert.Equal(t, exit.Fine, code, printed)
	assert.Contains(t, printed, "Enter keeps what stands in brackets")
	text, err := os.ReadFile(dir + "/pass.toml")
	require.NoError(t, err)
	assert.Contains(t, string(text), `distance = "260 mm"`)

	for typed, want := range map[string]int{"\x03": exit.Stopped, "\x04": exit.Usage, "3\n\n\x03": exit.Stopped} {
		dir := t.TempDir()
		code, printed := at(t, dir, "> ", typed, "new")
		assert.Equal(t, want, code, printed)
		assert.Contains(t, printed, "out-of-dark")
		entries, err := os.ReadDir(dir)
		require.NoError(t, err)
		assert.Empty(t, entries, "%q", typed)
	}
}
