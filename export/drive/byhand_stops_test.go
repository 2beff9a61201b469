package drive_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/export/drive/virtual"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
)

// onTable is a rail and a table without an end, on a board of a kind.
func onTable(t testing.TB, kind rig.ControllerKind, set func(*rig.Controller)) *trajectory.Trajectory {
	b := bench(kind)
	b.Controller.Greeting = ""
	set(&b.Controller)
	return sample.Make(t, 96, b, sample.Rail(t, "cycloidal", 100), sample.Table(t))
}

// An axis without an end goes as long as it is held, on every board.
func TestVirtualJogsGoOnWithoutAnEnd(t *testing.T) {
	for _, b := range jogBoards {
		j := jogOn(t, onTable(t, b.kind, b.set), nil)
		j.holdAndLet(1, -9, readyAt, readyAt+3*time.Second)
		r := j.goes(readyAt + 5*time.Second)
		require.NoError(t, r.Err(), "%s: %v", b.name, j.w.said)
		assert.True(t, r.Known, b.name)
		assert.Less(t, j.at(1, readyAt+4*time.Second), -10.0, "%s: %v", b.name, j.w.said)
	}
}

// A speed at which an axis would not go a step in a day is none, and keeps nobody from the
// stop key.
func TestVirtualJogsAreNotSlowerThanACreep(t *testing.T) {
	for _, b := range jogBoards {
		j := newJogRun(t, b.kind, b.set, nil)
		j.hold(0, 1e-300, readyAt, readyAt+time.Second)
		r := j.goes(readyAt + 3*time.Second)
		require.NoError(t, r.Err(), "%s: %v", b.name, j.w.said)
		assert.Contains(t, strings.Join(j.w.said, "\n"), "is slower than axis rail is moved by hand", b.name)
	}
}

// A stop at any time of a jog, and after it, leaves a rig at rest whose place is known: one
// that takes a hold while it stands idle, and one that does not.
func TestVirtualJogsTakeAStop(t *testing.T) {
	for n, b := range slices.Concat(jogBoards, jogBoards) {
		idle := n < len(jogBoards)
		for ms := time.Duration(0); ms < 400; ms += 7 {
			j := newJogRun(t, b.kind, b.set, func(o *virtual.Options) { o.HoldsIdle = idle })
			let := readyAt + 200*time.Millisecond
			j.holdAndLet(0, 20, readyAt, let)
			at := readyAt + ms*time.Millisecond + time.Duration(ms)*131*time.Microsecond
			j.ask(at, drive.Request{Kind: drive.Stop})
			r := j.goes(readyAt + 4*time.Second)
			require.NoError(t, r.Err(), "%s, a stop after %v: %v", b.name, at-readyAt, j.w.said)
			require.True(t, r.Known, "%s, a stop after %v: %v", b.name, at-readyAt, j.w.said)
			require.InDelta(t, j.rig.Place()[0], r.At[0], 0.02, "%s, a stop after %v", b.name, at-readyAt)
		}
	}
}

// A stop on the way to a switch leaves nothing of where the rig has been before: it has gone
// elsewhere since.
func TestVirtualHomingStopped(t *testing.T) {
	for _, b := range jogBoards[1:4] {
		for ms := time.Duration(2); ms < 3000; ms += 97 {
			j := newJogRun(t, b.kind, b.set, nil)
			j.ask(readyAt, drive.Request{Kind: drive.Jog, By: 30})
			j.ask(readyAt+3*time.Second, drive.Request{Kind: drive.Home})
			j.ask(readyAt+3*time.Second+ms*time.Millisecond, drive.Request{Kind: drive.Stop})
			r := j.goes(readyAt + 20*time.Second)
			l, err := logged(j.log.Bytes())
			require.NoError(t, err)
			require.Equal(t, r.Known, l.Known)
			if r.Known {
				require.InDelta(t, j.rig.Place()[0], r.At[0], 0.02, "%s, a stop after %v ms: %v", b.name, ms, j.w.said)
			}
		}
	}
}

// A controller that says nothing is waited for so long and no longer; meanwhile it is said
// what to look at, and a stop leaves.
func TestVirtualSilence(t *testing.T) {
	for _, kind := range rig.DrivenKinds() {
		silent := func(o *virtual.Options) { o.Faults = []virtual.Fault{{Kind: virtual.FallSilent}} }
		j := newJogRun(t, kind, func(*rig.Controller) {}, silent)
		r := j.goes(time.Minute)
		assert.Equal(t, drive.Silent, r.End, "%v", kind)
		assert.Contains(t, r.Detail, "is it powered")
		assert.Less(t, j.rig.Now(), 12*time.Second, "%v, a second after its end", kind)
		require.Len(t, j.w.said, 1)
		assert.Contains(t, j.w.said[0], "has not been understood yet")

		j = newJogRun(t, kind, func(*rig.Controller) {}, silent)
		j.ask(time.Second, drive.Request{Kind: drive.Stop})
		r = j.goes(time.Minute)
		assert.Equal(t, drive.Stopped, r.End, "%v", kind)
		assert.Less(t, j.rig.Now(), 2100*time.Millisecond, "%v, a second after its end", kind)
	}
}

// A board whose wire is quicker than its file says, as one on USB is that has no wire of its
// own, moves as soon as a key is down.
func TestVirtualJogsOnAQuickWire(t *testing.T) {
	for _, b := range jogBoards {
		if b.kind.PlaysSteps() {
			continue
		}
		slow := func(c *rig.Controller) { b.set(c); c.Baud = 19200 }
		j := newJogRun(t, b.kind, slow, func(o *virtual.Options) { o.Baud = 0 })
		j.ask(readyAt, drive.Request{Kind: drive.JogHold, Speed: 20, For: 600 * time.Millisecond})
		r := j.goes(readyAt + 8*time.Second)
		require.NoError(t, r.Err(), "%s: %v", b.name, j.w.said)
		assert.Greater(t, j.at(0, readyAt+300*time.Millisecond), j.at(0, readyAt)+0.1, b.name)
	}
}

// Where it is not known where an axis stands no step is longer than a hold goes.
func TestVirtualJogsBlindSteps(t *testing.T) {
	for _, b := range jogBoards {
		j := newJogRun(t, b.kind, b.set, nil)
		j.options.Settle = drive.AskOperator
		j.ask(readyAt, drive.Request{Kind: drive.Jog, By: -100})
		j.ask(readyAt+time.Second, drive.Request{Kind: drive.Jog, By: 5})
		r := j.goes(readyAt + 4*time.Second)
		require.NoError(t, r.Err(), "%s: %v", b.name, j.w.said)
		assert.Contains(t, j.w.said, "where axis rail stands is not known: it goes 5 mm at a time at the most", b.name)
		assert.InDelta(t, 5, j.at(0, readyAt+3*time.Second)-j.at(0, readyAt), 0.02, b.name)
	}
}
