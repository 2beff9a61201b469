//go:build linux

package cli_test

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"github.com/creack/pty"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"
	"golang.org/x/term"
)

const (
	// soonEnough is how long a stop may take to reach the wire: less than a hand
	// takes to leave the key, and 4 mm of a carriage at 200 mm/s.
	soonEnough = 20 * time.Millisecond
	// busyWith is how many programs take all the computer gives while stops are
	// timed.
	busyWith = 8
)

// instrument is how much of this program may run at once, so that none of it waits
// for the rest.
const instrument = 8

// load keeps the computer busy until the test is over.
func load(t *testing.T, n int) {
	t.Helper()
	for range n {
		c := exec.Command("sh", "-c", "while :; do :; done")
		require.NoError(t, c.Start())
		t.Cleanup(func() {
			_ = c.Process.Kill()
			_ = c.Wait()
		})
	}
}

// idler is what a plain program tells that has nothing to do but to wake up each
// millisecond: how late it was.
type idler struct {
	mu    sync.Mutex
	wakes []wake
}

// wake is one: when it was due, and when it came, in ns of the clock of the system.
type wake struct{ Due, Came int64 }

func init() { programs["idling"] = idling }

// idling is that program.
func idling() {
	runtime.LockOSThread()
	nap := unix.NsecToTimespec(time.Millisecond.Nanoseconds())
	for {
		due := monotonic() + nap.Nano()
		_ = unix.Nanosleep(&nap, nil)
		if binary.Write(os.Stdout, binary.NativeEndian, wake{due, monotonic()}) != nil {
			return
		}
	}
}

func monotonic() int64 {
	var now unix.Timespec
	_ = unix.ClockGettime(unix.CLOCK_MONOTONIC, &now)
	return now.Nano()
}

func idles(t *testing.T, processor int) *idler {
	t.Helper()
	c := exec.Command("taskset", "-c", strconv.Itoa(processor), "chrt", "-o", "0", "idling")
	c.SysProcAttr = &syscall.SysProcAttr{Setsid: true} // as the program that is measured
	out, err := c.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, c.Start())
	t.Cleanup(func() {
		_ = c.Process.Kill()
		_ = c.Wait()
	})
	x := &idler{}
	go func() {
		for {
			var w wake
			if binary.Read(out, binary.NativeEndian, &w) != nil {
				return
			}
			x.mu.Lock()
			x.wakes = append(x.wakes, w)
			x.mu.Unlock()
		}
	}()
	return x
}

// wires notes how late bytes are on a pseudo terminal of their own, either way: a
// stop by a key goes over one to the program, and from it over one to the board.
func wires(t *testing.T, toProgram bool) *idler {
	t.Helper()
	master, near, err := pty.Open()
	require.NoError(t, err)
	_, err = term.MakeRaw(int(near.Fd()))
	require.NoError(t, err)
	from, to := near, master
	if toProgram {
		from, to = master, near
	}
	x, over := &idler{}, &atomic.Bool{}
	t.Cleanup(func() { over.Store(true) })
	sent := make(chan int64, 1)
	_ = unix.SetNonblock(int(to.Fd()), false)
	go func() {
		runtime.LockOSThread()
		b := make([]byte, 1)
		for !over.Load() {
			_, _ = unix.Read(int(to.Fd()), b)
			w := wake{<-sent, monotonic()}
			x.mu.Lock()
			x.wakes = append(x.wakes, w)
			x.mu.Unlock()
		}
	}()
	go func() {
		runtime.LockOSThread()
		for !over.Load() {
			nap := unix.NsecToTimespec(rand.Int64N(2 * time.Millisecond.Nanoseconds()))
			_ = unix.Nanosleep(&nap, nil)
			sent <- monotonic()
			_, _ = unix.Write(int(from.Fd()), []byte{0})
		}
	}()
	return x
}

// worst is the most that any of them was late by between two times.
func worst(all []*idler, from, to time.Time) (most time.Duration) {
	for _, x := range all {
		most = max(most, x.worst(from, to))
	}
	return most
}

// worst is the most that it was late by between two times.
func (x *idler) worst(from, to time.Time) time.Duration {
	now, mono := time.Now(), monotonic()
	began, ended := mono-int64(now.Sub(from)), mono-int64(now.Sub(to))
	for {
		x.mu.Lock()
		worst, past := int64(0), false
		for _, w := range slices.Backward(x.wakes) {
			past = past || w.Due > ended
			if w.Came < began {
				break
			}
			if w.Due < ended {
				worst = max(worst, w.Came-w.Due)
			}
		}
		x.mu.Unlock()
		if past {
			return time.Duration(worst)
		}
		time.Sleep(time.Millisecond) // one that is late now has come, too
	}
}

// urgently lets the instrument, which is this program, go before what is measured.
func urgently() {
	tasks, _ := os.ReadDir("/proc/self/task")
	for _, task := range tasks {
		id, _ := strconv.Atoi(task.Name())
		_ = unix.SchedSetAttr(id, &unix.SchedAttr{Size: unix.SizeofSchedAttr, Policy: unix.SCHED_FIFO, Priority: 50}, 0)
	}
}

// stop is one trial.
type stop struct{ took, idle, wire time.Duration }

