//go:build linux || darwin

package cli_test

import (
	"bytes"
	"context"
	"errors"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/creack/pty"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"

	"seamrail/cmd/internal/cli"
	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/exit"
	"seamrail/export/drive"
	"seamrail/export/drive/takelog"
	"seamrail/export/drive/virtual"
	"seamrail/motion/spec/rig"
)

// patience is far more than any of this takes on a busy machine. What takes
// longer is unplugged or killed, so that a test fails and does not hang.
const patience = 60 * time.Second

const ptyShot = `shot = "A short one"
[clock]
capture = 24
playback = 24
loop = "12 frames"
[take]
rounds = 2
[rig]
file = "rig.toml"
[axis.rail]
move = "there-and-back"
from = "2 mm"
to = "12 mm"
law = "3-4-5"
`

const ptyRig = `rig = "Short bench"
[controller]
greeting = "Bench"
resets-on-open = false
home-line = "none"
slowest-step-rate = "none"
[axis.rail]
travel = ["0 mm", "100 mm"]
speed = "400 mm/s"
acceleration = "5000 mm/s2"
steps = "400 per mm"
`

// bench writes the short shot and its rig into a folder of the test.
func bench(t *testing.T) (shot string, r rig.Rig) {
	t.Helper()
	dir := t.TempDir()
	shot = filepath.Join(dir, "short.toml")
	require.NoError(t, os.WriteFile(shot, []byte(ptyShot), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "rig.toml"), []byte(ptyRig), 0o600))
	r, _, err := rig.Decode("rig.toml", []byte(ptyRig))
	require.NoError(t, err)
	return shot, r
}

// waitable returns the terminal as a file whose Read ends when it is closed, or
// at a deadline; the one that is given is closed.
func waitable(t *testing.T, f *os.File) *os.File {
	t.Helper()
	fd, err := unix.FcntlInt(f.Fd(), unix.F_DUPFD_CLOEXEC, 0) // a program that is begun must not hold it open
	require.NoError(t, err)
	require.NoError(t, syscall.SetNonblock(fd, true))
	require.NoError(t, f.Close())
	return os.NewFile(uintptr(fd), f.Name())
}

// unlessBusy gives a test up where the computer is too busy for the rig's time,
// as the program has found out itself.
func unlessBusy(t *testing.T, printed string) {
	t.Helper()
	if strings.Contains(printed, drive.Behind.String()) {
		t.Skip("this computer is too busy now: ", printed)
	}
}

// plugged puts a board on the far side of a pseudo terminal and returns the
// near side's name. The board is unplugged with the test, or by unplug.
func plugged(t *testing.T, board *virtual.Rig) (name string, unplug func()) {
	t.Helper()
	master, near, err := pty.Open()
	require.NoError(t, err)
	far := waitable(t, master)
	port := virtual.NewPort(board, 1)
	var both sync.WaitGroup
	both.Go(func() { _, _ = io.Copy(far, port) })
	both.Go(func() { _, _ = io.Copy(port, far) })
	unplug = sync.OnceFunc(func() {
		_ = port.Close()
		_ = far.Close()
		both.Wait()
		_ = near.Close()
	})
	guard := time.AfterFunc(patience, unplug)
	t.Cleanup(func() {
		guard.Stop()
		unplug()
	})
	return near.Name(), unplug
}

// The real serial library against the virtual rig: one take in real time, on
// time as far as an ordinary computer can tell, and exactly where it began.
func TestTheSerialLibraryDrivesTheVirtualRig(t *testing.T) {
	shot, r := bench(t)
	board := virtual.New(virtual.Of(r))
	name, unplug := plugged(t, board)
	var out, errs bytes.Buffer
	code := cli.Run(command.Streams{In: strings.NewReader(""), Out: &out, Err: &errs},
		[]string{"drive", shot, "--port", name, "--at-start", "--confirmed", "--count-in", "0"})
	unlessBusy(t, errs.String())
	require.Zero(t, code, out.String()+errs.String())
	assert.Contains(t, out.String(), "Take 1: finished, 2 rounds, ")
	unplug()
	assert.Zero(t, board.Stats().Lost, "bytes that the board had no room for")
	assert.Zero(t, board.Stats().Errors, "lines that the board refused")
	low, high := reached(board)
	assert.Equal(t, int64(10*400), high-low, "from 2 to 12 mm, and nowhere else")
	log, err := os.ReadFile(strings.TrimSuffix(shot, ".toml") + ".takes.jsonl")
	require.NoError(t, err)
	assert.Contains(t, string(log), `"outcome":"finished","position_known":true`)
	assert.NotContains(t, string(log), "virtual", "what is at a port is of metal for all that anybody knows")
}

