package virtual

import "seamrail/motion/spec/rig"

// Jogs are told in lines of their own, as open 8-bit firmware documents them (from
// memory, as no board is at hand): a line is planned like any other and leaves nothing behind, neither modes nor
// a feed; it is taken at rest or on the way of another, and lines of programs are not
// taken meanwhile. A byte, or a hold, ends them: the board slows down, forgets those that
// are planned, and stands idle.

// jogging tells whether a jog is on its way.
func (r *Rig) jogging() bool {
	b := &r.board
	b.jogs = b.jogs && (r.moving() || b.doing == placing)
	return b.jogs
}

// jog obeys what follows the beginning of a jog line.
func (r *Rig) jog(text string) {
	b := &r.board
	if b.locked || b.held != free || r.moving() && !r.jogging() {
		r.refuse(errorNotIdle)
		return
	}
	o, code := r.understandJog(text)
	if code != 0 {
		r.refuse(code)
		return
	}
	b.jogs = true
	r.move(&o)
}

// understandJog reads a jog: axes, a feed a minute, and which way they are counted.
func (r *Rig) understandJog(text string) (order, int) {
	b := &r.board
	var code int
	if b.words, code = parseWords([]byte(text), b.words[:0]); code != 0 {
		return order{}, code
	}
	m := b.modal
	m.motion, m.inverse, m.feed = 1, false, 0
	o, code := r.o.understand(b.words, m)
	switch {
	case code != 0:
		return o, code
	case o.moves || o.dwell || o.waits || o.ends || o.shift != 0 || o.inverse || !o.anyAxis:
		return o, errorNoJog
	}
	for i := range r.o.Axes {
		to := o.axes[i] + o.offset[i]
		if o.relative {
			to = b.target[i] + o.axes[i]
		}
		if o.given[i] && r.o.Set[rig.SoftLimits] != 0 && !r.o.Axes[i].within(to) {
			return o, errorTravel
		}
	}
	return o, 0
}

// endJog forgets what is planned of a jog that has been ended, at rest.
func (r *Rig) endJog() {
	r.board.drop()
	r.board.jogs = false
	r.forget()
}
