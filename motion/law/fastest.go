package law

import (
	"fmt"
	"math"
)

// Fastest returns the quickest move over distance that starts and ends at rest
// with no acceleration and never exceeds speed v, acceleration a or jerk j, all
// in units of the distance and in seconds. A negative distance moves back, and
// none takes no time.
//
// v, a and j are above 0; +Inf is no limit, but a or j must be finite. It
// panics otherwise, and on a distance that is not finite: limits are checked
// where a rig is read. Moves that start or end at a speed are in motion/law/mintime.
//
// The closed form is that of the double-S velocity profile with both end
// velocities nil (L. Biagiotti and C. Melchiorri, Trajectory Planning for
// Automatic Machines and Robots, Springer 2008,
// DOI 10.1007/978-3-540-85629-0): the speed limit is reached, or else the
// acceleration limit, or else neither.
func Fastest(distance, v, a, j float64) Profile {
	if !(v > 0 && a > 0 && j > 0) || min(a, j) > math.MaxFloat64 || math.IsNaN(distance-distance) {
		panicLimits(distance, v, a, j)
	}
	if distance == 0 {
		return Profile{J: j}
	}
	d := math.Abs(distance)
	tj := a / j // time from rest to the greatest acceleration
	p := Profile{Distance: distance, Tj: tj, V: v, A: a, J: j}
	if v <= a*tj { // the speed limit comes before the acceleration limit
		p.Tj = math.Sqrt(v / j)
		p.Ta = 2 * p.Tj
		p.A = j * p.Tj
	} else {
		p.Ta = v/a + tj
	}
	if d >= v*p.Ta {
		p.Tv = d/v - p.Ta
		p.T = d/v + p.Ta
		return p
	}
	return p.short(d, a, j, tj)
}

// short is Fastest where the travel ends before the speed limit is reached.
func (p Profile) short(d, a, j, tj float64) Profile {
	p.Tv = 0
	if d <= 2*a*tj*tj {
		p.Tj = math.Cbrt(d / 2 / j)
		p.Ta = 2 * p.Tj
		p.A = j * p.Tj
		p.V = p.A * p.Tj
	} else {
		// V solves V (V/a + a/j) = d. As d > 2a^3/j^2, the root is at
		// least three times c and nothing cancels.
		c := a * tj
		p.V = (math.Sqrt(c*c+4*a*d) - c) / 2
		p.Tj, p.A = tj, a
		p.Ta = p.V/a + tj
	}
	p.T = 2 * p.Ta
	return p
}

func panicLimits(distance, v, a, j float64) {
	panic(fmt.Sprintf("law: a move over %v needs a finite distance and limits above 0, not speed %v, acceleration %v, jerk %v",
		distance, v, a, j))
}