// ptyClose is how near the length of a pass must come over a pseudo terminal, in
// s, on a computer that has nothing else to do.
const ptyClose = 2e-3

// held is by how much a wait of a millisecond took longer than that, at worst, while
// a test ran: what the load of the computer adds to any time that is taken.
func held(done <-chan struct{}) time.Duration {
	const nap = time.Millisecond
	worst := time.Duration(0)
	for {
		began := time.Now()
		select {
		case <-done:
			return worst
		case <-time.After(nap):
			worst = max(worst, time.Since(began)-nap)
		}
	}
}

// A pass is measured in real time, over the system's own terminal, to 2 ms and
// what the load of the computer adds, and to what the measure says of itself.
func TestAPassIsMeasuredOnAPort(t *testing.T) {
	shot, r := bench(t)
	o := virtual.Of(r)
	o.ClockError, o.Timer = 0.002, virtual.SixteenMHz
	board := virtual.New(o)
	name, unplug := plugged(t, board)
	done, load := make(chan struct{}), make(chan time.Duration, 1)
	go func() { load <- held(done) }()
	var out, errs bytes.Buffer
	code := cli.Run(command.Streams{In: strings.NewReader(""), Out: &out, Err: &errs},
		[]string{"drive", shot, "--port", name, "--at-start", "--confirmed", "--count-in", "0", "--rounds", "4"})
	close(done)
	added := (<-load).Seconds()
	unlessBusy(t, errs.String())
	require.Zero(t, code, out.String()+errs.String())
	unplug()
	f, err := os.Open(strings.TrimSuffix(shot, ".toml") + ".takes.jsonl")
	require.NoError(t, err)
	defer f.Close()
	var end takelog.Record
	log, err := takelog.Walk(f, func(t takelog.Take) error { end = t.End; return nil })
	require.NoError(t, err)
	require.Equal(t, 1, log.Count)
	truth := filmed(t, board)
	t.Logf("true %.6f s, measured %.6f: %.3f ms out, %.3f ms in doubt; the computer held waits up by %.3f ms",
		truth, end.Executed, (end.Executed-truth)*1e3, end.Uncertainty*1e3, added*1e3)
	assert.InDelta(t, truth, end.Executed, ptyClose+added)
	assert.InDelta(t, truth, end.Executed, end.Uncertainty+added)
}

// filmed returns how long the longest motion lasted that had no pause of a tenth
// of a second in it: the pass, and not the way there or back.
func filmed(t *testing.T, board *virtual.Rig) float64 {
	t.Helper()
	const pause = 0.1
	rec := board.Record()
	longest, from := 0.0, rec.Span(0).Start
	for i := range rec.Len() {
		if i > 0 && rec.Span(i).Start-rec.Span(i-1).End > pause {
			from = rec.Span(i).Start
		}
		longest = max(longest, rec.Span(i).End-from)
	}
	return longest
}

// reached returns the least and the greatest step of the first axis.
func reached(board *virtual.Rig) (low, high int64) {
	low, high = math.MaxInt64, math.MinInt64
	board.Record().Steps(func(s virtual.Step) bool {
		low, high = min(low, s.Position), max(high, s.Position)
		return true
	})
	return low, high
}

