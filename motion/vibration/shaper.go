package vibration

import (
	"fmt"
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/track"
	"seamrail/motion/vibration/spring"
)

// Shaper is a row of impulses whose sum leaves a spring at rest.
type Shaper int

// The shapers (N. C. Singer and W. P. Seering, Preshaping command inputs to
// reduce system vibration, ASME J. Dyn. Sys. Meas. Control 112(1):76-82, 1990,
// DOI 10.1115/1.2894142).
const (
	ZV  Shaper = iota + 1 // two impulses, half a swing long
	ZVD                   // three, a whole swing: also where the frequency is a little off
)

// String prints "zv" or "zvd".
func (k Shaper) String() string {
	switch k {
	case ZV:
		return "zv"
	case ZVD:
		return "zvd"
	}
	return fmt.Sprintf("shaper %d", int(k))
}

// Shapers lists every shaper.
func Shapers() []Shaper { return []Shaper{ZV, ZVD} }

// ShaperNamed returns the shaper of that name, and false if there is none.
func ShaperNamed(name string) (Shaper, bool) {
	for _, k := range Shapers() {
		if k.String() == name {
			return k, true
		}
	}
	return 0, false
}

// delayGrain is how many parts of a second a delay is rounded to: off by half
// a nanosecond, a rig of a kilohertz is left with three millionths of the
// swing, one of ten hertz with three hundred-millionths.
const delayGrain = 1_000_000_000

// Impulses returns the impulses of a shaper for a spring: delays in exact
// seconds from the first, and shares, which sum to 1.
//
// With K = exp(-D pi/sqrt(1-D^2)) and half a swing between neighbours, ZV has
// the shares 1, K over 1+K; ZVD 1, 2K, K^2 over (1+K)^2.
func Impulses(s spring.Spring, k Shaper) []track.Impulse {
	half := s.Period() / 2
	fade := math.Exp(-s.Damping * math.Pi / math.Sqrt(1-s.Damping*s.Damping))
	weights := []float64{1, fade}
	if k == ZVD {
		weights = []float64{1, 2 * fade, fade * fade}
	}
	sum := 0.0
	for _, w := range weights {
		sum += w
	}
	out := make([]track.Impulse, len(weights))
	for i, w := range weights {
		delay := int64(math.Round(half * float64(i) * delayGrain))
		out[i] = track.Impulse{Delay: exact.New(delay, delayGrain), Share: w / sum}
	}
	return out
}

// Lasts returns how much longer a move is for being shaped, in exact seconds.
func Lasts(s spring.Spring, k Shaper) exact.Rat {
	all := Impulses(s, k)
	return all[len(all)-1].Delay
}
