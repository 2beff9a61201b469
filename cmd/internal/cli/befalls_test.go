//go:build linux

package cli_test

import (
	"bytes"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/creack/pty"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"

	"seamrail/cmd/internal/exit"
	"seamrail/export/drive"
	"seamrail/export/drive/virtual"
	"seamrail/motion/plan/sample/many"
	"seamrail/motion/spec/rig"
)

// kinds are the controllers that are driven, by what their rig files say.
var kinds = map[string]string{
	"buffered":         "greeting = \"Bench\"\n",
	"lockstep":         "kind = \"lockstep\"\n",
	"lockstep, byte":   "kind = \"lockstep\"\nstatus = \"?\"\nhold = \"!\"\nresume = \"~\"\nabort = \"0x18\"\n",
	"step player":      "kind = \"step-player\"\n",
	"buffered, no end": "greeting = \"Bench\"\nabort = \"none\"\n",
}

// benchOf is the bench with a controller of a kind.
func benchOf(t *testing.T, kind string) (shot string, r rig.Rig) {
	t.Helper()
	dir := t.TempDir()
	text := strings.Replace(ptyRig, "greeting = \"Bench\"\n", kinds[kind], 1)
	shot = filepath.Join(dir, "short.toml")
	loop := ptyShot
	if strings.Contains(kinds[kind], "lockstep") { // it does not follow in less
		loop = strings.Replace(ptyShot, "12 frames", "24 frames", 1)
	}
	require.NoError(t, os.WriteFile(shot, []byte(loop), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "rig.toml"), []byte(text), 0o600))
	r, _, err := rig.Decode("rig.toml", []byte(text))
	require.NoError(t, err)
	return shot, r
}

// tap keeps what comes to a controller, and when.
type tap struct {
	mu    sync.Mutex
	bytes []byte
	at    []time.Time
}

func (x *tap) Write(p []byte) (int, error) {
	now := time.Now()
	x.mu.Lock()
	defer x.mu.Unlock()
	x.bytes = append(x.bytes, p...)
	x.at = append(x.at, slices.Repeat([]time.Time{now}, len(p))...)
	return len(p), nil
}

// since is what came from a time on.
func (x *tap) since(from time.Time) []byte {
	x.mu.Lock()
	defer x.mu.Unlock()
	i, _ := slices.BinarySearchFunc(x.at, from, time.Time.Compare)
	return bytes.Clone(x.bytes[i:])
}

// when returns when a word came first from a time on.
func (x *tap) when(word []byte, from time.Time) (time.Time, bool) {
	x.mu.Lock()
	defer x.mu.Unlock()
	i, _ := slices.BinarySearchFunc(x.at, from, time.Time.Compare)
	j := bytes.Index(x.bytes[i:], word)
	if j < 0 {
		return time.Time{}, false
	}
	return x.at[i+j+len(word)-1], true
}

// driven is the program in the midst of a take on a pseudo terminal.
type driven struct {
	t     *testing.T
	cmd   *exec.Cmd
	words drive.LastWords
	tap   *tap
	port  *virtual.Port
	gone  chan error // what the program ended with
	shot  string

	unplug func() // takes the wire out

	out      *os.File // what it prints is read here
	errs     *os.File
	terminal *os.File // if it has one
	seen     bytes.Buffer
}

// drives begins a program that drives a controller of a kind, on a terminal of its
// own or with pipes for its output.
func drives(t *testing.T, program, kind string, terminal bool, env ...string) *driven {
	t.Helper()
	x, port := wired(t, kind)
	words := strings.Fields(program)
	x.cmd = exec.Command(words[0], append(words[1:], "drive", x.shot, "--port", port, "--at-start", "--confirmed", "--count-in", "0", "--rounds", "60", "--takes", "1")...)
	x.runs(terminal, env...)
	return x
}

// wired is a controller of a kind on the far side of a port, before a program is begun.
func wired(t *testing.T, kind string) (x *driven, port string) {
	t.Helper()
	shot, r := benchOf(t, kind)
	x = &driven{t: t, words: drive.LastWordsFor(r), tap: &tap{}, gone: make(chan error, 1), shot: shot}
	master, near, err := pty.Open()
	require.NoError(t, err)
	far := waitable(t, master)
	x.port = virtual.NewPort(virtual.New(virtual.Of(r)), 1)
	var both sync.WaitGroup
	both.Go(func() { _, _ = io.Copy(far, x.port) })
	both.Go(func() { _, _ = io.Copy(io.MultiWriter(x.tap, x.port), far) })
	x.unplug = sync.OnceFunc(func() { _ = far.Close() })
	t.Cleanup(func() {
		_ = x.port.Close()
		x.unplug()
		both.Wait()
		_ = near.Close()
	})
	return x, near.Name()
}

