package host

import (
	"fmt"
	"os"
	"runtime"
	"runtime/debug"
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

// Urgency is how far this program goes before others while something moves.
type Urgency int

// The urgencies.
const (
	Ordinary Urgency = iota
	// brief is what any program may be: one that runs for moments, and so gets its
	// turn sooner.
	brief
	// Ahead of others, who still get their turn: for a program that also plans, and
	// whose operator sits before another one.
	Ahead
	// First, before all ordinary programs: for one that sleeps nearly all of the
	// time.
	First
)

// refused says what follows where the system allows neither.
func refused(err error) string {
	return fmt.Sprintf("This system does not let seamrail go before other programs (%v): on a busy computer a stop may be late by as long as they make it wait.", err)
}

// hurry becomes as urgent as was asked for, or at least ahead. What is refused is
// told once.
func (g *guard) hurry() {
	if g.urgency == Ordinary {
		return
	}
	err := g.urgency.become()
	if err == nil || Ahead.become() == nil {
		return
	}
	_ = brief.become() // systems that do not know of it let it be
	if g.urgency != brief {
		g.urgency = brief
		g.tell(refused(err))
	}
}

// relax is as every program is.
func (g *guard) relax() {
	if g.urgency != Ordinary {
		_ = Ordinary.become()
	}
}

// untidy is how much memory may be taken up in motion before it is tidied up all the
// same: that of some minutes.
const untidy = 256 << 20

// untidied has memory not tidied up, for which all that runs would be stopped, until
// it is called off.
func untidied() (off func()) {
	var used runtime.MemStats
	runtime.ReadMemStats(&used)
	limit := debug.SetMemoryLimit(int64(used.Sys) + untidy)
	percent := debug.SetGCPercent(-1)
	return func() {
		debug.SetGCPercent(percent)
		debug.SetMemoryLimit(limit)
	}
}
