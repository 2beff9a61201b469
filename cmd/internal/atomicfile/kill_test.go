package atomicfile

import (
	"bufio"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/plan/sample/many"
)

// The test binary is run again as a program that writes until it is ended.
const (
	childFolder = "SEAMRAIL_TEST_FOLDER"
	childEnds   = "SEAMRAIL_TEST_ENDS" // "abandon": it tidies up and exits by itself
	childEach   = "SEAMRAIL_TEST_EACH" // each run writes a folder of its own
)

// unsynced is the disk, not waited for: what is killed is a program, not a machine.
type unsynced struct{ system }

type unsyncedFile struct{ file }

func (unsyncedFile) Sync() error { return nil }

func (d unsynced) create(name string) (file, error) {
	f, err := d.system.create(name)
	return unsyncedFile{f}, err
}

func (unsynced) sync(string) error { return nil }

func TestMain(m *testing.M) {
	if dir := os.Getenv(childFolder); dir != "" {
		on = unsynced{}
		writeForEver(dir)
	}
	os.Exit(m.Run())
}

// killedFiles is how many files a run writes: enough that runs are mostly amid it.
const killedFiles = 6

// killedLines is how many lines a file has.
const killedLines = 300

func writeForEver(dir string) {
	if os.Getenv(childEnds) == "abandon" {
		go func() {
			time.Sleep(time.Duration(rand.IntN(20)) * time.Millisecond)
			Abandon()
			os.Exit(0)
		}()
	}
	each := os.Getenv(childEach) != ""
	for run := 0; ; run++ {
		to := dir
		if each {
			to = filepath.Join(dir, fmt.Sprint(rand.Uint64()), "out")
		}
		if err := Folder(to, run6(fmt.Sprint(os.Getpid(), " ", run)), nil); err != nil {
			fmt.Println(err)
			os.Exit(3)
		}
		if run == 0 {
			fmt.Println("ready")
		}
	}
}

// run6 are the files of one run.
func run6(text string) (out []File) {
	for i := range killedFiles {
		out = append(out, File{fmt.Sprint(i), func(w io.Writer) error {
			_, err := io.WriteString(w, strings.Repeat(text+"\n", killedLines))
			return err
		}})
	}
	return out
}

// runs are the runs that the files of a folder tell of, and "torn" for one that is
// not whole.
func runs(t *testing.T, dir string) map[string]int {
	t.Helper()
	out := map[string]int{}
	for i := range killedFiles {
		data, err := os.ReadFile(filepath.Join(dir, fmt.Sprint(i)))
		if err != nil {
			out["gone"]++
			continue
		}
		text, _, _ := strings.Cut(string(data), "\n")
		if string(data) != strings.Repeat(text+"\n", killedLines) {
			text = "torn"
		}
		out[text]++
	}
	return out
}

// struck runs the child on a folder and ends it at some instant.
func struck(t *testing.T, dir string, kill bool, env ...string) {
	t.Helper()
	c := exec.Command(os.Args[0])
	c.Env = append(append(os.Environ(), childFolder+"="+dir), env...)
	out, err := c.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, c.Start())
	line, err := bufio.NewReader(out).ReadString('\n')
	if kill {
		require.NoError(t, err)
		require.Equal(t, "ready\n", line)
		time.Sleep(time.Duration(rand.IntN(10_000)) * time.Microsecond)
		require.NoError(t, c.Process.Kill())
		_ = c.Wait() // it was killed
		return
	}
	require.NoError(t, c.Wait())
}

func peopled(t *testing.T, folder bool) (root, dir string) {
	root, dir = prepared(t, map[string]string{"mine": "mine"}, folder)
	require.NoError(t, Folder(dir, run6("first"), nil))
	return root, dir
}

func mine(t *testing.T, dir string) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(dir, "mine"))
	require.NoError(t, err)
	require.Equal(t, "mine", string(text))
}

// Killed at any instant, the folder is that of one run; and what is left of the
// killed one is swept by the next.
func TestKilledAtAnyInstant(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("here the files are put in place one by one")
	}
	kills := many.Times(100, 300)
	on = unsynced{}
	defer func() { on = system{} }()
	root, dir := peopled(t, false)
	left := 0
	for range kills {
		struck(t, dir, true)
		got := runs(t, dir)
		require.Len(t, got, 1, "a mixture")
		require.NotContains(t, got, "torn")
		require.NotContains(t, got, "gone")
		mine(t, dir)
		if len(parts(t, root)) > 0 {
			left++
		}
		Settle(dir)
		require.Empty(t, parts(t, root), "the next run sweeps")
		require.Len(t, runs(t, dir), 1)
		mine(t, dir)
		info, err := os.Stat(dir)
		require.NoError(t, err)
		require.Equal(t, os.FileMode(0o750), info.Mode().Perm())
	}
	t.Logf("%d kills, %d of them amid a run", kills, left)
	require.Greater(t, left, kills/4, "most kills have to hit a run")
}

