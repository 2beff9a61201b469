package host

import (
	"io"
	"math"
	"sync"
	"time"
)

// direct is a port that takes what it has room for at once. Bytes for it need no
// goroutine that waits in their place.
type direct interface {
	// Put hands over bytes without waiting, and returns how many were taken.
	Put(p []byte) (int, error)
	// Unsent is how many bytes of those have not left this computer, as far as the
	// system knows.
	Unsent() int
}

// Write hands bytes to the wire, or to the writer, as far as they have room.
func (w *World) Write(p []byte) (n int, err error) {
	if w.fault != nil {
		return 0, w.fault
	}
	now := w.Now()
	p = p[:min(len(p), w.room(now))]
	if w.direct == nil {
		n = w.pending.put(p)
	} else if len(p) > 0 {
		n, err = w.direct.Put(p)
	}
	w.pace.sent(now, n)
	w.fault = err
	return n, err
}

// room is how many bytes may go on their way now: a stop has to wait for them.
func (w *World) room(now time.Time) int {
	room := w.pace.room(now)
	if w.direct != nil {
		room = min(room, max(w.pace.most()-w.direct.Unsent(), 0))
	}
	return room
}

func (w *World) write() {
	for {
		b, ok := w.pending.take()
		if !ok {
			return
		}
		err := writeAll(w.port, b)
		w.pending.free(len(b))
		if err != nil {
			w.pass(chunk{err: err})
			w.pending.close()
			return
		}
	}
}

// writeAll writes b, in as many parts as the port takes it in.
func writeAll(port io.Writer, b []byte) error {
	for len(b) > 0 {
		n, err := port.Write(b)
		if err == nil && n == 0 {
			err = io.ErrShortWrite
		}
		if err != nil {
			return err
		}
		b = b[n:]
	}
	return nil
}

// stuck tells whether the port has, or may have, what it cannot send.
func (w *World) stuck() bool { return w.direct == nil || w.direct.Unsent() > 0 }

// drain lets what was written go out, for a moment.
func (w *World) drain() {
	if w.direct == nil {
		w.pending.drain(lastWords)
		return
	}
	for end := time.Now().Add(lastWords); w.direct.Unsent() > 0 && time.Now().Before(end); {
		time.Sleep(time.Millisecond)
	}
}

// pipeRoom is how many bytes wait for a writer that is held up: what a common
// controller takes at once. Small, so that a byte that stops the rig has next
// to nothing to wait for.
const pipeRoom = 128

// pipe holds the few bytes between the engine and the writer.
type pipe struct {
	mu     sync.Mutex
	change *sync.Cond
	held   []byte
	out    int // bytes taken by the writer and not yet on the wire
	over   bool
}

func newPipe() *pipe {
	p := &pipe{}
	p.change = sync.NewCond(&p.mu)
	return p
}

// put takes as many bytes as there is room for.
func (p *pipe) put(b []byte) int {
	p.mu.Lock()
	defer p.mu.Unlock()
	n := min(len(b), pipeRoom-len(p.held)-p.out)
	if n <= 0 || p.over {
		return 0
	}
	p.held = append(p.held, b[:n]...)
	p.change.Broadcast()
	return n
}

// take waits for bytes and returns all there are; false when the pipe is over.
func (p *pipe) take() ([]byte, bool) {
	p.mu.Lock()
	defer p.mu.Unlock()
	for len(p.held) == 0 && !p.over {
		p.change.Wait()
	}
	if p.over {
		return nil, false
	}
	b := append([]byte(nil), p.held...)
	p.held, p.out = p.held[:0], len(b)
	return b, true
}

// free says that n bytes are on the wire.
func (p *pipe) free(n int) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.out -= n
	p.change.Broadcast()
}

// drain waits until nothing is held, for a while.
func (p *pipe) drain(patience time.Duration) {
	late := time.AfterFunc(patience, p.close)
	defer late.Stop()
	p.mu.Lock()
	defer p.mu.Unlock()
	for (len(p.held) > 0 || p.out > 0) && !p.over {
		p.change.Wait()
	}
}

func (p *pipe) close() {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.over = true
	p.change.Broadcast()
}

// maxAhead is how much time's worth of bytes may be on its way to a wire: 57 of
// them at 115200 baud. The system would take far more at once, and a byte that
// stops the rig has to wait for all of it. Controllers hold more than this
// program is held up for, so that the wire may stand still meanwhile.
const maxAhead = 5 * time.Millisecond

// bitsPerByte is what a byte takes on a serial wire: a start bit, eight bits
// and a stop bit.
const bitsPerByte = 10

// pacer knows when what has been written will have left the wire.
type pacer struct {
	perByte time.Duration // 0 = the wire takes no time
	free    time.Time     // when all that was written has left
}

// newPacer is for a wire of so many bits a second; 0 is without limit.
func newPacer(baud int) pacer {
	if baud <= 0 {
		return pacer{}
	}
	return pacer{perByte: bitsPerByte * time.Second / time.Duration(baud)}
}

// room is how many bytes may be written now: one at least when nothing is on
// its way.
func (p *pacer) room(now time.Time) int {
	if p.perByte == 0 {
		return math.MaxInt
	}
	left := p.free.Sub(now)
	if left <= 0 {
		return p.most()
	}
	return max(int((maxAhead-left)/p.perByte), 0)
}

// most is how many bytes may be on their way at once.
func (p *pacer) most() int {
	if p.perByte == 0 {
		return math.MaxInt
	}
	return max(int(maxAhead/p.perByte), 1)
}

// sent notes that n bytes have been written.
func (p *pacer) sent(now time.Time, n int) {
	if p.free.Before(now) {
		p.free = now
	}
	p.free = p.free.Add(time.Duration(n) * p.perByte)
}
