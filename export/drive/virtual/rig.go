package virtual

import (
	"errors"
	"slices"
	"time"
)

// ErrGone tells that the wire is gone.
var ErrGone = errors.New("virtual port is gone")

// Rig is a controller with the machine behind it, and the wire in front. It
// has its own clock, which stands still unless Advance moves it. It is not
// safe for concurrent use; Port is.
type Rig struct {
	o       Options
	now     instant
	in, out wire // to the board, to the host
	mishaps mishaps

	// What faults have done.
	gone, silent bool
	most         int // bytes taken at once; 0 = all
	asleep       instant
	slept        time.Duration

	board  board
	player *player // in place of the board's lines, for a step player
	shaft  shaft
	lit    []string // outputs that are on
	record Record
	stats  Stats
}

// New powers a board. It panics when the options describe none.
func New(o Options) *Rig {
	o.check()
	o.Axes = slices.Clone(o.Axes) // settings are written to them
	r := &Rig{o: o, mishaps: newMishaps(o.Faults)}
	r.in.pace(o.Baud)
	r.out.pace(o.Baud)
	r.record.axes = o.Axes
	for i := range o.Axes {
		a := &o.Axes[i]
		r.shaft.offset[i], r.shaft.behind[i].load = a.Place, a.Place
		if a.Travel <= 0 {
			a.Travel = a.Max - a.Min
		}
	}
	if o.Kind.PlaysSteps() {
		r.player = newPlayer(r)
		return r
	}
	r.board.ring = newRing(o.ReceiveBuffer)
	r.board.plan = newPlanner(o.Blocks)
	r.board.wait = idleFor
	r.board.modal = modal{}
	r.board.locked = o.StartsLocked
	if o.ResetsOnOpen {
		r.boot()
	}
	return r
}

// Now returns the time since the board was powered.
func (r *Rig) Now() time.Duration { return r.now.duration() }

// Write puts bytes on the wire now. It takes fewer than all when the host's
// buffer is full, and returns ErrGone when the wire is gone.
func (r *Rig) Write(p []byte) (int, error) {
	if r.gone {
		return 0, ErrGone
	}
	n := len(p)
	if r.most > 0 {
		n = min(n, r.most)
	}
	if r.o.HostBuffer > 0 {
		n = max(0, min(n, r.o.HostBuffer-r.in.waiting))
	}
	before := r.stats.Written
	r.stats.Written += int64(n)
	for _, f := range r.mishaps.counted {
		if f.Kind == VanishAfter && before < f.Nth && r.stats.Written >= f.Nth {
			r.vanish()
			return int(f.Nth - before), nil
		}
	}
	r.in.put(r.now, p[:n])
	r.settle()
	return n, nil
}

// Read appends to p what has reached the host by now.
func (r *Rig) Read(p []byte) []byte {
	for r.out.next() <= r.now {
		p = append(p, r.out.take())
	}
	return p
}

// NextReply returns when the next byte reaches the host, if one is under way.
func (r *Rig) NextReply() (time.Duration, bool) { return r.out.next().reached() }

// Next returns when something happens next, if anything does.
func (r *Rig) Next() (time.Duration, bool) { return r.next().reached() }

// Advance moves the clock on by d.
func (r *Rig) Advance(d time.Duration) { r.advanceTo(r.now + fromDuration(d)) }

// AdvanceTo moves the clock on to a time since the board was powered. A time
// gone by changes nothing.
func (r *Rig) AdvanceTo(t time.Duration) { r.advanceTo(fromDuration(t)) }

// Gone tells whether the wire is gone.
func (r *Rig) Gone() bool { return r.gone }

func (r *Rig) advanceTo(t instant) {
	for at := r.next(); at <= t; at = r.next() {
		r.now = max(r.now, at)
		r.happen()
	}
	r.now = max(r.now, t)
}

// next returns when something happens on the board's side of the wire.
func (r *Rig) next() instant {
	at := min(r.in.next(), r.mishaps.next(), r.shaft.ends())
	if r.player != nil {
		return min(at, r.player.until, r.player.dark)
	}
	if r.silent { // its main loop stands still
		return at
	}
	return min(at, r.board.until())
}

