package host

import (
	"os"
	"runtime"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
)

// A lid that is closed for an hour is told once; the clocks' own unrest never.
func TestSuspensionIsToldOnce(t *testing.T) {
	total := time.Hour
	slept := growth(func() time.Duration { return total })
	assert.Zero(t, slept())
	total += minSleep / 2
	assert.Zero(t, slept())
	total += time.Hour
	assert.Equal(t, time.Hour+minSleep/2, slept())
	assert.Zero(t, slept())
	total -= time.Hour // the time of day was set back
	assert.Zero(t, slept())
}

func TestTheComputerIsAwakeNow(t *testing.T) {
	slept := suspension()
	for range 1000 {
		assert.Zero(t, slept())
	}
}

type silent struct{ end chan struct{} }

func (s silent) Read([]byte) (int, error)    { <-s.end; return 0, os.ErrClosed }
func (s silent) Write(b []byte) (int, error) { return len(b), nil }
func (s silent) Close() error                { close(s.end); return nil }

func TestASleepIsAnEvent(t *testing.T) {
	w := New(silent{make(chan struct{})}, 0, nil, nil)
	defer func() { assert.NoError(t, w.Close()) }()
	naps := []time.Duration{0, 3 * time.Second, 0, 0, 0}
	w.slept = func() time.Duration {
		d := naps[0]
		naps = naps[1:]
		return d
	}
	e := w.Wait(time.Now())
	assert.Equal(t, drive.Event{Kind: drive.Slept, Duration: 3 * time.Second}, e, "seen on waking")
	assert.Equal(t, drive.Nothing, w.Wait(time.Now()).Kind)
}

func TestSignalsAreTold(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("a process cannot signal itself there")
	}
	told := make(chan string, 2)
	release := Signals(func() { told <- "interrupt" }, func() { told <- "end" }, func() { told <- "gone" })
	defer release()
	for _, c := range []struct {
		signal os.Signal
		want   string
	}{{os.Interrupt, "interrupt"}, {syscall.SIGTERM, "end"}, {syscall.SIGHUP, "gone"}} {
		self, err := os.FindProcess(os.Getpid())
		require.NoError(t, err)
		require.NoError(t, self.Signal(c.signal))
		select {
		case got := <-told:
			assert.Equal(t, c.want, got)
		case <-time.After(10 * time.Second):
			t.Fatal("not told of ", c.signal)
		}
	}
}

// A wire is kept busy and never has more than a hundredth of a second to do, at
// any speed; a byte for it alone always goes.
func TestPacer(t *testing.T) {
	for _, baud := range []int{300, 9600, 115200, 1_000_000} {
		p, now := newPacer(baud), time.Unix(0, 0)
		perByte := time.Second * bitsPerByte / time.Duration(baud)
		total := 0
		for ; now.Before(time.Unix(10, 0)); now = now.Add(time.Millisecond) {
			n := p.room(now)
			p.sent(now, n)
			total += n
			assert.LessOrEqual(t, p.free.Sub(now), max(maxAhead, perByte), "%d baud", baud)
		}
		line := 10 * float64(baud) / bitsPerByte
		assert.InDelta(t, line, float64(total), 0.02*line, "%d baud: all that the wire carries in ten seconds", baud)
	}
	free := newPacer(0)
	free.sent(time.Now(), 1<<20)
	assert.Greater(t, free.room(time.Now()), 1<<20)
}
