package atomicfile

import (
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/hold"
)

// sameFolder makes a folder anew and tells whether it is still the same one.
func sameFolder(t *testing.T, dir string) bool {
	t.Helper()
	was, err := os.Stat(dir)
	require.NoError(t, err)
	require.NoError(t, Folder(dir, set("new"), nil))
	is, err := os.Stat(dir)
	require.NoError(t, err)
	require.Equal(t, "new", holds(t, dir)["a"])
	require.Empty(t, parts(t, filepath.Dir(dir)))
	return os.SameFile(was, is)
}

// Who works in a folder still works in it afterwards; else it is exchanged.
func TestAFolderThatSomebodyWorksIn(t *testing.T) {
	_, dir := prepared(t, map[string]string{"a": "old", "mine": "mine"}, false)
	assert.Equal(t, runtime.GOOS != "linux", sameFolder(t, dir))

	f, err := os.Open(dir)
	require.NoError(t, err)
	hold.Stay(f)
	assert.True(t, sameFolder(t, dir), "a page")
	require.NoError(t, f.Close())

	sleep := exec.Command("sleep", "60")
	sleep.Dir = dir
	if err := sleep.Start(); err == nil {
		assert.True(t, sameFolder(t, dir), "a shell")
		require.NoError(t, sleep.Process.Kill())
		_ = sleep.Wait() // it was killed
	}

	t.Chdir(dir)
	assert.True(t, sameFolder(t, dir), "this program")
	require.NoError(t, Folder(".", set("newest"), nil))
	assert.Equal(t, "newest", holds(t, ".")["a"])
}

// What a new folder would not have keeps the old one.
func TestAFolderThatHandsItsGroupDown(t *testing.T) {
	_, dir := prepared(t, map[string]string{"a": "old"}, false)
	require.NoError(t, os.Chmod(dir, 0o750|os.ModeSetgid))
	assert.True(t, sameFolder(t, dir))
	info, err := os.Stat(dir)
	require.NoError(t, err)
	assert.NotZero(t, info.Mode()&os.ModeSetgid)
}

func TestALinkToAFolderStaysOne(t *testing.T) {
	root, dir := prepared(t, map[string]string{"a": "old", "mine": "mine"}, false)
	link := filepath.Join(root, "link")
	require.NoError(t, os.Symlink(dir, link))
	require.NoError(t, Folder(link, set("new"), nil))
	assert.Equal(t, "new", holds(t, dir)["b"])
	assert.Equal(t, "mine", holds(t, dir)["mine"])
	to, err := os.Readlink(link)
	require.NoError(t, err)
	assert.Equal(t, dir, to)
}

// A file that somebody has open, or that has another link, stays what it is.
func TestOtherFilesStayTheSame(t *testing.T) {
	root, dir := prepared(t, map[string]string{"a": "old", "mine": "mine"}, false)
	mine, other := filepath.Join(dir, "mine"), filepath.Join(root, "other")
	require.NoError(t, os.Link(mine, other))
	require.NoError(t, os.Symlink("mine", filepath.Join(dir, "alias")))
	f, err := os.OpenFile(mine, os.O_APPEND|os.O_WRONLY, 0)
	require.NoError(t, err)
	require.NoError(t, Folder(dir, set("new"), nil))
	_, err = f.WriteString(" still")
	require.NoError(t, err)
	require.NoError(t, f.Close())
	assert.Equal(t, "mine still", holds(t, dir)["mine"])
	assert.Equal(t, "mine still", holds(t, root)["other"])
	to, err := os.Readlink(filepath.Join(dir, "alias"))
	require.NoError(t, err)
	assert.Equal(t, "mine", to)
}

// Two runs that make the same folder at once both do, one after the other.
func TestAnotherRunWasQuicker(t *testing.T) {
	root, dir := prepared(t, nil, false)
	first := File{"a", func(w io.Writer) error {
		require.NoError(t, Folder(dir, set("quick"), nil))
		return says("slow")(w)
	}}
	calls := 0
	again := File{"a", func(w io.Writer) error {
		if calls++; calls == 1 {
			return first.Fill(w)
		}
		return says("slow")(w)
	}}
	require.NoError(t, Folder(dir, []File{again}, nil))
	assert.Equal(t, map[string]string{"to/out/a": "slow", "to/out/b": "quick", "to/out/c": "quick"}, holds(t, root))
	assert.Empty(t, parts(t, root))
}

func TestNamesThatAreTooLongToBePartOfAnother(t *testing.T) {
	dir := t.TempDir()
	long := strings.Repeat("x", 250)
	path := filepath.Join(dir, long)
	require.NoError(t, Write(path, says("new")))
	require.NoError(t, Folder(filepath.Join(dir, "y"+long), set("new"), nil))
	assert.Equal(t, "new", holds(t, dir)[long])
	assert.True(t, isPart(PartName(long), long))
	assert.False(t, isPart(PartName(long), "y"+long))
	assert.True(t, isPart(PartName("/"), "/"))
	assert.False(t, isPart(".loop.csv.part", "loop.csv"))
}

