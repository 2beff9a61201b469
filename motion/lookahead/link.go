package lookahead

import "seamrail/motion/rig"

// Link is the way a line takes to the planner. The zero value is one that is
// never late.
type Link struct {
	Baud    int     // bits/s; 0 = at once
	Receive int     // characters the controller holds before it plans them
	Reply   float64 // s from one answer to the next line; 0 = lines are sent ahead
	Rate    float64 // most moves/s it plans; 0 = any number
	Line    float64 // s to read and plan a line, which counts where nothing moves meanwhile
}

const (
	defaultReceive = 128
	// bitsPerChar are a start bit, eight bits and a stop bit.
	bitsPerChar = 10
	// replySeconds is what a host takes to see an answer and send the next
	// line: serial adapters hold characters back for up to 16 ms, the usual
	// setting of their timer.
	replySeconds = 0.016
	// lineSeconds is what a common 8-bit board needs for a line, well under the
	// 1.7 ms in which 20 characters come at 115200 baud (common practice).
	lineSeconds = 0.0003
	// fillSeconds is how long the program dwells before motion, which lets the
	// receive buffer fill.
	fillSeconds = 0.5
)

func linkOf(c rig.Controller) Link {
	l := Link{Baud: c.Baud, Receive: c.ReceiveBuffer, Rate: c.SegmentRate, Line: lineSeconds}
	if l.Receive <= 0 {
		l.Receive = defaultReceive
	}
	if c.Kind == rig.Lockstep {
		l.Reply = replySeconds
	}
	return l
}

// wire works out when each line is ready to be planned. A line is sent when
// the one before is through and the receive buffer has room; or, where the
// controller answers each line, after the answer.
type wire struct {
	Link
	moves  []Move
	free   float64   // when the wire is free
	parsed []float64 // when each line was planned
	oldest int       // the first line still in the receive buffer
	held   int       // characters from there up to the line in hand
}

func newWire(l Link, moves []Move) *wire {
	w := &wire{Link: l, moves: moves, parsed: make([]float64, 0, len(moves))}
	if l.Reply == 0 {
		w.free = -fillSeconds
	}
	return w
}

// ready returns when the next line can be planned if the ring has had room
// since room.
func (w *wire) ready(room float64) float64 {
	at := room
	if k := len(w.parsed); k > 0 {
		at = max(at, w.parsed[k-1])
		if w.Rate > 0 {
			at = max(at, w.parsed[k-1]+1/w.Rate)
		}
	}
	if w.Baud > 0 {
		at = max(at, w.arrival())
	}
	return at
}

// received is when the next line is in the receive buffer.
func (w *wire) received() float64 {
	if w.Baud == 0 {
		return -fillSeconds
	}
	return w.arrival()
}

// arrival is when the last character of the next line is in.
func (w *wire) arrival() float64 {
	k := len(w.parsed)
	start := w.free
	if w.Reply > 0 && k > 0 {
		start = max(start, w.parsed[k-1]+w.Reply)
	}
	held, oldest := w.held+w.moves[k].Chars, w.oldest
	for held > w.Receive && oldest < k {
		held -= w.moves[oldest].Chars
		start = max(start, w.parsed[oldest])
		oldest++
	}
	return start + float64(w.moves[k].Chars*bitsPerChar)/float64(w.Baud)
}

// take notes that the next line was planned at a time.
func (w *wire) take(at float64) {
	k := len(w.parsed)
	if w.Baud > 0 {
		w.free = w.arrival()
	}
	w.held += w.moves[k].Chars
	for w.held > w.Receive && w.oldest < k {
		w.held -= w.moves[w.oldest].Chars
		w.oldest++
	}
	w.parsed = append(w.parsed, at)
}
