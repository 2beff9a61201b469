package lookahead

import "math"

// Run returns what the planner makes of the moves, from rest to rest.
func (p *Planner) Run(moves []Move) *Motion {
	r := &runner{p: p, blocks: p.plan(moves), wire: newWire(p.Link, moves), out: &Motion{
		Pieces: make([]Piece, 0, 3*len(moves)), Ends: make([]float64, len(moves)),
	}}
	for r.k < len(moves) {
		r.arrivals()
		r.block()
	}
	return r.out
}

// runner follows the move in hand.
type runner struct {
	p      *Planner
	blocks []block
	wire   *wire
	out    *Motion

	k     int     // move in hand
	known int     // moves that have been planned
	now   float64 // s
	done  float64 // mm of the move in hand
	speed float64 // mm/s
	ahead float64 // s; see cutAhead
}

// A controller has cut some of its moves into slices of one step rate already,
// which later lines do not change. Five slices are usual, of which the one that
// runs is half done; each has a step in it, and a quarter, at the least.
const (
	slicesAhead = 4.5
	stepsASlice = 1.25
)

// cutAhead is how far ahead of its motion, in s, a move has been cut.
func cutAhead(b *block) float64 {
	if b.length == 0 {
		return slicesAhead * tickSeconds
	}
	return slicesAhead * max(tickSeconds, stepsASlice*b.length/(b.nominal*b.events))
}

// next returns when the next line will be planned; never while the ring is
// full. The runner works on the motion that is being cut, so that a line which
// comes now changes what is run some time from now.
func (r *runner) next() float64 {
	if r.known == len(r.blocks) || r.known-r.k >= r.p.Blocks-1 || r.behindDwell() {
		return math.Inf(1)
	}
	return r.wire.ready(r.room())
}

// behindDwell tells whether a dwell keeps further lines from being planned.
func (r *runner) behindDwell() bool {
	return r.known > r.k && r.blocks[r.known-1].dwell > 0
}

// room is since when the ring has had room for the next line.
func (r *runner) room() float64 {
	if full := r.known - (r.p.Blocks - 1); full >= 0 {
		return r.out.Ends[full] - r.ahead
	}
	return 0
}

// arrivals plans what has come by now, and waits for a line if there is none.
// From a standstill all that is in the receive buffer is planned before the
// motion begins.
func (r *runner) arrivals() {
	still := r.known == r.k
	for {
		at := r.next()
		switch {
		case still && (r.known == r.k || !math.IsInf(at, 1) && r.wire.received() <= r.now):
			if at = r.worked(at); at > r.now {
				r.wait(at)
			}
		case at+r.ahead > r.now:
			return
		}
		r.plan(at)
	}
}

// worked is when the next line has been planned at a standstill that it could
// have been planned in from at on: after a dwell the lines that wait in the
// receive buffer are worked out one by one before the motion goes on.
func (r *runner) worked(at float64) float64 {
	if r.k == 0 || r.blocks[r.k-1].dwell == 0 {
		return at
	}
	return max(at, r.now) + r.wire.Line
}

// wait stands still until a line comes.
func (r *runner) wait(until float64) {
	if r.k > 0 && r.blocks[r.k].dwell == 0 {
		r.out.Starve += until - r.now
	}
	r.speed = 0
	r.now = until
}

// block runs the move in hand to its end, planned anew as lines come in.
func (r *runner) block() {
	b := &r.blocks[r.k]
	r.ahead = cutAhead(b)
	switch {
	case b.dwell > 0:
		r.speed = 0
		r.out.Pieces = append(r.out.Pieces, Piece{Move: r.k, Start: r.now, Seconds: b.dwell, At: 1})
		r.now += b.dwell
	case b.length > 0:
		r.done = 0
		for r.done < b.length {
			r.stretch(b)
		}
	}
	r.out.Ends[r.k] = r.now
	r.k++
}

// stretch runs the move in hand to its end or to the next line.
func (r *runner) stretch(b *block) {
	f := fit(b.length-r.done, r.speed, min(b.nominal, math.Inf(1)), r.exit(b), b.acc)
	until := r.next()
	changes := until + r.ahead
	for _, s := range f.parts() {
		end := r.now + s.seconds()
		if s.length > 0 && end > changes && changes > r.now {
			s = s.cut(changes - r.now)
			r.emit(b, s.length, s.from, s.to)
			r.speed = s.to
			r.plan(until)
			return
		}
		r.emit(b, s.length, s.from, s.to)
	}
	r.done, r.speed = b.length, f.exit
}

// plan takes in the line that comes at a time.
func (r *runner) plan(at float64) {
	r.wire.take(at)
	r.known++
}

// exit returns the speed at which the move in hand may end: the pass over the
// ring from its end, where all must stand still.
func (r *runner) exit(b *block) float64 {
	squared := 0.0
	for i := r.known - 1; i > r.k; i-- {
		o := &r.blocks[i]
		if o.length > 0 {
			squared = min(o.entry, squared+2*o.acc*o.length)
		} else if o.dwell > 0 {
			squared = 0
		}
	}
	return math.Sqrt(squared)
}
