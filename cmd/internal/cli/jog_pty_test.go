//go:build linux

package cli_test

import (
	"bytes"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/exit"
	"seamrail/export/drive/virtual"
	"seamrail/motion/plan/sample/many"
)

// What a terminal sends that tells when a key is let go of.
const (
	answers  = "\x1b[?3u" // that it does
	right    = "\x1b[C"
	rightOn  = "\x1b[1;1:2C"
	rightOff = "\x1b[1;1:3C"
	unseen   = "\x1b[O"
)

// jogs begins a jog of a rig alone, on a controller of a kind, and brings it to where keys
// move it: nothing before the word does.
func jogs(t *testing.T, kind string) *driven {
	t.Helper()
	x, port := wired(t, kind)
	x.cmd = exec.Command("seamrail", "jog", filepath.Join(filepath.Dir(x.shot), "rig.toml"), "--port", port, "--speed", "4")
	x.runs(true)
	x.until("Type clear and press Enter")
	assert.Contains(t, x.seen.String(), "! The rig moves without warning.")
	assert.Contains(t, x.seen.String(), "\x1b[>3u", "it asks to be told when keys are let go of")
	x.press(right)
	x.press("clear\r")
	x.until("q leaves")
	x.press("p")
	x.until("Ready.")
	assert.Zero(t, x.spans(), "nothing has moved")
	return x
}

func (x *driven) press(keys string) {
	x.t.Helper()
	_, err := x.terminal.WriteString(keys)
	require.NoError(x.t, err)
}

func (x *driven) spans() (n int) {
	x.port.See(func(r *virtual.Rig) { n = r.Record().Len() })
	return n
}

// holds holds the right arrow as a terminal repeats it, and returns the time of the rig by
// then.
func (x *driven) holds(repeats int, again string) (at time.Duration) {
	x.t.Helper()
	x.press(right)
	for range repeats {
		time.Sleep(30 * time.Millisecond)
		x.press(again)
	}
	last := 0.0
	x.port.See(func(r *virtual.Rig) {
		at = r.Now()
		require.NotZero(x.t, r.Record().Len(), "it moves: %q", x.tap.since(time.Time{}))
		last = r.Record().Span(r.Record().Len() - 1).End
	})
	if last < (at - 100*time.Millisecond).Seconds() {
		x.until("it ran out of rows") // as a player of rows says
		x.t.Skip("this computer is too busy for rows now")
	}
	return at
}

// moved waits until the rig rests, and returns how long it moved on after a time of its own.
func (x *driven) moved(after time.Duration) (on time.Duration) {
	x.t.Helper()
	x.rests()
	x.port.See(func(r *virtual.Rig) {
		on = time.Duration(r.Record().Span(r.Record().Len()-1).End*float64(time.Second)) - after
	})
	return on
}

// onBusy is how much later than on a computer that does nothing else an axis may rest here.
const onBusy = 300 * time.Millisecond

// Whatever ends a jog, the rig rests, and the last that it is told makes it.
func TestWhateverEndsAJog(t *testing.T) {
	many.Long(t)
	for _, c := range []struct {
		name   string
		ends   func(x *driven)
		within time.Duration // beyond what a busy computer takes
		code   int
		lives  bool
		killed bool
	}{
		{"let go of", func(x *driven) { x.press(rightOff) }, 150 * time.Millisecond, 0, true, false},
		{"another window", func(x *driven) { x.press(unseen) }, 150 * time.Millisecond, 0, true, false},
		{"no more repeats", func(*driven) {}, 300 * time.Millisecond, 0, true, false},
		{"killed", func(x *driven) { _ = x.cmd.Process.Signal(syscall.SIGKILL) }, 150 * time.Millisecond, -1, false, true},
		{"terminal closed", func(x *driven) { _ = x.out.Close() }, 150 * time.Millisecond, exit.Stopped, false, false},
		{"SIGHUP", func(x *driven) { _ = x.cmd.Process.Signal(syscall.SIGHUP) }, 150 * time.Millisecond, exit.Stopped, false, false},
		{"port lost", func(x *driven) { x.unplug() }, 150 * time.Millisecond, exit.Rig, false, false},
	} {
		for kind := range kinds {
			if kind == "buffered, no end" {
				continue
			}
			t.Run(c.name+"/"+kind, func(t *testing.T) {
				t.Parallel()
				x := jogs(t, kind)
				x.press(answers)
				time.Sleep(50 * time.Millisecond)
				at := x.holds(20, rightOn)
				from := time.Now()
				c.ends(x)
				if c.name != "terminal closed" {
					x.drain()
				}
				on := x.moved(at)
				t.Logf("it moved on for %v", on.Round(time.Millisecond/10))
				assert.Less(t, on, c.within+onBusy)
				told := x.tap.since(from)
				switch hold := bytes.TrimRight(x.words.Hold, "\x00"); {
				case c.killed && len(hold) > 0:
					assert.Contains(t, string(told), string(hold), "the second process holds it")
				case c.name == "port lost": // no word reaches it any more: that it rests is asserted above
				case kind == "buffered" && !c.lives: // a signal stops whatever goes on
					assert.Contains(t, string(told), string(hold))
				case kind == "buffered":
					assert.Contains(t, string(told), "\x85")
				}
				if c.lives {
					x.press("q")
				}
				assert.Equal(t, c.code, x.end())
			})
		}
	}
}

// On a terminal that does not tell when a key is let go of, a tap is a nudge, and a key
// that is held goes on for as long as its repeats come; that is said.
func TestAJogOnAPlainTerminal(t *testing.T) {
	x := jogs(t, "buffered")
	assert.Contains(t, strings.Join(strings.Fields(x.seen.String()), " "), "This terminal does not tell when a key is let go of: it counts as held for 0.12 s")
	x.press(right)
	x.until("0.000 to its end at 0") // and on from there
	x.until("to that at 100")
	at := x.holds(15, right)
	x.drain()
	assert.Less(t, x.moved(at), 120*time.Millisecond+150*time.Millisecond+onBusy)
	x.press("q")
	assert.Zero(t, x.end())
}