// Where the files can only be put in place one by one, some may be missing, and that
// is said; old ones and new ones are never there together, and the next run makes it
// whole.
func TestKilledOneByOne(t *testing.T) {
	many.Long(t)
	on = unsynced{}
	defer func() { on = system{} }()
	root, dir := peopled(t, true)
	amid := 0
	for range 60 {
		struck(t, dir, true)
		got := runs(t, dir)
		require.NotContains(t, got, "torn")
		gone := got["gone"] > 0
		delete(got, "gone")
		require.LessOrEqual(t, len(got), 1, "a mixture")
		if gone {
			amid++
			seen, err := filepath.Glob(filepath.Join(dir, "unfinished-*.part"))
			require.NoError(t, err)
			require.Len(t, seen, 1)
		}
		Settle(dir)
		require.Empty(t, parts(t, root), "the next run sweeps")
		require.Len(t, runs(t, dir), 1)
		mine(t, dir)
	}
	t.Logf("60 kills, %d of them left some files out and said so", amid)
}

// A folder that was not there is there whole or not at all, and so is what leads
// to it.
func TestKilledWhileItIsMade(t *testing.T) {
	many.Long(t)
	on = unsynced{}
	defer func() { on = system{} }()
	dir := t.TempDir()
	for range 40 {
		struck(t, dir, true, childEach+"=1")
		made, err := filepath.Glob(filepath.Join(dir, "[0-9]*"))
		require.NoError(t, err)
		for _, m := range made {
			got := runs(t, filepath.Join(m, "out"))
			require.Len(t, got, 1)
			require.NotContains(t, got, "torn")
			require.NotContains(t, got, "gone")
			require.NoError(t, os.RemoveAll(m))
		}
		left, err := filepath.Glob(filepath.Join(dir, ".*.part"))
		require.NoError(t, err)
		require.LessOrEqual(t, len(left), 1)
		for _, l := range left {
			name, _, _ := strings.Cut(strings.TrimPrefix(filepath.Base(l), "."), ".")
			Settle(filepath.Join(dir, name, "out"))
		}
		require.Empty(t, parts(t, dir))
	}
}

// A program that is told to stop leaves nothing behind.
func TestAbandonedAtAnyInstant(t *testing.T) {
	many.Long(t)
	on = unsynced{}
	defer func() { on = system{} }()
	for _, folder := range []bool{false, true} {
		root, dir := peopled(t, folder)
		for range 40 {
			struck(t, dir, false, childEnds+"=abandon")
			require.Empty(t, parts(t, root))
			require.Len(t, runs(t, dir), 1)
			mine(t, dir)
		}
	}
}

// What a run that is alive has begun is not swept by another to the same place.
func TestTheLivingAreNotSwept(t *testing.T) {
	for _, folder := range []bool{false, true} {
		root, dir := prepared(t, map[string]string{"a": "old", "mine": "mine"}, folder)
		slow := File{"a", func(w io.Writer) error {
			require.NoError(t, Folder(dir, set("quick"), nil))
			require.NoError(t, Write(filepath.Join(dir, "a"), says("quicker")))
			return says("slow")(w)
		}}
		require.NoError(t, Folder(dir, []File{slow}, nil))
		got := holds(t, dir)
		delete(got, "theirs/x")
		assert.Equal(t, map[string]string{"a": "slow", "b": "quick", "c": "quick", "mine": "mine"}, got)
		assert.Empty(t, parts(t, root))

		path := filepath.Join(dir, "mine")
		require.NoError(t, Write(path, func(w io.Writer) error {
			require.NoError(t, Write(path, says("quick")))
			require.Len(t, parts(t, root), 1, "that of the run that is alive")
			return says("slow")(w)
		}))
		assert.Equal(t, "slow", holds(t, dir)["mine"])
		assert.Empty(t, parts(t, root))
	}
}

// Somebody who saves in the folder while it is exchanged loses nothing.
func TestWhatIsSavedMeanwhileStays(t *testing.T) {
	root, dir := prepared(t, map[string]string{"a": "old", "mine": "mine", "theirs.txt": "old"}, false)
	d := &saves{dir: dir, t: t}
	with(d, func() { require.NoError(t, Folder(dir, set("new"), nil)) })
	if !d.saved {
		t.Skip("nothing was exchanged here")
	}
	assert.Equal(t, map[string]string{"a": "new", "b": "new", "c": "new", "mine": "newer", "another": "new", "theirs.txt": "old"}, holds(t, dir))
	assert.Empty(t, parts(t, root))
}

// saves is a disk on which an editor saves right before an exchange, as editors
// do: by renaming.
type saves struct {
	system
	dir   string
	t     *testing.T
	saved bool
}

func (d *saves) exchange(a, b string) error {
	d.saved = true
	for name, text := range map[string]string{"mine": "newer", "another": "new"} {
		half := filepath.Join(d.dir, name+"~")
		require.NoError(d.t, os.WriteFile(half, []byte(text), 0o600))
		require.NoError(d.t, os.Rename(half, filepath.Join(d.dir, name)))
	}
	return d.system.exchange(a, b)
}
