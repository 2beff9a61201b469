package host

import (
	"io"
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
