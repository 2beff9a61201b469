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
	curve    curve
	scale    float64 // steps a unit
	shift    float64 // steps added to the curve's position
	lo, hi   float64 // s, the next crossing lies between
	t        float64 // last time evaluated
	y, v, a  float64 // steps, steps/s, steps/s² at t
	dir      float64
	prepared bool
}

func newSolver(s stage, scale, shift float64) solver {
	return solver{curve: s.curve, scale: scale, shift: shift, lo: s.from, hi: s.to, dir: float64(s.dir)}
}

func (s *solver) eval(t float64) {
	pos, vel, acc := s.curve.At(t)
	s.t, s.y, s.v, s.a = t, pos*s.scale+s.shift, vel*s.scale, acc*s.scale
}

// cross returns the time at which the curve reaches threshold, which must not
// lie behind the one before. Newton's step with Halley's correction (Press et
// al., Numerical Recipes, section 9.4, from memory), started from the
// quadratic through the last crossing and bracketed by bisection.
func (s *solver) cross(threshold float64) float64 {
	if !s.prepared {
		s.eval(s.lo)
		s.prepared = true
	}
	lo, hi := s.lo, s.hi
	guess := s.t + leap(threshold-s.y, s.v, s.a)
	for range maxIterations {
		if !(guess > lo && guess < hi) {
			guess = lo + (hi-lo)/2
		}
		s.eval(guess)
		miss := threshold - s.y
		if miss*s.dir > 0 {
			lo = guess
		} else {
			hi = guess
		}
		move := halley(miss, s.v, s.a)
		leapt := guess - s.lo
		guess += move
		if settled(move, leapt, s.v, s.a) || hi-lo < timeTolerance {
			break
		}
	}
	switch {
	case !(guess >= s.lo): // behind, or not a number
		guess = lo
	case guess > s.hi:
		guess = s.hi
	}
	s.y, s.t = threshold, guess
	s.lo = guess
	return guess
}

// settled tells whether a Halley step of size move, the first after a leap of
// size leapt from the crossing before, leaves less than timeTolerance. Its
// error is (a²/4v² + j/6v) move³ (Gander, Amer. Math. Monthly 92:131-134, 1985,
// from memory), and since the leap left out only the jerk, what it missed by
// tells the jerk: j/6v is about move/leapt³.
func settled(move, leapt, v, a float64) bool {
	m, v4, cube := math.Abs(move), 4*v*v, leapt*leapt*leapt
	return m*m*m*(a*a*cube+m*v4) < timeTolerance*v4*cube
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
