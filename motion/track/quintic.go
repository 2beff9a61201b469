package track

import (
	"math"

	"gonum.org/v1/gonum/floats"

	"seamrail/motion/law"
)

// quintic is a polynomial of the fifth degree over u in [0, 1], kept twice:
// from its start, and backwards from its end. Each half is evaluated from its
// own side, so that both ends are met to the last digit.
type quintic struct {
	head [6]float64 // of u, in units from the start
	tail [6]float64 // of 1-u, in units from the end
}

// end is a position with its first two derivatives with respect to u.
type end struct{ pos, vel, acc float64 }

// newQuintic returns the polynomial with the position, velocity and
// acceleration of a at u = 0 and of b at u = 1.
func newQuintic(a, b end) *quintic {
	return &quintic{
		head: hermite(a, b),
		tail: hermite(end{b.pos, -b.vel, b.acc}, end{a.pos, -a.vel, a.acc}),
	}
}

// hermite solves the six end conditions directly; the position is from a.
func hermite(a, b end) [6]float64 {
	d := b.pos - a.pos
	return [6]float64{
		0, a.vel, a.acc / 2,
		10*d - 6*a.vel - 4*b.vel - 1.5*a.acc + 0.5*b.acc,
		-15*d + 8*a.vel + 7*b.vel + 1.5*a.acc - b.acc,
		6*d - 3*a.vel - 3*b.vel - 0.5*a.acc + 0.5*b.acc,
	}
}

// At returns the derivatives with respect to u, and the position from the
// start where u is at most a half, from the end where it is more.
func (q *quintic) At(u float64) law.Point {
	if u <= 0.5 {
		return evaluate(&q.head, u)
	}
	p := evaluate(&q.tail, 1-u)
	p.V, p.J = -p.V, -p.J
	return p
}

// evaluate is Horner's rule for a polynomial and its derivatives.
func evaluate(c *[6]float64, u float64) law.Point {
	return law.Point{
		S: c[0] + u*(c[1]+u*(c[2]+u*(c[3]+u*(c[4]+u*c[5])))),
		V: c[1] + u*(2*c[2]+u*(3*c[3]+u*(4*c[4]+u*5*c[5]))),
		A: 2*c[2] + u*(6*c[3]+u*(12*c[4]+u*20*c[5])),
		J: 6*c[3] + u*(24*c[4]+u*60*c[5]),
	}
}

// size is the greatest of the coefficients, which the positions are sums of.
func (q *quintic) size() float64 {
	return max(floats.Norm(q.head[:], math.Inf(1)), floats.Norm(q.tail[:], math.Inf(1)))
}

// still tells whether the polynomial never leaves its start.
func (q *quintic) still() bool { return q.head == [6]float64{} }

// derivatives returns the coefficients of the first to fourth derivative.
func (q *quintic) derivatives() (vel, acc, jerk, snap []float64) {
	vel = derive(q.head[:])
	acc = derive(vel)
	jerk = derive(acc)
	return vel, acc, jerk, derive(jerk)
}
