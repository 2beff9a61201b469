package cue

import (
	"math"

	"seamrail/motion/base/exact"
)

// Gravity is standard gravity in mm/s2, exactly (CGPM 1901, resolution 2:
// 9.80665 m/s2). What there is differs by up to 0.3 % from place to place, which
// is half a millisecond of a fall of half a metre.
const Gravity = 9806.65

// Fall returns the seconds in which something falls h mm, having set out
// downwards at v mm/s, both at least 0. It is the root of v t + g t^2/2 = h,
// written so that nothing cancels (Numerical Recipes, section 5.6). Air is left
// out: in the first metre it takes a thousandth or so off a pebble, and a great
// deal off a petal.
func Fall(h, v float64) float64 {
	if h == 0 {
		return 0
	}
	return 2 * h / (v + math.Sqrt(v*v+2*Gravity*h))
}

// Height returns the mm that something falls in t seconds, having set out
// downwards at v mm/s.
func Height(t, v float64) float64 { return v*t + Gravity*t*t/2 }

// falls is Fall as an exact number of nanoseconds, which is finer than any ear.
func falls(h, v exact.Rat) exact.Rat {
	return exact.New(int64(math.Round(Fall(h.Float(), v.Float())*nano)), nano)
}

const nano = 1_000_000_000
