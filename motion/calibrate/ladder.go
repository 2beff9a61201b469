package calibrate

import "math"

// rungGrowth is how much more each trial asks than the one before: a fifth again. A motor
// that has held a fifth less has shown that it is near, and what fails is then known to a
// fifth as well.
const rungGrowth = 1.2

// Rungs are the trials from first to top, each at most a fifth above the one before, the
// last being top: nothing beyond it is tried. It panics unless 0 < first <= top.
func Rungs(first, top float64) []float64 {
	if !(first > 0 && first <= top) {
		panic("calibrate: a ladder goes up from above 0")
	}
	n := int(math.Ceil(math.Log(top/first)/math.Log(rungGrowth) - closeEnough))
	out := make([]float64, 0, n+1)
	for i := range n {
		out = append(out, first*math.Pow(top/first, float64(i)/float64(n)))
	}
	return append(out, top)
}

// closeEnough keeps a ladder that fits from getting a rung more by rounding.
const closeEnough = 1e-9

const (
	// speedShare of what was held is kept as a limit: torque falls as the motor and its
	// driver warm, and a trial of minutes does not see it (common practice, a fifth).
	speedShare = 0.8
	// accelerationShare is one over the usual reserve of torque, 1.5, which a rig file
	// has as well: torque goes with acceleration.
	accelerationShare = 1 / 1.5
)

// KeptSpeed is the limit that a speed which was held allows.
func KeptSpeed(held float64) float64 { return held * speedShare }

// KeptAcceleration is the limit that an acceleration which was held allows.
func KeptAcceleration(held float64) float64 { return held * accelerationShare }
