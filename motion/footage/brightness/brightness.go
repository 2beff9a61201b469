// Package brightness tells what the light of a recording did, from how bright its frames are:
// steps of the exposure, drift, and flicker with the lamps that would beat like that.
package brightness

import (
	"fmt"
	"math"

	"seamrail/motion/base/exact"
)

// Question is a recording, and by what its brightness is understood.
type Question struct {
	Means []float64 // of each frame, as encoded, 0 to 1
	Rate  exact.Rat // captured frames a real second, above 0
	// Exponent is that of the power of light that was encoded: stops are so many times those
	// of what is encoded. 0 is 2.2. Where the encoding is a power, that holds of means as it
	// does of pixels; where it is another curve it is an assumption.
	Exponent float64
	// Lamps are ripples in Hz that are asked about besides those of the mains, 100 and 120.
	Lamps []exact.Rat
}

// Light is what was found. Uncertainties are standard ones (JCGM 100), one sigma.
type Light struct {
	Steps      []Step
	Drift      float64 // stops a minute, steps aside
	DriftDoubt float64
	Flicker    []Flicker // strongest first
	Left       float64   // stops, root mean square of what is none of all that
}

// Step is a sudden change that lasts.
type Step struct {
	Frame int     // the first that is otherwise
	Stops float64 // above 0 is brighter
	Doubt float64
}

const (
	// usualExponent is that of sRGB as a whole (IEC 61966-2-1: "approximates a power of 2.2").
	usualExponent = 2.2
	leastExponent = 0.4 // a film that is encoded the other way round, and
	mostExponent  = 4   // more than any camera has
	leastFrames   = 16  // below, nothing can be told from noise
	// darkest is what is taken of a frame that is darker: a level of ten bits. A logarithm of
	// black is none.
	darkest = 1.0 / 1023
)

// Measure finds what the light did. It fails if there are fewer than 16 frames, if a mean is
// not 0 to 1, or if rate, exponent or a lamp is out of bounds.
func Measure(q Question) (Light, error) {
	if q.Exponent == 0 {
		q.Exponent = usualExponent
	}
	if err := q.check(); err != nil {
		return Light{}, err
	}
	stops := make([]float64, len(q.Means))
	for k, v := range q.Means {
		stops[k] = q.Exponent * math.Log2(max(v, darkest))
	}
	rate := q.Rate.Float()
	out := Light{Steps: steps(stops, rate)}
	without(stops, out.Steps)
	tones := findTones(stops, tuned)
	m := fit(stops, tones)
	out.Drift, out.DriftDoubt = m.slope*rate*60, m.slopeDoubt*rate*60
	out.Left = m.left
	for k, t := range m.tones {
		if t.frequency*float64(len(stops)) < leastCycles {
			continue // a picture that moves goes up and down as slowly
		}
		out.Flicker = append(out.Flicker, q.flicker(t, tones[k].falseAlarm, m.left))
	}
	strongestFirst(out.Flicker)
	return out, nil
}

func (q Question) check() error {
	if len(q.Means) < leastFrames {
		return fmt.Errorf("%d frames tell nothing of the light; %d or more do", len(q.Means), leastFrames)
	}
	if q.Rate.Sign() <= 0 {
		return fmt.Errorf("a rate of %s frames a second is none; it must be above 0", q.Rate)
	}
	if !(q.Exponent >= leastExponent && q.Exponent <= mostExponent) {
		return fmt.Errorf("an exponent of %g encodes no picture; %g to %d do, such as 2.2", q.Exponent, leastExponent, mostExponent)
	}
	for k, v := range q.Means {
		if !(v >= 0 && v <= 1) {
			return fmt.Errorf("frame %d is %g bright; 0, black, to 1, white, can be", k, v)
		}
	}
	for _, l := range q.Lamps {
		if l.Sign() <= 0 {
			return fmt.Errorf("a lamp that ripples at %s Hz is none; it must be above 0", l)
		}
	}
	return nil
}
