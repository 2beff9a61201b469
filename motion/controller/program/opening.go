package program

import "math"

// Stop is the line at which a controller waits for its operator: program stop
// (NISTIR 6556, section 3.6.1).
const Stop = "M0"

// Opening is what is between the way to the start and the motion.
type Opening struct {
	Stop bool // wait for the operator
	// CountIn is how many s pass before the motion, at least; 0 = no more than
	// buffers need to fill.
	CountIn float64
}

// Open says how the take opens. It must be told before the first Next.
func (p *Program) Open(o Opening) { p.opening = o }

// Pause returns the seconds of the dwell before the motion: the count-in, or what
// buffers need, in whole grains where the controller dwells in those.
func (o Opening) Pause(grain float64) float64 {
	s := max(o.CountIn, fillSeconds)
	if grain > 0 {
		s = grain * math.Ceil(s/grain-grainHair)
	}
	return s
}

// grainHair is what a time may be above a whole number of grains, in grains, and
// count as that number: a word has six decimals.
const grainHair = 1e-6

// open makes the lines between the way to the start and the motion.
func (p *Program) open() {
	if p.opening.Stop {
		p.line(Stop)
	}
	p.dwell(p.opening.Pause(p.grain), p.covered)
}
