// Package drive runs takes on a rig: it speaks to the controller, watches what
// it answers, counts in, feeds it the take and stops when something is wrong.
//
// The engine has no goroutine, clock, port or keyboard of its own. It waits on
// one World, in which time, wire and operator come together, so that a test
// runs an hour of loops in a second and every order of events can be had.
package drive

import (
	"slices"
	"time"
)

// World is everything outside the engine. It is used from one goroutine.
type World interface {
	// Now is a clock that never goes back. Only differences of it are used,
	// except in the take log, which also keeps it as the time of day.
	Now() time.Time
	// Write hands bytes to the wire and returns how many it took: fewer than
	// len(p) without an error when there is no room for more now. It does not
	// block. An error means that the wire is gone.
	Write(p []byte) (int, error)
	// Wait returns the first of: bytes from the wire, a request of the
	// operator, the end of the wire, a sleep of the host; or an Event of kind
	// Nothing once Now is at or after until. It never returns Nothing before.
	Wait(until time.Time) Event
}

// Minder is a World that wants to know whether something moves. It is told
// before the bytes go out that make it move.
type Minder interface {
	Moves(moving bool)
}

// EventKind says what has happened.
type EventKind int

// The kinds of event.
const (
	Nothing EventKind = iota // the time waited for has come
	Heard                    // Bytes came from the wire
	Asked                    // the operator asks for Request
	Gone                     // the wire is gone, because of Err
	Slept                    // the host was suspended for Duration
)

// Event is one thing that happened.
type Event struct {
	Kind     EventKind
	Bytes    []byte // valid until the next Wait
	Request  Request
	Err      error
	Duration time.Duration
}

// RequestKind says what the operator asks for.
type RequestKind int

// The requests. Each State says which it takes; others are ignored, Stop and
// Quit never.
const (
	Stop        RequestKind = iota // slow down and rest; asked again, abort
	Finish                         // end after the round in hand
	Resume                         // after a stop: go on in the same round
	Restart                        // after a stop: give this take up and begin it anew
	Go                             // go to the start and run the next take
	Confirm                        // yes, I have read the cautions and mean it
	Decline                        // no; back to Ready
	Home                           // find the limit switches
	Here                           // every axis stands at the start of the take
	Unlock                         // clear an alarm, without homing
	Jog                            // move Axis by By
	JogHold                        // move Axis at Speed as long as this is asked again within For
	JogRelease                     // let go of it
	Taken                          // the hand has taken the frame that is waited for
	Mark                           // report where every axis stands, under Name
	Pose                           // go to where Frame of the loop finds every axis
	WalkThrough                    // go through the plan slowly, as Walk has it
	Quit                           // rest, park nothing, end
)

// Request is what the operator asks for.
type Request struct {
	Kind RequestKind
	Axis int     // of a Jog or JogHold: index into the axes of the plan
	By   float64 // of a Jog: mm or degrees
	Name string  // of a Mark, handed back with it

	// Of a JogHold. It begins where position is known or not, while nothing else moves,
	// goes on at most For (0.7 s at the most) after it was asked for last, and ends with
	// any other request. Another Speed is another hold.
	Speed float64       // mm/s or degrees/s, below 0 towards lesser places; see JogSpeeds
	For   time.Duration // how long it goes on unless it is asked for again
	until time.Time     // that, once it has been heard
	// Frame is of a Pose: captured, from 0.
	Frame float64
	Walk  *Walk `json:"-"` // of a WalkThrough
}

func later(a, b time.Time) time.Time {
	if a.Before(b) {
		return b
	}
	return a
}

func earlier(a, b time.Time) time.Time {
	if b.Before(a) {
		return b
	}
	return a
}

// seconds is s seconds as a duration.
func seconds(s float64) time.Duration { return time.Duration(s * float64(time.Second)) }

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
