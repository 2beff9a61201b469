package drive

import (
	"slices"
	"time"
)

// wire is what is on its way to the controller. Urgent bytes overtake the
// others, also in the middle of a line: a controller picks them out.
type wire struct {
	urgent, queue []byte
	parts         []int // what is left to go of each line or frame in the queue
	begun         bool  // some of the first has gone
	sent          int64 // bytes that the wire has taken
	queued, lined int64 // bytes of lines that were sent, and of them, that the wire has taken
}

// retryAfter is how soon a wire that had no room is tried again: at 115200 baud
// twelve bytes have left it.
const retryAfter = time.Millisecond

func (o *wire) send(b []byte) {
	o.queue = append(o.queue, b...)
	o.parts = append(o.parts, len(b))
	o.queued += int64(len(b))
}

// cutIn sends a frame before all others that have not begun to go.
func (o *wire) cutIn(b []byte) {
	at, i := 0, 0
	if o.begun && len(o.parts) > 0 {
		at, i = o.parts[0], 1
	}
	o.queue = slices.Insert(o.queue, at, b...)
	o.parts = slices.Insert(o.parts, i, len(b))
	o.queued += int64(len(b))
}

// went notes that n bytes of the queue have gone.
func (o *wire) went(n int) {
	o.lined += int64(n)
	for n > 0 {
		gone := min(n, o.parts[0])
		o.parts[0] -= gone
		n -= gone
		o.begun = o.parts[0] > 0
		if !o.begun {
			o.parts = o.parts[1:]
		}
	}
}

func (o *wire) hurry(b ...byte) { o.urgent = append(o.urgent, b...) }

func (o *wire) forget() {
	o.queued -= int64(len(o.queue))
	o.queue, o.parts, o.begun = o.queue[:0], nil, false
}

func (o *wire) waiting() bool { return len(o.urgent)+len(o.queue) > 0 }

// flush hands over what the wire takes. It returns an error when the wire is
// gone.
func (o *wire) flush(w World) error {
	for _, part := range []*[]byte{&o.urgent, &o.queue} {
		for len(*part) > 0 {
			n, err := w.Write(*part)
			o.sent += int64(n)
			if part == &o.queue {
				o.went(n)
			}
			*part = (*part)[:copy(*part, (*part)[n:])]
			if err != nil {
				return err
			}
			if n == 0 {
				return nil
			}
		}
	}
	return nil
}
