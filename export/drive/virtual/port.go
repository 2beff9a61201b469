package virtual

import (
	"io"
	"sync"
	"time"
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
