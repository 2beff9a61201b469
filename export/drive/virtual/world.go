package virtual

import (
	"slices"
	"time"

	"seamrail/export/drive"
)

// Epoch is the time of day at which every virtual board is powered.
var Epoch = time.Date(2000, time.January, 1, 0, 0, 0, 0, time.UTC)

// readLatency is how long bytes lie at the host before a program sees them: a
// frame of a common serial adapter, 1 ms (common practice).
const readLatency = instant(second / 1000)

// Asking is a request of the operator at a moment.
type Asking struct {
	At      time.Duration // since the board was powered
	Request drive.Request
}

// World is a Rig, an operator and a clock in one place to wait on. Time passes
// in Wait alone, and as fast as it can be worked out. It satisfies drive.World.
type World struct {
	rig    *Rig
	script []Asking // by At
	told   bool     // that the wire is gone
	heard  []byte
}

// NewWorld returns the world of a rig, with what the operator will ask.
func NewWorld(r *Rig, script ...Asking) *World {
	w := &World{rig: r}
	for _, a := range script {
		w.Ask(a)
	}
	return w
}

// Ask adds a request. One whose moment is past comes at the next Wait.
func (w *World) Ask(a Asking) {
	i, _ := slices.BinarySearchFunc(w.script, a, func(b, a Asking) int {
		if b.At <= a.At {
			return -1
		}
		return 1
	})
	w.script = slices.Insert(w.script, i, a)
}

// Now returns Epoch and the time since the board was powered.
func (w *World) Now() time.Time { return Epoch.Add(w.rig.Now()) }

// Write puts bytes on the wire.
func (w *World) Write(p []byte) (int, error) { return w.rig.Write(p) }

// Wait returns the first thing that happens, or an Event of kind Nothing at
// until.
func (w *World) Wait(until time.Time) drive.Event {
	limit := max(w.rig.now, fromDuration(until.Sub(Epoch)))
	for {
		if e, ok := w.event(); ok {
			return e
		}
		if w.rig.now >= limit {
			return drive.Event{}
		}
		w.rig.advanceTo(w.rig.now + max(picosecond, min(limit, w.due(), w.rig.next())-w.rig.now))
	}
}

// due returns when the host hears or is asked next, or never.
func (w *World) due() instant {
	at := never
	if next := w.rig.out.next(); next != never {
		at = next + readLatency
	}
	if len(w.script) > 0 {
		at = min(at, fromDuration(w.script[0].At))
	}
	return at
}

// event returns what the host finds now. While it sleeps it finds nothing.
func (w *World) event() (drive.Event, bool) {
	r := w.rig
	if r.asleep > r.now {
		r.advanceTo(r.asleep)
	}
	switch {
	case r.slept > 0:
		e := drive.Event{Kind: drive.Slept, Duration: r.slept}
		r.slept = 0
		return e, true
	case len(w.script) > 0 && fromDuration(w.script[0].At) <= r.now:
		e := drive.Event{Kind: drive.Asked, Request: w.script[0].Request}
		w.script = w.script[1:]
		return e, true
	case r.gone && !w.told:
		w.told = true
		return drive.Event{Kind: drive.Gone, Err: ErrGone}, true
	case r.out.next() != never && r.out.next()+readLatency <= r.now:
		w.heard = r.Read(w.heard[:0])
		return drive.Event{Kind: drive.Heard, Bytes: w.heard}, true
	}
	return drive.Event{}, false
}