// A board that is set otherwise than the rig file says is told of, setting by
// setting, and is not moved.
func TestSettingsThatDiffer(t *testing.T) {
	shot, r := bench(t)
	o := virtual.Of(r)
	o.Axes[0].StepsPerUnit, o.Axes[0].Acceleration = 80, 500
	board := virtual.New(o)
	name, unplug := plugged(t, board)
	var out, errs bytes.Buffer
	code := cli.Run(command.Streams{In: strings.NewReader(""), Out: &out, Err: &errs},
		[]string{"drive", shot, "--port", name, "--at-start", "--confirmed"})
	assert.Equal(t, exit.Rig, code)
	assert.Contains(t, errs.String(), "seamrail: settings differ: axis rail: steps per mm: $100 is 80 and the rig file says 400\n")
	assert.Contains(t, errs.String(), "seamrail: axis rail: acceleration, mm/s2: $120 is 500 and the rig file says 5000\n")
	unplug()
	assert.Zero(t, board.Record().Len(), "nothing moved")
}

// A board that is pulled out in mid-pass ends the run in a named state, with
// the log complete.
func TestAPortThatVanishes(t *testing.T) {
	shot, r := bench(t)
	o := virtual.Of(r)
	name, unplug := plugged(t, virtual.New(o))
	out := &watched{word: "round 2", then: func() { go unplug() }}
	var errs bytes.Buffer
	code := cli.Run(command.Streams{In: strings.NewReader(""), Out: out, Err: &errs},
		[]string{"drive", shot, "--port", name, "--at-start", "--confirmed", "--count-in", "0", "--rounds", "50"})
	unlessBusy(t, errs.String())
	assert.Equal(t, exit.Rig, code, errs.String())
	assert.Contains(t, errs.String(), "seamrail: port lost: ")
	assert.Contains(t, errs.String(), "where the rig stands is not known")
	list := &watched{}
	require.Zero(t, cli.Run(command.Streams{Out: list, Err: &errs}, []string{"takes", shot}))
	assert.Contains(t, list.seen.String(), "port lost")
	assert.Contains(t, list.seen.String(), "Where the rig stands is not known")
}

// watched is output that lets something happen once a word has been printed.
type watched struct {
	seen strings.Builder
	word string
	then func()
}

// Write keeps p.
func (w *watched) Write(p []byte) (int, error) {
	n, err := w.seen.Write(p)
	if w.then != nil && strings.Contains(w.seen.String(), w.word) {
		w.then()
		w.then = nil
	}
	return n, err
}

// terminal runs the program on a terminal of its own.
type terminal struct {
	t    *testing.T
	file *os.File
	cmd  *exec.Cmd
	seen bytes.Buffer
}

func onTerminal(t *testing.T, args ...string) *terminal {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), patience)
	t.Cleanup(cancel)
	cmd := exec.CommandContext(ctx, "seamrail", args...)
	cmd.Dir = t.TempDir()
	master, err := pty.StartWithSize(cmd, &pty.Winsize{Rows: 24, Cols: 80})
	require.NoError(t, err)
	file := waitable(t, master)
	x := &terminal{t: t, file: file, cmd: cmd}
	t.Cleanup(func() {
		_ = cmd.Process.Kill()
		_ = file.Close()
	})
	require.NoError(t, file.SetReadDeadline(time.Now().Add(patience)))
	return x
}

// until reads what is printed up to a word.
func (x *terminal) until(word string) {
	x.t.Helper()
	from := x.seen.Len()
	buf := make([]byte, 4096)
	for !strings.Contains(x.seen.String()[from:], word) {
		n, err := x.file.Read(buf)
		x.seen.Write(buf[:n])
		unlessBusy(x.t, x.seen.String())
		require.NoError(x.t, err, "waiting for %q after:\n%s", word, x.seen.String())
	}
}

func (x *terminal) press(keys string) {
	x.t.Helper()
	_, err := x.file.WriteString(keys)
	require.NoError(x.t, err)
}

// end waits for the program and returns its exit code.
func (x *terminal) end() int {
	x.t.Helper()
	_, _ = io.Copy(&x.seen, x.file) // ends with an error when the other side closes
	err := x.cmd.Wait()
	if err != nil {
		var exit *exec.ExitError
		require.ErrorAs(x.t, err, &exit, x.seen.String())
	}
	return x.cmd.ProcessState.ExitCode()
}