// runs begins the program.
func (x *driven) runs(terminal bool, env ...string) {
	x.cmd.Env = append(os.Environ(), env...)
	x.begin(terminal)
	x.t.Cleanup(func() { _ = x.cmd.Process.Kill() })
	go func() { x.gone <- x.cmd.Wait() }()
}

func (x *driven) begin(terminal bool) {
	if terminal {
		master, err := pty.StartWithSize(x.cmd, &pty.Winsize{Rows: 24, Cols: 80})
		require.NoError(x.t, err)
		x.terminal = waitable(x.t, master)
		x.out = x.terminal
	} else {
		out, w, err := os.Pipe()
		require.NoError(x.t, err)
		errs, e, err := os.Pipe()
		require.NoError(x.t, err)
		x.cmd.Stdout, x.cmd.Stderr, x.out, x.errs = w, e, out, errs
		require.NoError(x.t, x.cmd.Start())
		_, _ = w.Close(), e.Close()
		x.t.Cleanup(func() { _ = errs.Close() })
	}
	x.t.Cleanup(func() { _ = x.out.Close() })
	require.NoError(x.t, x.out.SetReadDeadline(time.Now().Add(patience)))
}

// until reads what is printed up to a word.
func (x *driven) until(word string) {
	x.t.Helper()
	buf := make([]byte, 4096)
	for !strings.Contains(x.seen.String(), word) {
		n, err := x.out.Read(buf)
		x.seen.Write(buf[:n])
		unlessBusy(x.t, x.seen.String())
		require.NoError(x.t, err, "waiting for %q after:\n%s%s", word, x.seen.String(), x.said())
	}
}

// said is what it has complained of by now.
func (x *driven) said() string {
	if x.errs == nil {
		return ""
	}
	_ = x.errs.SetReadDeadline(time.Now().Add(100 * time.Millisecond))
	b, _ := io.ReadAll(x.errs)
	return string(b)
}

// drain reads on, so that the program is not held up by its output.
func (x *driven) drain() { go func() { _, _ = io.Copy(io.Discard, x.out) }() }

// end waits for the program, and returns its exit code; below 0 is by a signal.
func (x *driven) end() int {
	x.t.Helper()
	select {
	case <-x.gone:
	case <-time.After(patience):
		x.t.Fatal("it does not end")
	}
	return x.cmd.ProcessState.ExitCode()
}

// still is how long a rig must not have moved to be at rest.
const still = 300 * time.Millisecond

// rests waits until the rig has rested for a while, and returns how much of the
// motion was made.
func (x *driven) rests() (spans int) {
	x.t.Helper()
	for end := time.Now().Add(patience); time.Now().Before(end); {
		time.Sleep(still)
		now := 0
		x.port.See(func(r *virtual.Rig) { now = r.Record().Len() })
		if now == spans {
			return spans
		}
		spans = now
	}
	x.t.Fatal("it moves on")
	return 0
}

// within is how soon the hold has to be there, of what ends a program at once, on
// a computer that has other things to do.
const within = 500 * time.Millisecond

// held checks that the rig was held after what befell the program at a time.
func (x *driven) held(from time.Time, within time.Duration) {
	x.t.Helper()
	if len(x.words.Hold) > 0 {
		hold := bytes.TrimRight(x.words.Hold, "\x00") // what fills up a frame may never come
		at, ok := x.tap.when(hold, from)
		for end := from.Add(within); !ok && time.Now().Before(end); time.Sleep(10 * time.Millisecond) {
			at, ok = x.tap.when(hold, from)
		}
		require.True(x.t, ok, "no hold in %q", x.tap.since(from))
		x.t.Logf("held after %v", at.Sub(from))
		assert.Less(x.t, at.Sub(from), within, "%q", x.tap.since(from))
	}
	x.rests()
	rounds := 0.0
	x.port.See(func(r *virtual.Rig) {
		last := r.Record().Span(r.Record().Len() - 1)
		rounds = last.End
	})
	assert.Less(x.t, rounds, 25.0, "s; the take lasts 30")
}