// TestStopsReachTheWireInTime stops takes on a busy computer, by a key and by a
// signal in turn, and times how long it takes until the hold is at the controller. With
// SEAMRAIL_BUSY_PLAIN the program may not go before others.
func TestStopsReachTheWireInTime(t *testing.T) {
	if os.Getenv("SEAMRAIL_BUSY") == "" {
		t.Skip("SEAMRAIL_BUSY=N times N stops of each kind of controller on a busy computer")
	}
	trials, err := strconv.Atoi(os.Getenv("SEAMRAIL_BUSY"))
	require.NoError(t, err)
	load(t, busyWith)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(instrument))
	urgently()
	wire := []*idler{wires(t, true), wires(t, false)}
	var plain []*idler
	for i := range runtime.NumCPU() {
		plain = append(plain, idles(t, i))
	}
	t.Logf("%-15s %-7s %6s %8s %8s %8s %8s %8s %8s %8s %5s %5s", "controller", "by", "stops", "median", "95 %", "worst", "idle 95%", "worst", "pty 95%", "worst", "over", "alone")
	for _, kind := range []string{"buffered", "lockstep, byte", "step player"} {
		x := &timed{t: t, kind: kind, idle: plain, wire: wire}
		for _, by := range []string{"key", "signal"} {
			x.report(by, x.trials(by, trials))
		}
		x.end()
	}
}

// timed is a row of trials with a kind of controller.
type timed struct {
	t    *testing.T
	kind string
	idle []*idler
	wire []*idler
	run  *driven
	seen int // of what was printed
}

func (x *timed) trials(by string, n int) (out []stop) {
	for tries := 0; len(out) < n && tries < 3*n; tries++ {
		if x.run == nil {
			x.begin()
		}
		if s, ok := x.trial(by, len(out)); ok {
			out = append(out, s)
		} else {
			x.end()
		}
	}
	return out
}

func (x *timed) begin() {
	program := "chrt -o 0 " // as the system starts programs, not as this one is
	if os.Getenv("SEAMRAIL_BUSY_PLAIN") != "" {
		program += "setpriv --inh-caps=-sys_nice --bounding-set=-sys_nice " // as one of an ordinary user
	}
	x.run = drives(x.t, program+"seamrail", x.kind, true)
	x.seen = 0
	x.awaits("Rolling.")
}

// awaits tells whether a word is printed.
func (x *timed) awaits(word string) bool {
	buf := make([]byte, 4096)
	_ = x.run.out.SetReadDeadline(time.Now().Add(patience))
	for {
		if i := strings.Index(x.run.seen.String()[x.seen:], word); i >= 0 {
			x.seen += i + len(word)
			return true
		}
		n, err := x.run.out.Read(buf)
		x.run.seen.Write(buf[:n])
		if err != nil {
			return false
		}
	}
}

func (x *timed) trial(by string, n int) (stop, bool) {
	if !x.awaits("%") { // the bar moves
		return stop{}, false
	}
	time.Sleep(time.Duration(n%17) * 7 * time.Millisecond) // anywhere in a round
	from := time.Now()
	if by == "key" {
		_, _ = x.run.terminal.WriteString(" ")
	} else {
		_ = x.run.cmd.Process.Signal(syscall.SIGINT)
	}
	hold := bytes.TrimRight(x.run.words.Hold, "\x00")
	at, ok := x.run.tap.when(hold, from)
	for end := from.Add(2 * time.Second); !ok && time.Now().Before(end); time.Sleep(time.Millisecond) {
		at, ok = x.run.tap.when(hold, from)
	}
	if !ok {
		return stop{}, false
	}
	s := stop{at.Sub(from), worst(x.idle, from, at), worst(x.wire, from, at)}
	if !x.awaits("r goes on in the same round") {
		return s, true
	}
	_, _ = x.run.terminal.WriteString("r")
	x.awaits("Rolling.")
	return s, true
}

func (x *timed) end() {
	if x.run != nil {
		_ = x.run.cmd.Process.Kill()
		x.run.end()
		x.run = nil
	}
}

// report prints a row, and finds stops that were late for no reason.
func (x *timed) report(by string, stops []stop) {
	var took, idle, wire []time.Duration
	over, alone := 0, 0 // late, and later than an idle thread
	for _, s := range stops {
		took, idle, wire = append(took, s.took), append(idle, s.idle), append(wire, s.wire)
		if s.took > soonEnough {
			over++
		}
		if s.took > max(soonEnough, s.idle) {
			alone++
		}
		assert.LessOrEqual(x.t, s.took, max(soonEnough, s.idle+s.wire), "%s, by a %s, an idle thread was late by %v, bytes of the system by %v", x.kind, by, s.idle, s.wire)
	}
	slices.Sort(took)
	slices.Sort(idle)
	slices.Sort(wire)
	if len(stops) == 0 {
		x.t.Errorf("%s: no stop was timed", x.kind)
		return
	}
	x.t.Logf("%-15s %-7s %6d %8s %8s %8s %8s %8s %8s %8s %5d %5d", x.kind, by, len(stops),
		ms(took, 0.5), ms(took, 0.95), ms(took, 1), ms(idle, 0.95), ms(idle, 1), ms(wire, 0.95), ms(wire, 1), over, alone)
}

func ms(sorted []time.Duration, share float64) string {
	i := min(int(float64(len(sorted))*share), len(sorted)-1)
	return fmt.Sprintf("%.2f ms", sorted[i].Seconds()*1e3)
}
