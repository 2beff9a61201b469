package rushes_test

import "math"

// knock is how a damped spring swings from a blow at time 0: A exp(-z w t) sin(w sqrt(1 - z^2) t) with
// w = 2 pi hertz and the share of critical z. Put into d" + 2 z w d' + w^2 d = 0, it solves that.
type knock struct{ amplitude, hertz, damping float64 }

// at is how far off it is, so many seconds after the blow.
func (k knock) at(seconds float64) float64 {
	if seconds < 0 {
		return 0
	}
	w := 2 * math.Pi * k.hertz
	return k.amplitude * math.Exp(-k.damping*w*seconds) * math.Sin(w*math.Sqrt(1-k.damping*k.damping)*seconds)
}
