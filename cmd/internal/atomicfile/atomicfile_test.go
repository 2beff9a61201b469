package atomicfile_test

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/atomicfile"
)

func text(s string) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := io.WriteString(w, s)
		return err
	}
}

func failing(w io.Writer) error {
	_, _ = io.WriteString(w, "half")
	return errors.New("ran out of film")
}

func read(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(data)
}

func names(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	var out []string
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return out
}

func TestWriteReplacesAndKeepsTheMode(t *testing.T) {
	path := filepath.Join(t.TempDir(), "loop.csv")
	require.NoError(t, os.WriteFile(path, []byte("old"), 0o640))
	require.NoError(t, atomicfile.Write(path, text("new")))
	assert.Equal(t, "new", read(t, path))
	info, err := os.Stat(path)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o640), info.Mode().Perm())
}

func TestFailedFillLeavesTheOldFileAndNothingElse(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "loop.csv")
	require.NoError(t, os.WriteFile(path, []byte("old"), 0o644))
	assert.EqualError(t, atomicfile.Write(path, failing), "ran out of film")
	assert.Equal(t, "old", read(t, path))
	assert.Equal(t, []string{"loop.csv"}, names(t, dir))
}

func TestFailedFillLeavesNoNewFile(t *testing.T) {
	dir := t.TempDir()
	require.Error(t, atomicfile.Write(filepath.Join(dir, "loop.csv"), failing))
	assert.Empty(t, names(t, dir))
}

func TestALinkKeepsPointing(t *testing.T) {
	dir := t.TempDir()
	target, link := filepath.Join(dir, "real"), filepath.Join(dir, "link")
	require.NoError(t, os.WriteFile(target, []byte("old"), 0o644))
	require.NoError(t, os.Symlink(target, link))
	require.NoError(t, atomicfile.Write(link, text("new")))
	assert.Equal(t, "new", read(t, target))
	info, err := os.Lstat(link)
	require.NoError(t, err)
	assert.NotZero(t, info.Mode()&os.ModeSymlink)
}

func TestClearErrors(t *testing.T) {
	dir := t.TempDir()
	assert.ErrorContains(t, atomicfile.Write(dir, text("x")), "is a folder; name a file in it")
	assert.ErrorContains(t, atomicfile.Write("", text("x")), "has no name")
	missing := filepath.Join(dir, "none", "loop.csv")
	assert.EqualError(t, atomicfile.Write(missing, text("x")),
		"cannot write "+missing+": no such file or directory; nothing was changed")
	under := filepath.Join(dir, "file")
	require.NoError(t, os.WriteFile(under, nil, 0o644))
	assert.ErrorContains(t, atomicfile.Write(filepath.Join(under, "x"), text("x")), "not a directory")
}

func TestFullDiskSaysSo(t *testing.T) {
	if _, err := os.Stat("/dev/full"); err != nil {
		t.Skip("this system has no /dev/full")
	}
	assert.EqualError(t, atomicfile.Write("/dev/full", text("x")),
		"cannot write /dev/full: no space left on device; nothing was changed")
}

func TestFolderIsAllOrNothing(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	require.NoError(t, atomicfile.Folder(dir, []atomicfile.File{{"a", text("1")}, {"b", text("2")}}, nil))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "mine"), nil, 0o644))
	var seen []string
	err := atomicfile.Folder(dir, []atomicfile.File{{"a", text("3")}, {"b", failing}}, func(n string) { seen = append(seen, n) })
	assert.EqualError(t, err, "b: ran out of film")
	assert.Equal(t, "1", read(t, filepath.Join(dir, "a")))
	assert.Equal(t, []string{"a", "b", "mine"}, names(t, dir))
	assert.Equal(t, []string{"a", "b"}, seen)
}

func TestFolderRefusesWhatIsInTheWay(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "file")
	require.NoError(t, os.WriteFile(file, nil, 0o644))
	assert.ErrorContains(t, atomicfile.Folder(file, nil, nil), "is a file; name a folder")
	require.NoError(t, os.Mkdir(filepath.Join(dir, "a"), 0o777))
	assert.ErrorContains(t, atomicfile.Folder(dir, []atomicfile.File{{"a", text("1")}}, nil), "move it away")
}
