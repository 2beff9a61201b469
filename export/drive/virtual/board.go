package virtual

// doing is what the board's main loop waits for.
type doing int

const (
	reading  doing = iota // a byte of a line
	working               // the line in hand to be worked out
	placing               // room in the look-ahead for the block in hand
	draining              // the motion to end
	pausing               // a time to pass
	booting               // the greeting
	writing               // a setting to be written, deaf meanwhile
	stopping              // the motors to stand, then an alarm
)

// idleFor is no time to wait for.
const idleFor = never

// board is the firmware: what it has read, what it plans, what state it is in.
type board struct {
	ring   ring
	line   []byte
	long   bool // the line is longer than it may be
	words  []word
	doing  doing
	wait   instant // when working, pausing, booting or writing is over
	block  block   // of placing
	then   func()  // of draining
	modal  modal
	target vector         // where the words have led it, machine units
	count  [maxAxes]int64 // steps of the last block planned

	plan   planner
	cut    generator
	cycle  bool // it cuts slices
	held   hold
	homing homing
	jogs   bool // what it moves, or has moved last, was told in jog lines

	locked  bool // in alarm
	code    int
	homed   bool
	latched int // the error that is repeated
	number  int64
	ran     instant // when it last ran dry, or never
	dry     bool
	idles   instant // until when it lets the motors settle and does nothing else; 0 = it does not
}

// hold is where a feed hold stands.
type hold int

const (
	free    hold = iota
	slowing      // on the way to a standstill
	holding      // standing
)

func (b *board) until() instant {
	if b.idles > 0 {
		return b.idles
	}
	switch b.doing {
	case working, pausing, booting, writing:
		return b.wait
	}
	return never
}

// deaf tells whether what arrives is lost.
func (b *board) deaf(now instant) bool {
	return (b.doing == booting || b.doing == writing) && now < b.wait
}

// drop forgets all motion that has not run.
func (b *board) drop() {
	b.plan.clear()
	b.cut.abandon()
	b.cycle, b.held, b.idles = false, free, 0
}

// work turns the main loop until it waits for something.
func (r *Rig) work() {
	if r.silent || r.idling() {
		return
	}
	for r.turn() {
	}
}

// turn does one thing, or returns false when there is none to do now.
func (r *Rig) turn() bool {
	b := &r.board
	switch b.doing {
	case reading:
		return r.readByte()
	case placing:
		return r.placeBlock()
	case draining:
		r.start()
		if r.moving() {
			return false
		}
		b.doing = reading
		b.then()
		return true
	case stopping:
		if r.shaft.runs {
			return false
		}
		r.alarm(alarmTravel)
		return true
	}
	if r.now < b.wait {
		return false
	}
	was := b.doing
	b.doing, b.wait = reading, idleFor
	switch was {
	case working:
		r.obey()
	case booting:
		r.greet()
	default:
		r.answer(0)
	}
	return true
}

// readByte takes a byte out of the receive buffer. When there is none, the
// board starts on the motion it has.
func (r *Rig) readByte() bool {
	b := &r.board
	if len(b.ring.held) == 0 || r.o.HoldsIdle && b.held == holding {
		r.start()
		return false
	}
	switch c := b.ring.take(); {
	case c == '\n' || c == '\r':
		return r.endLine()
	case len(b.line) >= r.o.LineLength:
		b.long = true
	default:
		b.line = append(b.line, c)
	}
	return true
}

// endLine begins to work on the line read. An empty one is answered too, also
// between a carriage return and a line feed.
func (r *Rig) endLine() bool {
	b := &r.board
	b.doing, b.wait = working, r.now+lasting(r.o.LineSeconds)
	return true
}

// answer sends ok, or an error.
func (r *Rig) answer(code int) {
	if code != 0 {
		r.refuse(code)
		return
	}
	r.ok(func() { r.say("ok") })
}

// ok says that something was obeyed, unless that is to be lost, or twice.
func (r *Rig) ok(say func()) {
	m := &r.mishaps
	m.oks++
	if _, lost := m.strikes(LoseOK, m.oks); lost {
		return
	}
	say()
	if _, doubled := m.strikes(DoubleOK, m.oks); doubled {
		say()
	}
}

// drain lets all motion end before it does something.
func (r *Rig) drain(then func()) {
	r.board.doing, r.board.then = draining, then
}

// ring is the receive buffer. One place stays free, as in any ring that tells full from
// empty by its two ends: 128 bytes hold 127.
type ring struct {
	held []byte // oldest first
	most int
}

func newRing(size int) ring { return ring{most: size - 1} }

// put adds a byte, or returns false and loses it.
func (r *ring) put(b byte) bool {
	if r.room() == 0 {
		return false
	}
	r.held = append(r.held, b)
	return true
}

// take removes the oldest byte. The ring must not be empty.
func (r *ring) take() byte {
	b := r.held[0]
	r.held = r.held[:copy(r.held, r.held[1:])]
	return b
}

// room returns how many bytes still go in.
func (r *ring) room() int { return r.most - len(r.held) }

func (r *ring) clear() { r.held = r.held[:0] }
