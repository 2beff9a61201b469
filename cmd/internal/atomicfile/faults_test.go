package atomicfile

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

var errBroken = &fs.PathError{Op: "do", Path: "it", Err: errors.New("input/output error")}

// faulty is a disk on which the nth operation fails, and those after it too if it
// does so for ever.
type faulty struct {
	system
	n       int // operations left before the one that fails
	ever    bool
	names   []string
	linkFor error // links always fail with it
	noSwap  error // exchanges always do
}

func (d *faulty) fails(op string) error {
	d.names = append(d.names, op)
	d.n--
	if d.n == 0 || d.ever && d.n < 0 {
		return errBroken
	}
	return nil
}

type faultyFile struct {
	file
	d *faulty
}

func (d *faulty) create(name string) (file, error) {
	if err := d.fails("create"); err != nil {
		return nil, err
	}
	f, err := d.system.create(name)
	return faultyFile{f, d}, err
}

func (f faultyFile) Write(p []byte) (int, error) {
	if err := f.d.fails("write"); err != nil {
		n, _ := f.file.Write(p[:len(p)/2])
		return n, err
	}
	return f.file.Write(p)
}

func (f faultyFile) Sync() error  { return f.d.fails("sync") } // the disk is none, and quick
func (f faultyFile) Close() error { return errors.Join(f.d.fails("close"), f.file.Close()) }

func (d *faulty) do(op string, f func() error) error {
	if err := d.fails(op); err != nil {
		return err
	}
	return f()
}

func (d *faulty) mkdir(n string, m fs.FileMode) error {
	return d.do("mkdir", func() error { return d.system.mkdir(n, m) })
}
func (d *faulty) chmod(n string, m fs.FileMode) error {
	return d.do("chmod", func() error { return d.system.chmod(n, m) })
}
func (d *faulty) link(a, b string) error {
	if d.linkFor != nil {
		return d.linkFor
	}
	return d.do("link", func() error { return d.system.link(a, b) })
}
func (d *faulty) rename(a, b string) error {
	return d.do("rename", func() error { return d.system.rename(a, b) })
}
func (d *faulty) exchange(a, b string) error {
	if d.noSwap != nil {
		return d.noSwap
	}
	return d.do("exchange", func() error { return d.system.exchange(a, b) })
}
func (d *faulty) alike(n string, i fs.FileInfo) error {
	return d.do("alike", func() error { return d.system.alike(n, i) })
}
func (d *faulty) remove(n string) error {
	return d.do("remove", func() error { return d.system.remove(n) })
}
func (d *faulty) removeAll(n string) error {
	return d.do("removeAll", func() error { return d.system.removeAll(n) })
}
func (d *faulty) list(n string) ([]fs.DirEntry, error) {
	if err := d.fails("list"); err != nil {
		return nil, err
	}
	return d.system.list(n)
}
func (d *faulty) sync(string) error {
	return d.fails("syncFolder")
}

// with runs f on another disk.
func with(d disk, f func()) {
	on = d
	defer func() { on = system{} }()
	f()
}

func says(text string) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := io.WriteString(w, text)
		return err
	}
}

// set is a folder's files, all of which tell of one run.
func set(run string) []File {
	return []File{{"a", says(run)}, {"b", says(run)}, {"c", says(run)}}
}

// holds is what is in a folder: the text of each file, by its path.
func holds(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		name, _ := filepath.Rel(dir, path)
		out[name] = string(data)
		return err
	}))
	return out
}

// parts are the names of what is temporary in and below a folder.
func parts(t *testing.T, dir string) (out []string) {
	t.Helper()
	require.NoError(t, filepath.WalkDir(dir, func(path string, _ fs.DirEntry, err error) error {
		if strings.HasSuffix(path, ".part") {
			out = append(out, path)
		}
		return err
	}))
	return out
}

// kinds are the folders that Folder meets, and what they hold before.
var kinds = map[string]struct {
	before map[string]string
	folder bool   // another folder is in it
	disk   faulty // what it lies on
}{
	"none":          {},
	"one exchanged": {before: map[string]string{"a": "old", "b": "old", "mine": "mine"}},
	"one by one":    {before: map[string]string{"a": "old", "b": "old", "mine": "mine"}, folder: true},
	"no exchange":   {before: map[string]string{"a": "old", "mine": "mine"}, disk: faulty{noSwap: errBroken}},
	"no links":      {before: map[string]string{"a": "old", "b": "old", "mine": "mine"}, disk: faulty{linkFor: errBroken}},
}

