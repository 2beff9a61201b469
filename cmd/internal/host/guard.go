package host

import (
	"fmt"
	"os"
	"sync/atomic"
	"time"

	"seamrail/cmd/internal/deadman"
	"seamrail/export/drive"
)

// guard holds what moves when this program cannot any more. The zero value does
// nothing.
type guard struct {
	moving  atomic.Bool
	off     func()          // from then on a panic is nothing to the rig
	second  *deadman.Switch // nil = there is none
	tell    func(string)
	braking []byte

	urgency  Urgency // asked for while something moves
	untidied func()  // lets memory be tidied up again
}

// lined is a port that a second process can speak on.
type lined interface{ Line() *os.File }

// Guard has the controller told to hold when this program dies, in whatever way,
// while something moves. Where that cannot be had, tell is told what is not, in
// plain words. A controller without a word for it rests when it is not fed.
//
// While something moves this program is as urgent as u, as far as the system allows.
func (w *World) Guard(words drive.LastWords, u Urgency, tell func(string)) {
	g := &w.guard
	g.tell, g.braking, g.urgency = tell, words.Hold, u
	if len(words.Hold)+len(words.Forget) == 0 {
		return
	}
	if len(words.Hold) == 0 {
		g.braking = words.Forget
	}
	g.off = deadman.OnPanic(w.brake)
	port, ok := w.port.(lined)
	if !ok {
		if _, real := w.port.(flusher); real {
			tell(unwatched(fmt.Errorf("this system does not let it share the port")))
		}
		return
	}
	second, err := deadman.Start(port.Line(), deadman.Words(words))
	if err != nil {
		tell(unwatched(err))
		return
	}
	g.second = second
}

// unwatched says what the operator has to know without a second process.
func unwatched(err error) string {
	return fmt.Sprintf("Nothing holds the rig if this program is killed or hangs: there is no second process for that (%v). Keep the switch that cuts motor power at hand.", err)
}

// Moves is told by the engine whether something moves.
func (w *World) Moves(moving bool) {
	g := &w.guard
	g.lost(g.second.Moves(moving))
	switch was := g.moving.Swap(moving); {
	case was == moving:
	case moving:
		g.untidied = untidied()
		g.hurry()
	default:
		g.untidied()
		g.relax()
	}
}

// beat shows the second process that this one is there, and returns when it has
// to be shown again.
func (g *guard) beat(now time.Time) time.Duration {
	next, err := g.second.Beat(now)
	g.lost(err)
	return next
}

// lost gives up a second process that does not listen any more.
func (g *guard) lost(err error) {
	if err == nil {
		return
	}
	_ = g.second.Close()
	g.second = nil
	g.tell(unwatched(err))
}

// release lets go of the rig.
func (g *guard) release() {
	if g.off != nil {
		g.off()
	}
	_ = g.second.Close()
	g.second = nil
}

// brakeWithin is how long a wire may take for the hold while the program dies: a
// second process has it, too.
const brakeWithin = 50 * time.Millisecond

// brake puts the hold on the wire, before all that waits for it. It is called in
// the midst of a panic, on any goroutine.
func (w *World) brake() {
	if !w.guard.moving.Load() {
		return
	}
	gone := make(chan struct{})
	deadman.Go(func() {
		defer close(gone)
		if f, ok := w.port.(flusher); ok {
			_ = f.ResetOutputBuffer()
		}
		_, _ = w.port.Write(w.guard.braking)
	})
	select {
	case <-gone:
	case <-time.After(brakeWithin):
	}
}
