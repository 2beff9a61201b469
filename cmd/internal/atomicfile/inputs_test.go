package atomicfile_test

import (
	"io"
	"net"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/atomicfile"
)

// opened is a file that has been read by this run.
func opened(t *testing.T, dir, name string) string {
	t.Helper()
	path := filepath.Join(dir, name)
	require.NoError(t, os.WriteFile(path, []byte("input"), 0o600))
	f, err := atomicfile.Open(path)
	require.NoError(t, err)
	require.NoError(t, f.Close())
	return path
}

// What was read is not written over, however it is called.
func TestInputsAreNotWrittenOver(t *testing.T) {
	dir := t.TempDir()
	in := opened(t, dir, "shot.toml")
	link, hard, sub := filepath.Join(dir, "link"), filepath.Join(dir, "hard"), filepath.Join(dir, "sub")
	require.NoError(t, os.Symlink(in, link))
	require.NoError(t, os.Link(in, hard))
	require.NoError(t, os.Symlink(dir, sub))
	t.Chdir(dir)
	for _, path := range []string{in, link, hard, "shot.toml", "././shot.toml", "sub/./shot.toml", filepath.Join(sub, "shot.toml"), filepath.Join(sub, "link")} {
		assert.ErrorContains(t, atomicfile.Write(path, text("x")), "is read by this very run and is not written over", path)
		assert.ErrorContains(t, atomicfile.Refused(path), "is read by this very run and is not written over", path)
		assert.Equal(t, "input", read(t, in))
	}
	for _, name := range []string{"shot.toml", "link", "hard"} {
		for _, to := range []string{dir, sub} {
			err := atomicfile.Folder(to, []atomicfile.File{{"new", text("x")}, {name, text("x")}}, nil)
			assert.ErrorContains(t, err, "is read by this very run and is not written over", name)
		}
	}
	assert.ErrorContains(t, atomicfile.WriteBack(hard, text("x")), "is the same file as")
	assert.Equal(t, []string{"hard", "link", "shot.toml", "sub"}, names(t, dir))
	require.NoError(t, atomicfile.WriteBack(in, text("changed on purpose")))
	assert.Equal(t, "changed on purpose", read(t, in))
	require.NoError(t, atomicfile.WriteBack(link, text("changed through a link")))
	assert.Equal(t, "changed through a link", read(t, in))
	assert.ErrorContains(t, atomicfile.WriteBack(filepath.Join(dir, "none", "x"), nil), "no such file")
}

// A file that is saved anew by an editor is the same one to this run, and the old
// one's number may be anybody's.
func TestAnInputThatIsSavedAnewIsStillOne(t *testing.T) {
	dir := t.TempDir()
	in := opened(t, dir, "shot.toml")
	require.NoError(t, os.WriteFile(in+"~", []byte("newer"), 0o600))
	require.NoError(t, os.Rename(in, filepath.Join(dir, "backup")))
	require.NoError(t, os.Rename(in+"~", in))
	assert.Error(t, atomicfile.Write(in, text("x")))
	assert.NoError(t, atomicfile.Write(filepath.Join(dir, "backup"), text("x")))
	require.NoError(t, os.Remove(in))
	assert.NoError(t, atomicfile.Write(in, text("x")), "there is nothing to lose")
}

// A link that is laid while the file is filled is seen too.
func TestAnInputThatComesInTheWayMeanwhile(t *testing.T) {
	dir := t.TempDir()
	in := opened(t, dir, "shot.toml")
	out := filepath.Join(dir, "out")
	err := atomicfile.Write(filepath.Join(out, "loop.csv"), nil)
	require.Error(t, err, "there is no such folder")
	require.NoError(t, os.Mkdir(out, 0o700))
	laid := func(name string) atomicfile.File {
		return atomicfile.File{Name: name, Fill: func(w io.Writer) error {
			require.NoError(t, os.Link(in, filepath.Join(out, name)))
			return nil
		}}
	}
	assert.ErrorContains(t, atomicfile.Write(filepath.Join(out, "loop.csv"), laid("loop.csv").Fill), "is not written over")
	assert.ErrorContains(t, atomicfile.Folder(out, []atomicfile.File{laid("a")}, nil), "is not written over")
	assert.Equal(t, []string{"a", "loop.csv"}, names(t, out))
	assert.Equal(t, "input", read(t, in))
}

func TestALinkThatLeadsNowhereIsRefused(t *testing.T) {
	dir := t.TempDir()
	link := filepath.Join(dir, "link")
	require.NoError(t, os.Symlink(filepath.Join(dir, "card", "loop.csv"), link))
	want := link + " is a link to " + filepath.Join(dir, "card", "loop.csv") + ", which is not there; name that file itself, or take the link away"
	assert.EqualError(t, atomicfile.Write(link, text("x")), want)
	assert.EqualError(t, atomicfile.Folder(link, nil, nil), want)
	assert.EqualError(t, atomicfile.Folder(filepath.Join(link, "out"), nil, nil), want)
	assert.Equal(t, []string{"link"}, names(t, dir))
}

func TestALinkInAFolderIsNotReplaced(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.Symlink("elsewhere", filepath.Join(dir, "a")))
	assert.ErrorContains(t, atomicfile.Folder(dir, []atomicfile.File{{"a", text("x")}}, nil), "a is a link; move it away first")
	assert.Equal(t, []string{"a"}, names(t, dir))
}

func TestStandardOutputIsAnOutputToo(t *testing.T) {
	dir := t.TempDir()
	in := opened(t, dir, "shot.toml")
	f, err := os.OpenFile(in, os.O_APPEND|os.O_WRONLY, 0)
	require.NoError(t, err)
	defer func() { _ = f.Close() }()
	assert.ErrorContains(t, atomicfile.RefusedOutput(f), "standard output is the same file as "+in)
	assert.NoError(t, atomicfile.RefusedOutput(&net.TCPConn{}))
	null, err := os.OpenFile(os.DevNull, os.O_WRONLY, 0)
	require.NoError(t, err)
	defer func() { _ = null.Close() }()
	assert.NoError(t, atomicfile.RefusedOutput(null))
}

// Behind a link, ".." is where the system says.
func TestAWayThroughALink(t *testing.T) {
	dir := t.TempDir()
	there := filepath.Join(dir, "far", "there")
	require.NoError(t, os.MkdirAll(there, 0o700))
	here := filepath.Join(dir, "here")
	require.NoError(t, os.Mkdir(here, 0o700))
	t.Chdir(here)
	require.NoError(t, os.Symlink(there, "link"))
	require.NoError(t, atomicfile.Write("link/../a.csv", text("a")))
	require.NoError(t, atomicfile.Folder("link/../out/", []atomicfile.File{{"a", text("a")}}, nil))
	require.NoError(t, atomicfile.Folder("none/../out/in", []atomicfile.File{{"a", text("a")}}, nil))
	assert.Equal(t, []string{"a.csv", "out", "there"}, names(t, filepath.Join(dir, "far")))
	assert.Equal(t, []string{"link", "out"}, names(t, here))
	opened(t, dir, "far/shot.toml")
	assert.ErrorContains(t, atomicfile.Write("link/../shot.toml", text("x")), "is not written over")
}
