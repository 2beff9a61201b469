package track

import "seamrail/motion/law"

// quintic is c0 + c1 u + ... + c5 u^5 over u in [0, 1], in units from the
// start of its piece.
type quintic [6]float64

// end is a position with its first two derivatives with respect to u.
type end struct{ pos, vel, acc float64 }

// hermite returns the quintic from the origin with velocity and acceleration
// of a, to b.pos - a.pos with those of b. The coefficients solve the six end
// conditions directly.
func hermite(a, b end) quintic {
	d := b.pos - a.pos
	return quintic{
		0, a.vel, a.acc / 2,
		10*d - 6*a.vel - 4*b.vel - 1.5*a.acc + 0.5*b.acc,
		-15*d + 8*a.vel + 7*b.vel + 1.5*a.acc - b.acc,
		6*d - 3*a.vel - 3*b.vel - 0.5*a.acc + 0.5*b.acc,
	}
}

// At evaluates the polynomial and its derivatives by Horner's rule.
func (c *quintic) At(u float64) law.Point {
	return law.Point{
		S: c[0] + u*(c[1]+u*(c[2]+u*(c[3]+u*(c[4]+u*c[5])))),
		V: c[1] + u*(2*c[2]+u*(3*c[3]+u*(4*c[4]+u*5*c[5]))),
		A: 2*c[2] + u*(6*c[3]+u*(12*c[4]+u*20*c[5])),
		J: 6*c[3] + u*(24*c[4]+u*60*c[5]),
	}
}

// still tells whether the polynomial never leaves its start.
func (c *quintic) still() bool { return *c == quintic{} }

// derivatives returns the coefficients of the first to fourth derivative.
func (c *quintic) derivatives() (vel, acc, jerk, snap []float64) {
	vel = derive(c[:])
	acc = derive(vel)
	jerk = derive(acc)
	return vel, acc, jerk, derive(jerk)
}
