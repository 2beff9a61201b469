package sweep

import (
	"errors"
	"fmt"
	"math"

	"seamrail/motion/vibration/spring"
)

const (
	// perWidth is how many frequencies lie within the half-power width of a resonance of
	// the damping that is expected: three show a top and both its sides.
	perWidth = 3
	// builds is how many time constants, Q/pi periods each, the load is shaken before it
	// is read: a swing is then within 5 % of what it grows to (e^-3), and read later
	// still.
	builds = 3
	// fewestRead is how many periods are read at the least.
	fewestRead = 8
	// readShare of a burst is read, at its end.
	readShare = 1. / 3
	// mostBursts bounds how long a sweep takes.
	mostBursts = 400
)

// Asked is what a sweep goes over, and the damping that is expected of it.
type Asked struct {
	Low, High float64 // Hz
	Damping   float64 // share of critical
}

// Frequencies are those of the sweep, upward, both ends included.
func (a Asked) Frequencies() ([]float64, error) {
	switch {
	case !(a.Low >= spring.MinFrequency && a.High <= spring.MaxFrequency && a.Low < a.High):
		return nil, fmt.Errorf("a sweep goes up, from %g Hz at the least to %d Hz at the most, and not from %g to %g", spring.MinFrequency, spring.MaxFrequency, a.Low, a.High)
	case !(a.Damping > 0 && a.Damping <= spring.MaxDamping):
		return nil, errors.New("the damping that is expected must be above nothing: steps and times follow from it")
	}
	// The half-power width is 2 damping times the frequency (Ewins, Modal Testing,
	// ISBN 978-0-86380-218-8, section 4.2).
	n := math.Ceil(math.Log(a.High/a.Low) / math.Log1p(2*a.Damping/perWidth))
	if !(n < mostBursts) {
		return nil, fmt.Errorf("it would take %.0f steps of frequency, and more than %d take too long: sweep a narrower band, or expect more damping", n, mostBursts)
	}
	out := make([]float64, int(max(n, 1))+1)
	for i := range out {
		out[i] = a.Low * math.Pow(a.High/a.Low, float64(i)/float64(len(out)-1))
	}
	return out, nil
}

// Periods is how many periods each frequency is shaken for.
func (a Asked) Periods() int {
	q := 1 / (2 * a.Damping)
	builds := builds * q / math.Pi
	return int(math.Ceil(max(builds/(1-readShare), builds+fewestRead)))
}
