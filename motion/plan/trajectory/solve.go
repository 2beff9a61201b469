package trajectory

import "math"

// timeTolerance is how close, in seconds, a step's time is solved to the true
// crossing: a hundredth of the nanosecond the tables are written in.
const timeTolerance = 1e-11

// maxIterations bounds the safeguarded Newton search. Bisection alone would
// get from a minute to timeTolerance in 43 halvings.
const maxIterations = 64

// solver finds, one after another, the times at which a monotone curve crosses
// the thresholds between steps.
type solver struct {
	curve   curve
	scale   float64 // steps a unit
	shift   float64 // steps added to the curve's position
	from    float64 // s, where the stage begins
	lo, hi  float64 // s, the next crossing lies between
	t       float64 // last time evaluated
	y, v, a float64 // steps, steps/s, steps/s² at t
	dir     float64
	t1, t2  float64 // the two crossings before t
	found   int     // crossings found in this stage
}

func newSolver(s stage, scale, shift float64) solver {
	return solver{curve: s.curve, scale: scale, shift: shift, from: s.from, lo: s.from, hi: s.to, dir: float64(s.dir)}
}

func (s *solver) eval(t float64) {
	pos, vel, acc := s.curve.At(t)
	s.t, s.y, s.v, s.a = t, pos*s.scale+s.shift, vel*s.scale, acc*s.scale
}

// cross returns the time at which the curve reaches threshold, one step on
// from the one before. Newton's step with Halley's correction (W. H. Press and
// others, Numerical Recipes, 3rd ed., Cambridge 2007, section 9.4,
// ISBN 978-0-521-88068-8), bracketed by bisection.
func (s *solver) cross(threshold float64) float64 {
	lo, hi := s.lo, s.hi
	guess := s.guess(threshold)
	leapt := guess - s.lo
	for range maxIterations {
		if !(guess > lo && guess < hi) {
			guess = lo + (hi-lo)/2
			leapt = 0
		}
		s.eval(guess)
		miss := threshold - s.y
		move := halley(miss, s.v, s.a)
		if s.settled(move, leapt) {
			guess += move
			break
		}
		if miss*s.dir > 0 {
			lo = guess
		} else {
			hi = guess
		}
		guess += move
		if hi-lo < timeTolerance {
			break
		}
		leapt = 0
	}
	switch {
	case !(guess >= s.lo): // behind, or not a number
		guess = lo
	case guess > s.hi:
		guess = s.hi
	}
	s.t2, s.t1 = s.t1, s.lo
	s.y, s.t, s.lo = threshold, guess, guess
	s.found++
	return guess
}

// guess foretells the next crossing: from the last three by the parabola
// through them, or at first by the parabola of speed and acceleration.
func (s *solver) guess(threshold float64) float64 {
	switch {
	case s.found > 2:
		return 3*(s.t-s.t1) + s.t2
	case s.found == 0:
		s.eval(s.lo)
	}
	return s.t + leap(threshold-s.y, s.v, s.a)
}

// bumpiness is how many times per square of the stretch's length the jerk may
// exceed six times the speed where nothing better is known. Every law of the
// catalogue stays below a tenth of this half-way, which a test holds.
const bumpiness = 100

// settled tells whether a Halley step of size move leaves less than
// timeTolerance. Its error is (a²/4v² + j/6v) move³ (W. Gander, Amer. Math.
// Monthly 92:131-134, 1985, DOI 10.2307/2322644). A parabola over leapt leaves
// out the third derivative, so right after it, what it missed by tells the
// jerk: j/v is at most 3a²/v² + 6 move/leapt³. Otherwise leapt is 0 and the
// jerk is taken for bumpy.
func (s *solver) settled(move, leapt float64) bool {
	m, v2 := math.Abs(move), s.v*s.v
	num, den := m, leapt*leapt*leapt
	if den == 0 {
		num, den = bumpiness, (s.hi-s.from)*(s.hi-s.from)
	}
	return m*m*m*(s.a*s.a*den+num*v2) < timeTolerance*v2*den
}

// leap solves y = v t + a t²/2 for the least t >= 0, in the form that does not
// cancel. It returns NaN when there is none, and the caller bisects.
func leap(y, v, a float64) float64 {
	root := v*v + 2*a*y
	if root < 0 {
		return math.NaN()
	}
	return 2 * y / (v + math.Copysign(math.Sqrt(root), y))
}

func halley(miss, v, a float64) float64 {
	return miss * v / (v*v + a*miss/2)
}
