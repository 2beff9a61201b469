package virtual

import "math"

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