func prepared(t *testing.T, before map[string]string, folder bool) (root, dir string) {
	root = t.TempDir()
	dir = filepath.Join(root, "to", "out")
	if before == nil {
		return root, dir
	}
	require.NoError(t, os.MkdirAll(dir, 0o755))
	require.NoError(t, os.Chmod(dir, 0o750))
	for name, text := range before {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o640))
	}
	if folder {
		require.NoError(t, os.Mkdir(filepath.Join(dir, "theirs"), 0o700))
		require.NoError(t, os.WriteFile(filepath.Join(dir, "theirs", "x"), []byte("x"), 0o600))
	}
	return root, dir
}

// Whatever fails, the folder is the old one or the new one; and where it was not
// the tidying up that failed, nothing else is left.
func TestFolderWhateverFails(t *testing.T) {
	for name, k := range kinds {
		t.Run(name, func(t *testing.T) {
			for n := 1; ; n++ {
				root, dir := prepared(t, k.before, k.folder)
				was := holds(t, root)
				d := k.disk
				d.n = n
				var err error
				with(&d, func() { err = Folder(dir, set("new"), nil) })
				failed := d.n <= 0
				what := fmt.Sprintf("operation %d, %v: %v", n, d.names, err)
				if err != nil {
					require.ErrorContains(t, err, "nothing was changed", what)
				}
				left := parts(t, root)
				if len(left) > 0 {
					require.Contains(t, []string{"remove", "removeAll", "list", "rename"}, d.names[n-1], what)
					Settle(dir)
				}
				require.Empty(t, parts(t, root), what)
				now := holds(t, root)
				if err != nil {
					require.Equal(t, was, now, what)
				} else {
					require.Equal(t, news(was), now, what)
				}
				if k.before != nil {
					kept(t, dir)
				}
				if !failed {
					return
				}
			}
		})
	}
}

// news is what a folder holds after set.
func news(was map[string]string) map[string]string {
	out := map[string]string{"to/out/a": "new", "to/out/b": "new", "to/out/c": "new"}
	for name, text := range was {
		if _, ok := out[name]; !ok {
			out[name] = text
		}
	}
	return out
}

// kept holds the modes of the folder and of its files against what they were.
func kept(t *testing.T, dir string) {
	t.Helper()
	info, err := os.Stat(dir)
	require.NoError(t, err)
	require.Equal(t, fs.FileMode(0o750), info.Mode().Perm())
	for _, name := range []string{"a", "mine"} {
		info, err := os.Stat(filepath.Join(dir, name))
		require.NoError(t, err)
		require.Equal(t, fs.FileMode(0o640), info.Mode().Perm(), name)
	}
}

// A disk that fails and goes on failing may leave the folder amid it. It says so,
// and once the disk is well, the next run makes it whole.
func TestFolderOnADiskThatDies(t *testing.T) {
	for name, k := range kinds {
		t.Run(name, func(t *testing.T) {
			for n := 1; ; n++ {
				root, dir := prepared(t, k.before, k.folder)
				was := holds(t, root)
				d := k.disk
				d.n, d.ever = n, true
				var err error
				with(&d, func() { err = Folder(dir, set("new"), nil) })
				if err != nil && !strings.Contains(err.Error(), "nothing was changed") {
					require.ErrorContains(t, err, "unfinished-")
					require.ErrorContains(t, err, "write to it again")
				}
				amid := holds(t, root)
				texts := []string{amid["to/out/a"], amid["to/out/b"], amid["to/out/c"]}
				require.False(t, slices.Contains(texts, "old") && slices.Contains(texts, "new"), "a mixture: %v, %v", amid, d.names)
				Settle(dir)
				require.Empty(t, parts(t, root), "%v", d.names)
				now := holds(t, root)
				if err == nil || !strings.Contains(err.Error(), "nothing was changed") {
					require.Equal(t, news(was), now, "%v", d.names)
				} else {
					require.Equal(t, was, now, "%v", d.names)
				}
				if d.n > 0 {
					return
				}
			}
		})
	}
}

// The same for a single file.
func TestWriteWhateverFails(t *testing.T) {
	for _, ever := range []bool{false, true} {
		for _, old := range []bool{false, true} {
			for n := 1; ; n++ {
				dir := t.TempDir()
				path := filepath.Join(dir, "loop.csv")
				if old {
					require.NoError(t, os.WriteFile(path, []byte("old"), 0o640))
				}
				was := holds(t, dir)
				d := &faulty{n: n, ever: ever}
				var err error
				with(d, func() { err = Write(path, says("new")) })
				if len(parts(t, dir)) > 0 {
					require.True(t, ever || d.names[n-1] == "remove", d.names)
					Sweep(path)
				}
				require.Empty(t, parts(t, dir), d.names)
				if err != nil {
					require.ErrorContains(t, err, "nothing was changed")
					require.Equal(t, was, holds(t, dir), d.names)
				} else {
					require.Equal(t, map[string]string{"loop.csv": "new"}, holds(t, dir), d.names)
				}
				if d.n > 0 {
					break
				}
			}
		}
	}
}