// What may befall a program in mid-take, and how it ends.
var befalls = map[string]struct {
	program, plant string
	terminal       bool
	befall         func(x *driven)
	within         time.Duration
	lives          bool // it does not end by itself
	code           int  // below 0 = by a signal
}{
	"output closed":         {befall: func(x *driven) { _ = x.out.Close() }, code: exit.Stopped},
	"error output closed":   {befall: func(x *driven) { x.drain(); _ = x.errs.Close() }, code: exit.Stopped},
	"both closed":           {befall: func(x *driven) { _, _ = x.out.Close(), x.errs.Close() }, code: exit.Stopped},
	"terminal closed":       {befall: func(x *driven) { _ = x.out.Close() }, terminal: true, code: exit.Stopped},
	"SIGHUP":                {befall: signalled(syscall.SIGHUP), code: exit.Stopped},
	"SIGINT":                {befall: signalled(syscall.SIGINT), code: exit.Stopped},
	"SIGTERM":               {befall: signalled(syscall.SIGTERM), code: exit.Stopped},
	"SIGQUIT":               {befall: signalled(syscall.SIGQUIT), code: exit.Stopped},
	"SIGUSR1":               {befall: signalled(syscall.SIGUSR1), code: exit.Stopped},
	"SIGTSTP":               {befall: signalled(syscall.SIGTSTP), code: exit.Stopped},
	"SIGKILL":               {befall: signalled(syscall.SIGKILL), code: -1},
	"SIGKILL on a terminal": {befall: signalled(syscall.SIGKILL), terminal: true, code: -1},
	"SIGSEGV":               {befall: signalled(syscall.SIGSEGV), code: 2},
	"SIGSTOP":               {befall: signalled(syscall.SIGSTOP), lives: true, within: 3 * time.Second},
	"file too large":        {befall: full, code: exit.Rig},
	"output disk full":      {program: "planted", plant: fullDisk, code: exit.Stopped, within: 3 * time.Second}, // as it prints again
	"panic in the reader":   {program: "planted", plant: inReader, code: 2},
	"panic in the engine":   {program: "planted", plant: inEngine, code: 2},
	"panic in the console":  {program: "planted", plant: inConsole, code: 2, within: 3 * time.Second}, // as it prints again,
	"memory refused":        {program: "planted", plant: noMemory, code: 2},
	"concurrent map writes": {program: "planted", plant: sharedMap, code: 2},
	"stack used up":         {program: "planted", plant: noStack, code: 2},
	"engine that hangs":     {program: "planted", plant: hanging, lives: true, within: 5 * time.Second},
}

func signalled(s syscall.Signal) func(*driven) {
	return func(x *driven) {
		x.drain()
		require.NoError(x.t, x.cmd.Process.Signal(s))
	}
}

// full lets no file of the program grow any more, as a disk that is full does. A
// pipe is no file: the log is what cannot be written.
func full(x *driven) {
	x.drain()
	require.NoError(x.t, unix.Prlimit(x.cmd.Process.Pid, unix.RLIMIT_FSIZE, &unix.Rlimit{Cur: 1, Max: 1}, nil))
	require.NoError(x.t, x.cmd.Process.Signal(syscall.SIGTERM))
}

// common are what is tried where not all is: with the commonest controller, and the
// first of them with every kind.
var common = []string{"output closed", "SIGKILL", "terminal closed", "SIGTERM", "panic in the engine", "engine that hangs", "memory refused"}

const withEvery = 2

// Whatever becomes of the program or of what is around it, the rig is held. With
// SEAMRAIL_BEFALLS all that may befall it is tried with every kind of controller.
func TestTheRigIsHeldWhateverBefallsTheProgram(t *testing.T) {
	many.Long(t)
	all := os.Getenv("SEAMRAIL_BEFALLS") != ""
	for name, c := range befalls {
		for kind := range kinds {
			tried := common
			if kind != "buffered" {
				tried = common[:withEvery]
			}
			if !all && !slices.Contains(tried, name) {
				continue
			}
			t.Run(name+"/"+kind, func(t *testing.T) {
				t.Parallel()
				program := "seamrail"
				if c.program != "" {
					program = c.program
				}
				ripe := filepath.Join(t.TempDir(), "ripe")
				x := drives(t, program, kind, c.terminal, plantEnv+"="+c.plant, ripeEnv+"="+ripe)
				limit := max(within, c.within)
				x.until("round 2")
				began := time.Now()
				if c.befall == nil {
					x.drain()
					require.NoError(t, os.WriteFile(ripe, nil, 0o600))
				} else {
					c.befall(x)
				}
				if c.lives {
					x.held(began, limit)
					return
				}
				code := x.end()
				x.held(began, limit)
				assert.Equal(t, c.code, code, "%s", x.said())
			})
		}
	}
}

// What cannot be printed from the beginning moves nothing.
func TestNothingMovesWhereNothingCanBePrinted(t *testing.T) {
	shot, r := benchOf(t, "buffered")
	board := virtual.New(virtual.Of(r))
	name, unplug := plugged(t, board)
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	require.NoError(t, err)
	defer full.Close()
	cmd := exec.Command("seamrail", "drive", shot, "--port", name, "--at-start", "--confirmed")
	cmd.Stdout = full
	assert.Error(t, cmd.Run())
	assert.NotZero(t, cmd.ProcessState.ExitCode())
	unplug()
	assert.Zero(t, board.Record().Len())
}