func TestAFolderWithoutAName(t *testing.T) {
	assert.ErrorContains(t, Folder("", nil, nil), "has no name")
}

func TestAFolderBelowAFile(t *testing.T) {
	_, dir := prepared(t, map[string]string{"a": "old"}, false)
	assert.ErrorContains(t, Folder(filepath.Join(dir, "a", "out"), nil, nil), "not a directory; nothing was changed")
}

// What is unfinished stays so where finishing it would write over what is read.
func TestWhatIsUnfinishedWritesOverNoInput(t *testing.T) {
	_, dir := prepared(t, map[string]string{"a": "old", "shot.toml": "input"}, true)
	waits := filepath.Join(dir, seenName())
	require.NoError(t, os.MkdirAll(filepath.Join(waits, "new"), 0o700))
	require.NoError(t, os.WriteFile(filepath.Join(waits, "new", "shot.toml"), nil, 0o600))
	Read(filepath.Join(dir, "shot.toml"))
	Settle(dir)
	assert.Equal(t, "input", holds(t, dir)["shot.toml"])
	assert.DirExists(t, waits)
	assert.ErrorContains(t, Folder(dir, []File{{"shot.toml", says("x")}}, nil), "is not written over")
}

// thief is a disk on which another run sweeps what is made, so many times, before
// it can be held.
type thief struct {
	system
	times int
	busy  bool // there is always one of that name
}

func (d *thief) create(name string) (file, error) {
	if d.busy {
		return nil, fs.ErrExist
	}
	f, err := d.system.create(name)
	if d.times--; d.times >= 0 {
		_ = os.Remove(name)
	}
	return f, err
}

func (d *thief) mkdir(name string, mode fs.FileMode) error {
	if d.busy {
		return fs.ErrExist
	}
	err := d.system.mkdir(name, mode)
	if d.times--; d.times >= 0 {
		_ = os.Remove(name)
	}
	return err
}

func TestWhatIsSweptBeforeItIsHeldIsMadeAgain(t *testing.T) {
	_, dir := prepared(t, map[string]string{"mine": "mine"}, false)
	path := filepath.Join(dir, "a")
	with(&thief{times: 3}, func() { require.NoError(t, Write(path, says("new"))) })
	assert.Equal(t, "new", holds(t, dir)["a"])
	with(&thief{times: 2}, func() { require.NoError(t, Folder(dir, set("newer"), nil)) })
	assert.Equal(t, "newer", holds(t, dir)["a"])
	for _, d := range []*thief{{times: 1000}, {busy: true}} {
		with(d, func() {
			assert.Error(t, Write(path, says("never")))
			assert.Error(t, Folder(filepath.Join(dir, "none"), set("never"), nil))
		})
	}
	assert.Equal(t, map[string]string{"a": "newer", "b": "newer", "c": "newer", "mine": "mine"}, holds(t, dir))
	assert.Empty(t, parts(t, dir))
}

// What cannot be understood is left alone.
func TestWhatIsNotOursIsNotSwept(t *testing.T) {
	root, dir := prepared(t, map[string]string{"a": "old", ".a.part": "mine", ".a.0123.part": "mine"}, true)
	for _, name := range []string{".a.0123456789abcdef.part", "unfinished-0123456789abcde.part"} {
		require.NoError(t, os.Mkdir(filepath.Join(dir, name), 0o700))
	}
	require.NoError(t, os.WriteFile(filepath.Join(filepath.Dir(dir), ".out.0123456789abcdef.part"), []byte("mine"), 0o600))
	// One that was exchanged, whose names cannot be read: a folder is in their place.
	odd := filepath.Join(filepath.Dir(dir), ".out.0000000000000000.part")
	require.NoError(t, os.MkdirAll(filepath.Join(odd, "names"), 0o700))
	was := parts(t, root)
	require.NoError(t, Folder(dir, set("new"), nil))
	require.NoError(t, Write(filepath.Join(dir, "a"), says("newer")))
	assert.Equal(t, was, parts(t, root))
}

func TestAFileToBeChangedIsNoOther(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	for _, name := range []string{"log", "shot"} {
		require.NoError(t, os.WriteFile(name, []byte(name), 0o600))
		f, err := Open(name)
		require.NoError(t, err)
		require.NoError(t, f.Close())
	}
	assert.NoError(t, Changeable("log"))
	assert.NoError(t, Changeable("none"))
	assert.ErrorContains(t, Changeable("none/none"), "no such file")
	require.NoError(t, os.Link("shot", "hard"))
	assert.ErrorContains(t, Changeable("hard"), "hard is the same file as shot")
	require.NoError(t, os.Symlink("card/log", "gone"))
	assert.ErrorContains(t, Changeable("gone"), "is a link to card/log, which is not there")
}
