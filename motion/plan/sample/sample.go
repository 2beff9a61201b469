// Package sample makes small trajectories for tests of exporters, and
// writers that fail.
package sample

import (
	"bytes"
	"errors"
	"flag"
	"io"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/motion/plan/trajectory"
	"seamrail/motion/verify"
)

// Text returns what write writes for tr with its own verdict.
func Text(t testing.TB, tr *trajectory.Trajectory, write func(io.Writer, verify.Verdict) error) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, write(&b, verify.Check(tr)))
	return b.String()
}

// Broken is an io.Writer that takes Room bytes and then fails with ErrFull.
type Broken struct{ Room int }

// ErrFull is how a Broken writer fails.
var ErrFull = errors.New("no room left")

// Write takes what fits.
func (b *Broken) Write(p []byte) (int, error) {
	if len(p) > b.Room {
		n := b.Room
		b.Room = 0
		return n, ErrFull
	}
	b.Room -= len(p)
	return len(p), nil
}

// Fails checks that write hands on the error of a writer that fails at once,
// and of one that fails within the last bytes.
func Fails(t *testing.T, size int, write func(io.Writer) error) {
	t.Helper()
	for _, room := range []int{0, 1, size / 2, size - 1} {
		err := write(&Broken{Room: room})
		require.ErrorIs(t, err, ErrFull, "with room for %d bytes", room)
		require.NotEqual(t, ErrFull.Error(), err.Error(), "the error says what was being written")
	}
	require.NoError(t, write(&Broken{Room: size}))
}

var update = flag.Bool("update", false, "rewrite the golden files")

// Golden compares text with a file in testdata, or with -update writes it.
func Golden(t *testing.T, name, text string) {
	t.Helper()
	held(t, filepath.Join("testdata", name), text)
}

// held compares text with a file, or with -update writes it.
func held(t *testing.T, path, text string) {
	t.Helper()
	if *update {
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, string(want), text)
}
