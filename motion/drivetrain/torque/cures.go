package torque

import (
	"math"

	"seamrail/motion/drivetrain/motor"
)

const (
	maxSlower = 100  // times as long: beyond it gravity alone is too much
	cureGrain = 1e-3 // relative: what a cure is good to
)

// cures finds what would give the motor its reserve, one thing at a time.
func (a *Axis) cures(all []motion) Cures {
	out := Cures{Torque: a.Worst.Needs * a.Reserve}
	if math.IsInf(out.Torque, 1) { // a jump of speed, which none of these takes away
		return Cures{}
	}
	if s := a.least(1, maxSlower, func(x float64) bool { return a.does(a.Drive, all, x) }); s > 0 {
		out.Slower = s
	}
	if m := a.least(1, 1/cureGrain, func(x float64) bool { return a.does(lighter(a.Drive, 1/x), all, 1) }); m > 0 {
		out.Lighter = 1 / m
	}
	return out
}

// least returns the least x from low to high that will do, to cureGrain and on
// the side that does; 0 where high does not.
func (a *Axis) least(low, high float64, does func(float64) bool) float64 {
	if !does(high) {
		return 0
	}
	for high/low > 1+cureGrain {
		mid := math.Sqrt(low * high)
		if does(mid) {
			high = mid
		} else {
			low = mid
		}
	}
	return high
}

// does tells whether a drive has its reserve all through the move when that takes
// so many times as long.
func (a *Axis) does(d motor.Drive, all []motion, slower float64) bool {
	if h := d.Motor.Holding; h > 0 && d.Standing()*a.Reserve > h {
		return false
	}
	w := worst(d, moments(all, d, slower))
	return w.Needs*a.Reserve <= w.Has*(1+reserveSlack)
}

// lighter is a drive whose load has a share of its mass.
func lighter(d motor.Drive, share float64) motor.Drive {
	d.Load.Mass *= share
	d.Load.Pull *= share
	return d
}
