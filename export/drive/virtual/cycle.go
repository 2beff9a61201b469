package virtual

import "math"

// dryGap is how soon after the look-ahead ran empty another block must come
// for it to have been an underrun, and not the end of a move.
const dryGap = second

// start cuts slices ahead, unless it must not.
func (r *Rig) start() {
	b := &r.board
	switch {
	case b.idles > 0:
		return
	case b.cycle:
		r.prepare()
		return
	case b.held != free || b.plan.empty():
		return
	}
	b.cycle = true
	r.stats.Starts++
	r.prepare()
	if !r.shaft.runs {
		r.load()
	}
}

// prepare cuts slices ahead.
func (r *Rig) prepare() {
	b := &r.board
	for b.cycle && !b.plan.empty() && r.shaft.waiting() < r.o.slices() {
		first := &b.plan.blocks[0]
		s := b.cut.next(first, b.plan.exit2(), b.held == slowing, &r.o)
		if s.pulses > 0 {
			r.shaft.push(s)
		}
		if first.length <= 0 {
			r.nextBlock(s.speed)
		}
		if b.held == slowing && s.speed == 0 {
			b.cycle = false
		}
	}
}

// nextBlock is called when the first block has been cut up.
func (r *Rig) nextBlock(speed float64) {
	b := &r.board
	b.plan.drop()
	b.cut.abandon()
	if b.held == slowing && !b.plan.empty() {
		b.plan.blocks[0].entry2 = speed * speed
	}
	if b.plan.empty() {
		b.ran, b.dry = r.now, b.doing != draining
	}
}

// moving tells whether there is motion that has not ended.
func (r *Rig) moving() bool { return r.shaft.runs || r.board.idles > 0 || !r.board.plan.empty() }

// rested is called when the last slice is over and the motors have settled.
func (r *Rig) rested() {
	b := &r.board
	b.cycle = false
	if b.held == slowing {
		b.held = holding
		if b.jogs {
			r.endJog()
		}
		return
	}
	if b.homing.active {
		r.backedOff()
	}
}

// noteBlock counts what the look-ahead says of the host.
func (r *Rig) noteBlock() {
	b := &r.board
	if b.dry && r.now-b.ran < dryGap {
		r.stats.Underruns++
	}
	b.dry = false
	r.stats.Blocks++
	r.stats.Queue = max(r.stats.Queue, len(b.plan.blocks)+1)
}

// holdFeed slows down and keeps the place.
func (r *Rig) holdFeed() {
	b := &r.board
	switch {
	case b.held != free || b.homing.active || b.locked:
	case b.cycle:
		b.held = slowing
	case r.o.HoldsIdle && b.idles == 0:
		b.held = holding
	}
}

// resumeFeed goes on after a hold.
func (r *Rig) resumeFeed() {
	b := &r.board
	if b.held != holding {
		return
	}
	b.held = free
	b.plan.restart()
	r.start()
}

// grainExcess is how much longer each grain of a dwell lasts than it should, in
// s: read from the measured dwells, testdata/reference/firmware_dwells.tsv.
const grainExcess = 10e-6

// dwellSeconds returns how long a dwell lasts that is told to last s seconds.
// Boards count grains in single precision, which decides where a told time is
// a whole number of them but for rounding.
func (o *Options) dwellSeconds(s float64) float64 {
	if o.DwellGrain <= 0 {
		return s
	}
	grains := math.Ceil(float64(float32(s) / float32(o.DwellGrain)))
	return grains * (o.DwellGrain + grainExcess)
}

// pause waits, s seconds of the board's own clock, and answers.
func (r *Rig) pause(s float64) {
	r.board.doing, r.board.wait = pausing, r.now+r.o.drift(lasting(r.o.dwellSeconds(s)))
}

// settleMotors begins what follows the last slice: the time in which the motors
// settle before their current goes. Bytes come in meanwhile, and those that act
// out of line are obeyed; lines are not.
func (r *Rig) settleMotors() {
	if r.o.IdleDelay <= 0 {
		r.rested()
		return
	}
	r.board.idles = r.now + r.o.drift(lasting(r.o.IdleDelay))
}

// idling tells whether the motors are settling, and ends that when it is time.
func (r *Rig) idling() bool {
	b := &r.board
	switch {
	case b.idles == 0:
		return false
	case r.now < b.idles:
		return true
	}
	b.idles = 0
	r.rested()
	return false
}
