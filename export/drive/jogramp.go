package drive

import "math"

// ramp is how fast an axis goes that is held: soon at a creep, and within a second or so
// at the speed that was chosen. Both swell as u³(10 - 15u + 6u²), which begins and ends
// without a jerk: the 3-4-5 polynomial of cam design (Flash and Hogan 1985 have it as the
// path of least jerk), as a speed.
type ramp struct {
	creep, top     float64 // units/s, the second at least the first
	creepIn, topIn float64 // s
}

const (
	// creepWithin is how soon it creeps, in s: before a finger that only taps is up.
	creepWithin = 0.1
	// topWithin is how soon it is at its speed, in s.
	topWithin = 1.0
	// swellSteepest is the greatest slope of the swell, in the middle: 15/8.
	swellSteepest = 1.875
	// rampShare is how much of its acceleration an axis is sped up with at most: the
	// controller must follow a path that is told bit by bit.
	rampShare = 0.5
)

func newRamp(creep, top, acceleration float64) ramp {
	creep = min(creep, top)
	within := func(least, speed float64) float64 { return max(least, swellSteepest*speed/(rampShare*acceleration)) }
	return ramp{creep: creep, top: top, creepIn: within(creepWithin, creep), topIn: within(topWithin, top)}
}

// speed is how fast it is after t s, in units/s.
func (r ramp) speed(t float64) float64 {
	return r.creep*swell(t/r.creepIn) + (r.top-r.creep)*swell(t/r.topIn)
}

// way is how far it is after t s, in units.
func (r ramp) way(t float64) float64 {
	return r.creep*r.creepIn*swollen(t/r.creepIn) + (r.top-r.creep)*r.topIn*swollen(t/r.topIn)
}

// swell goes from 0 to 1 while u does.
func swell(u float64) float64 {
	u = math.Min(math.Max(u, 0), 1)
	return u * u * u * (10 + u*(6*u-15))
}

// swollen is its integral.
func swollen(u float64) float64 {
	in := math.Min(math.Max(u, 0), 1)
	return in*in*in*in*(2.5+in*(in-3)) + math.Max(u-1, 0)
}