// A whole session on a terminal: keys, the typed word, a bar, a stop with
// Ctrl-C in mid-pass, and the terminal left as it was.
func TestASessionOnATerminal(t *testing.T) {
	shot, _ := bench(t)
	x := onTerminal(t, "drive", shot, "--virtual", "--count-in", "1", "--rounds", "50")
	x.until("Ready.")
	assert.Contains(t, x.seen.String(), "! The rig moves without warning.", "before any key moves it")
	x.press("\r")
	x.until("Type clear and press Enter")
	assert.Contains(t, x.seen.String(), "! The rig moves without warning.")
	x.press("clear\r")
	x.until("\a1")
	x.until("Rolling.")
	x.until("round 2")
	x.press("\x03")
	x.until("Slowing down.")
	x.until("r goes on in the same round")
	x.press("q")
	assert.Equal(t, exit.Stopped, x.end(), x.seen.String())
	text := x.seen.String()
	assert.Contains(t, text, "Virtual take 1: stopped")
	assert.Contains(t, text, "Ended: stopped, 1 take. Where the rig stands is known.")
	assert.NotContains(t, strings.ReplaceAll(text, "\r\n", ""), "\n", "every line begins at the left edge")
}

// A request to terminate in mid-pass slows down, rests, logs and exits.
func TestTerminateInMidPass(t *testing.T) {
	shot, _ := bench(t)
	x := onTerminal(t, "drive", shot, "--virtual", "--confirmed", "--takes", "1", "--count-in", "0", "--rounds", "50")
	x.until("round 2")
	require.NoError(t, x.cmd.Process.Signal(syscall.SIGTERM))
	assert.Equal(t, exit.Stopped, x.end(), x.seen.String())
	assert.Contains(t, x.seen.String(), "Virtual take 1: stopped")
}

// A program that is killed in mid-pass leaves a log that says so.
func TestKilledInMidPass(t *testing.T) {
	shot, _ := bench(t)
	x := onTerminal(t, "drive", shot, "--virtual", "--confirmed", "--takes", "1", "--count-in", "0", "--rounds", "50")
	x.until("round 2")
	require.NoError(t, x.cmd.Process.Kill())
	x.end()
	var out, errs bytes.Buffer
	require.Zero(t, cli.Run(command.Streams{Out: &out, Err: &errs}, []string{"takes", shot}), errs.String())
	assert.Regexp(t, `\nv1 .* cut short\n`, out.String())
}

// A terminal that is closed in mid-pass stops the rig, and the log tells it.
func TestATerminalThatIsGone(t *testing.T) {
	shot, _ := bench(t)
	x := onTerminal(t, "drive", shot, "--virtual", "--confirmed", "--takes", "1", "--count-in", "0", "--rounds", "50")
	x.until("round 2")
	require.NoError(t, x.file.Close())
	_ = x.cmd.Wait() // it cannot say goodbye, and exits as it is told that nobody listens
	var out, errs bytes.Buffer
	require.Zero(t, cli.Run(command.Streams{Out: &out, Err: &errs}, []string{"takes", shot}), errs.String())
	assert.Contains(t, out.String(), "stopped")
	assert.NotContains(t, out.String(), "cut short")
	assert.NotContains(t, out.String(), "not known")
}

// A port at which nobody answers ends with who finds out why.
func TestASilentPortSaysWhatToAsk(t *testing.T) {
	shot, _ := bench(t)
	far, near, err := pty.Open()
	require.NoError(t, err)
	defer func() { require.NoError(t, errors.Join(near.Close(), far.Close())) }()
	var out bytes.Buffer
	cmd := exec.Command("seamrail", "drive", shot, "--port", near.Name(), "--confirmed", "--home", "--operator", "nobody")
	cmd.Stdout, cmd.Stderr = &out, &out
	require.Error(t, cmd.Run())
	assert.Equal(t, exit.Rig, cmd.ProcessState.ExitCode(), out.String())
	assert.Contains(t, out.String(), "seamrail: silent: no ")
	assert.Contains(t, out.String(), `"seamrail connect --port `+near.Name()+`" tells what answers there, and what to do where nothing does`)
}
