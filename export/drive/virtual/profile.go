package virtual

import "math"

// phase is a stretch of constant acceleration.
type phase struct{ lasts, speed, accel float64 }

// after returns the way made and the speed t seconds into the phase.
func (p phase) after(t float64) (way, speed float64) {
	return t * (p.speed + p.accel*t/2), p.speed + p.accel*t
}

// profile is what is left of a block: up, level, down, each possibly of no
// duration.
type profile [3]phase

// newProfile returns the quickest way over length from one squared speed to
// another, never above nominal: a trapezoid, or a triangle where the block is
// too short for it. Where even that is too short to lose the speed, it slows
// all the way and is still too fast at the end.
func newProfile(length, accel, nominal, entry2, exit2 float64) profile {
	entry2 = math.Min(entry2, nominal*nominal) // it may be above by rounding
	entry := math.Sqrt(entry2)
	peak2 := math.Min(accel*length+(entry2+exit2)/2, nominal*nominal)
	switch {
	case peak2 < entry2: // only down
		leave := math.Sqrt(math.Max(entry2-2*accel*length, exit2))
		return profile{2: {lasts: 2 * length / (entry + leave), speed: entry, accel: -accel}}
	case peak2 < exit2: // only up
		peak := math.Sqrt(entry2 + 2*accel*length)
		return profile{{lasts: (peak - entry) / accel, speed: entry, accel: accel}}
	}
	peak, exit := math.Sqrt(peak2), math.Sqrt(exit2)
	level := length - (2*peak2-entry2-exit2)/(2*accel)
	p := profile{
		{lasts: (peak - entry) / accel, speed: entry, accel: accel},
		{speed: peak},
		{lasts: (peak - exit) / accel, speed: peak, accel: -accel},
	}
	if level > 0 {
		p[1].lasts = level / peak
	}
	return p
}

// braking returns the way down from the square of a speed at accel, as far as
// length allows: to a standstill, or to the end of the block.
func braking(length, accel, entry2 float64) profile {
	entry := math.Sqrt(entry2)
	leave := math.Sqrt(math.Max(0, entry2-2*accel*length))
	return profile{2: {lasts: (entry - leave) / accel, speed: entry, accel: -accel}}
}

// lasts returns the whole duration.
func (p *profile) lasts() float64 { return p[0].lasts + p[1].lasts + p[2].lasts }