// happen lets everything happen that is due now.
func (r *Rig) happen() {
	if r.mishaps.next() <= r.now {
		r.strike()
	}
	if r.shaft.ends() <= r.now {
		r.finishSlice()
	}
	r.settle()
}

// settle lets the board do all it can do now.
func (r *Rig) settle() {
	for r.in.next() <= r.now {
		r.receive(r.in.take())
	}
	if r.player != nil {
		r.player.work()
		return
	}
	r.work()
}

// receive takes one byte off the wire.
func (r *Rig) receive(b byte) {
	r.stats.Received++
	if r.o.misheard() {
		b |= noASCII
	}
	switch {
	case r.silent:
	case r.player != nil:
		r.player.hear(b)
	case r.board.deaf(r.now):
		r.stats.Deaf++
	case b != 0 && r.immediate(b):
	case !r.board.ring.put(b):
		r.stats.Lost++
	default:
		r.stats.Fill = max(r.stats.Fill, len(r.board.ring.held))
		if r.in.perByte > 0 { // an instant wire leaves no time to read between
			r.work()
		}
	}
}

// send puts text on the wire to the host.
func (r *Rig) send(text string) {
	if r.silent || r.gone {
		return
	}
	b := []byte(text)
	if r.o.misheard() {
		for i := range b {
			b[i] = b[i]*3 | noASCII
		}
	}
	r.out.put(r.now, b)
}

// noASCII is the bit that no byte of plain text has: what one end of a wire makes of
// bytes at another speed has it, here in all of them.
const noASCII = 0x80

// misheard tells whether host and board talk at different speeds.
func (o *Options) misheard() bool { return o.HostBaud > 0 && o.Baud > 0 && o.HostBaud != o.Baud }

// say sends a line.
func (r *Rig) say(text string) { r.send(text + "\r\n") }

// bitsPerByte is what a byte takes on a serial wire: a start bit, eight bits
// and a stop bit.
const bitsPerByte = 10

// chunk is bytes put on the wire together.
type chunk struct {
	bytes []byte
	first instant // when the first of them is across
	every instant // from one to the next
	done  int
}

// wire carries bytes one way at a steady pace. It is the wire and the sender's
// queue in one.
type wire struct {
	perByte instant
	free    instant // when all that was put on it is across
	chunks  []chunk
	waiting int // bytes not yet across
	busy    instant
}

// pace sets the speed of what is put on the wire from now on; 0 is instant.
func (w *wire) pace(baud int) {
	w.perByte = 0
	if baud > 0 {
		w.perByte = lasting(bitsPerByte / float64(baud))
	}
}

// put adds bytes, which it copies.
func (w *wire) put(now instant, p []byte) {
	if len(p) == 0 {
		return
	}
	starts := max(now, w.free)
	w.free = starts + w.perByte*instant(len(p))
	w.busy += w.free - starts
	w.waiting += len(p)
	if last := len(w.chunks) - 1; last >= 0 && starts > now {
		// It follows the chunk before without a gap.
		if c := &w.chunks[last]; c.every == w.perByte {
			c.bytes = append(c.bytes, p...)
			return
		}
	}
	w.chunks = append(w.chunks, chunk{bytes: append([]byte(nil), p...), first: starts + w.perByte, every: w.perByte})
}

// next returns when the next byte is across, or never.
func (w *wire) next() instant {
	if len(w.chunks) == 0 {
		return never
	}
	c := &w.chunks[0]
	return c.first + c.every*instant(c.done)
}

// take removes the next byte.
func (w *wire) take() byte {
	c := &w.chunks[0]
	b := c.bytes[c.done]
	c.done++
	w.waiting--
	if c.done == len(c.bytes) {
		w.chunks = w.chunks[1:]
	}
	return b
}

// clear drops all that is under way.
func (w *wire) clear() { w.chunks, w.waiting, w.free = nil, 0, 0 }
