// Package host is the world of a real run: a port, what the operator asks for,
// the signals of the system and its clock, in one place to wait on.
package host

import (
	"io"
	"sync"
	"time"

	"seamrail/cmd/internal/deadman"
	"seamrail/export/drive"
)

// Port is the wire to the controller. Close must end a Read that waits.
type Port = io.ReadWriteCloser

// World is drive.World on a port. It owns a goroutine that reads and, where the
// port is not direct, one that writes, which Close ends.
type World struct {
	port    Port
	direct  direct     // or nil
	wire    chan chunk // what the reader and the writer have to tell, in order
	pending *pipe
	pace    pacer
	asks    <-chan drive.Request
	hurried <-chan drive.Request
	slept   func() time.Duration
	closing chan struct{}
	done    sync.WaitGroup
	once    sync.Once
	fault   error
	guard   guard
}

// chunk is bytes from the wire, or its end.
type chunk struct {
	bytes []byte
	err   error
}

// backlog is how many chunks wait for the engine before the reader waits for
// it: enough for a second of answers at 115200 baud.
const backlog = 256

// New returns the world of an open port at a speed in bits a second, 0 for one
// that takes no time. Requests on hurried go before all else, those on asks
// before bytes from the wire; either may be nil.
func New(port Port, baud int, hurried, asks <-chan drive.Request) *World {
	w := &World{
		port: port, wire: make(chan chunk, backlog), pending: newPipe(), pace: newPacer(baud), asks: asks, hurried: hurried,
		slept: suspension(), closing: make(chan struct{}),
	}
	w.direct, _ = port.(direct)
	w.begin(w.read)
	if w.direct == nil {
		w.begin(w.write)
	}
	return w
}

func (w *World) begin(f func()) {
	w.done.Add(1)
	deadman.Go(func() {
		defer w.done.Done()
		f()
	})
}

// Now is the clock of the system, with the part that never goes back.
func (w *World) Now() time.Time { return time.Now() }

// Wait returns the first thing that happens, or Nothing at until.
func (w *World) Wait(until time.Time) drive.Event {
	for {
		beat := w.Now().Add(w.guard.beat(w.Now()))
		if !beat.Before(until) {
			return w.wait(until)
		}
		if e := w.wait(beat); e.Kind != drive.Nothing {
			return e
		}
	}
}

func (w *World) wait(until time.Time) drive.Event {
	if d := w.slept(); d > 0 {
		return drive.Event{Kind: drive.Slept, Duration: d}
	}
	if e, ok := w.already(); ok {
		return e
	}
	timer := time.NewTimer(time.Until(until))
	defer timer.Stop()
	select {
	case r := <-w.hurried:
		return asked(r)
	case r := <-w.asks:
		return asked(r)
	case c := <-w.wire:
		return w.tell(c)
	case <-timer.C:
		if d := w.slept(); d > 0 {
			return drive.Event{Kind: drive.Slept, Duration: d}
		}
		select { // after a time in which this program was held up, both are there
		case c := <-w.wire:
			return w.tell(c)
		default:
			return drive.Event{}
		}
	}
}

// already returns what has happened before the wait began, the operator's
// haste first.
func (w *World) already() (drive.Event, bool) {
	select {
	case r := <-w.hurried:
		return asked(r), true
	default:
	}
	select {
	case r := <-w.hurried:
		return asked(r), true
	case r := <-w.asks:
		return asked(r), true
	default:
		return drive.Event{}, false
	}
}

func asked(r drive.Request) drive.Event { return drive.Event{Kind: drive.Asked, Request: r} }

func (w *World) tell(c chunk) drive.Event {
	if c.err != nil {
		w.fault = c.err
		return drive.Event{Kind: drive.Gone, Err: c.err}
	}
	return drive.Event{Kind: drive.Heard, Bytes: c.bytes}
}

// readSize is above what comes in the time it takes to wake a goroutine.
const readSize = 4096

func (w *World) read() {
	buf := make([]byte, readSize)
	for {
		n, err := w.port.Read(buf)
		if n > 0 && !w.pass(chunk{bytes: append([]byte(nil), buf[:n]...)}) {
			return
		}
		if err != nil {
			w.pass(chunk{err: err})
			return
		}
		if n == 0 && w.closed() { // a port with a timeout gives nothing now and then
			return
		}
	}
}

// pass tells the engine, unless the world is closing.
func (w *World) pass(c chunk) bool {
	select {
	case w.wire <- c:
		return true
	case <-w.closing:
		return false
	}
}

func (w *World) closed() bool {
	select {
	case <-w.closing:
		return true
	default:
		return false
	}
}

// lastWords is how long Close waits for bytes that are still to go out: a line
// at 9600 baud takes a tenth of a second.
const lastWords = 200 * time.Millisecond

// flusher is a port that can drop what it has not sent, which also ends a Write
// that waits.
type flusher interface{ ResetOutputBuffer() error }

// Close lets pending bytes go out, for a moment, closes the port and waits for
// both goroutines. What moves all the same, since the engine has panicked, is
// held. A second call does nothing.
func (w *World) Close() (err error) {
	w.once.Do(func() {
		w.brake()
		w.drain()
		w.guard.release()
		close(w.closing)
		w.pending.close()
		if f, ok := w.port.(flusher); ok && w.stuck() {
			_ = f.ResetOutputBuffer()
		}
		err = w.port.Close()
		w.done.Wait()
	})
	return err
}

// minSleep is below any suspension and above what two readings of the clocks
// one after the other differ by.
const minSleep = 100 * time.Millisecond

// suspension returns a function that tells how long the computer has been
// suspended since the last call, or 0.
func suspension() func() time.Duration { return growth(asleep) }

// growth tells by how much a total has grown since the last call, once that is
// worth telling.
func growth(total func() time.Duration) func() time.Duration {
	last := total()
	return func() time.Duration {
		now := total()
		d := now - last
		if d < minSleep {
			return 0
		}
		last = now
		return d
	}
}
