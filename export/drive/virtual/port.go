package virtual

import (
	"io"
	"slices"
	"sync"
	"time"

	"seamrail/export/drive"
)

// Clock is the time a Port lives in.
type Clock interface {
	// Now returns a time that never goes back.
	Now() time.Time
	// After sends the time once d is over.
	After(d time.Duration) <-chan time.Time
}

// wallClock is the clock on the wall.
type wallClock struct{}

func (wallClock) Now() time.Time                         { return time.Now() }
func (wallClock) After(d time.Duration) <-chan time.Time { return time.After(d) }

// Port is a Rig that lives in real time, as a serial port would show it. It has
// no goroutine of its own: the board's clock is brought up to date whenever
// Read or Write is called. Both may be called at once.
type Port struct {
	mu     sync.Mutex
	rig    *Rig
	clock  Clock
	speed  float64
	opened time.Time
	wake   chan struct{} // something has been written
	closed chan struct{}
	once   sync.Once
}

// NewPort lives a rig through, speed times as fast as the wall clock; 1 is as
// it would be.
func NewPort(r *Rig, speed float64) *Port { return NewPortOn(r, speed, wallClock{}) }

// NewPortOn is NewPort with a clock of one's own. It panics when speed is not
// above 0.
func NewPortOn(r *Rig, speed float64, c Clock) *Port {
	if !(speed > 0) {
		panic("virtual: a port runs forwards")
	}
	return &Port{rig: r, clock: c, speed: speed, opened: c.Now(), wake: make(chan struct{}, 1), closed: make(chan struct{})}
}

// catchUp brings the board's clock up to date. The lock is held.
func (p *Port) catchUp() {
	p.rig.AdvanceTo(time.Duration(float64(p.clock.Now().Sub(p.opened)) * p.speed))
}

// Write puts bytes on the wire.
func (p *Port) Write(b []byte) (int, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	select {
	case <-p.closed:
		return 0, io.ErrClosedPipe
	default:
	}
	p.catchUp()
	n, err := p.rig.Write(b)
	select {
	case p.wake <- struct{}{}:
	default:
	}
	return n, err
}

// Read waits for bytes from the board. It returns io.EOF once the port is
// closed, and ErrGone once the wire is gone.
func (p *Port) Read(b []byte) (int, error) {
	if len(b) == 0 {
		return 0, nil
	}
	for {
		n, wait, err := p.poll(b)
		if n > 0 || err != nil {
			return n, err
		}
		var alarm <-chan time.Time
		if wait >= 0 {
			alarm = p.clock.After(wait)
		}
		select {
		case <-alarm:
		case <-p.wake:
		case <-p.closed:
			return 0, io.EOF
		}
	}
}

// poll takes what has come, or returns how long nothing will: below 0, for
// ever.
func (p *Port) poll(b []byte) (n int, wait time.Duration, err error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	select {
	case <-p.closed:
		return 0, 0, io.EOF
	default:
	}
	p.catchUp()
	for n < len(b) && p.rig.out.next() <= p.rig.now {
		b[n] = p.rig.out.take()
		n++
	}
	if n == 0 && p.rig.gone {
		return 0, 0, ErrGone
	}
	at := min(p.rig.out.next(), p.rig.next())
	if at == never {
		return n, -1, nil
	}
	// A nanosecond more, so that it has come by then.
	return n, time.Duration(float64((at-p.rig.now).duration())/p.speed) + 1, nil
}

// Close ends the port. A Read that waits returns.
func (p *Port) Close() error {
	p.once.Do(func() { close(p.closed) })
	return nil
}

// See runs look on the rig, brought up to date, while nothing else uses it.
func (p *Port) See(look func(r *Rig)) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.catchUp()
	look(p.rig)
}

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
