package brightness

import (
	"cmp"
	"math"
	"slices"

	"seamrail/motion/base/exact"
	"seamrail/motion/camera/light"
)

// Flicker is a light that comes and goes steadily. What turns into view and away comes and
// goes as well, as often as the product turns: that is told here too, and beats with no lamp.
type Flicker struct {
	Frequency      float64 // Hz, as filmed: at most half the rate
	FrequencyDoubt float64
	Stops          float64 // from the middle to the brightest
	StopsDoubt     float64
	// Percent is the modulation of the light, (max - min)/(max + min) as in IEEE 1789-2015,
	// DOI 10.1109/IEEESTD.2015.7118618.
	Percent    float64
	FalseAlarm float64 // how likely noise alone shows one as strong somewhere
	Lamps      []Lamp  // that were asked about, those that fit first
}

// Lamp is a ripple, and how it would look at this rate.
type Lamp struct {
	Ripple exact.Rat // Hz
	Beat   exact.Rat // Hz at which it is filmed; 0 where it stands still and is not seen
	Off    float64   // Hz from that to the flicker
	Fits   bool      // within what mains, camera and measurement may be off
}

const (
	// mainsShare is by how much of itself the frequency of mains may be off in ordinary days:
	// 0.1 Hz of 50 (common practice).
	mainsShare = 0.002
	// surely is how many standard uncertainties count.
	surely = 3
)

// flicker is a tone in seconds. How sure frequency and amplitude are is the bound of Cramér
// and Rao for a tone in white noise: with amplitude A, noise s and n frames,
//
//	s(f) = s/A * sqrt(6/n) / (pi * n) cycles a frame,  s(A) = s * sqrt(2/n)
//
// (D. C. Rife and R. R. Boorstyn, Single-tone parameter estimation from discrete-time
// observations, IEEE Transactions on Information Theory 20:591-598, 1974,
// DOI 10.1109/TIT.1974.1055282; for a real tone from memory, as trials of a test bear out).
func (q Question) flicker(t tone, chance, noise float64) Flicker {
	n, rate := float64(len(q.Means)), q.Rate.Float()
	f := Flicker{
		Frequency:      t.frequency * rate,
		FrequencyDoubt: noise / t.amplitude * math.Sqrt(6/n) / (math.Pi * n) * rate,
		Stops:          t.amplitude, StopsDoubt: noise * math.Sqrt(2/n),
		Percent:    100 * math.Tanh(t.amplitude*math.Ln2), // of 2^a and 2^-a
		FalseAlarm: chance,
	}
	if t.frequency == nyquist { // or anything up to half a bin below
		f.FrequencyDoubt = math.Hypot(f.FrequencyDoubt, rate/(2*math.Sqrt(3)*n))
	}
	for _, ripple := range append([]exact.Rat{exact.Int(100), exact.Int(120)}, q.Lamps...) {
		f.Lamps = append(f.Lamps, f.lamp(ripple, q.Rate))
	}
	slices.SortStableFunc(f.Lamps, func(a, b Lamp) int {
		if a.Fits != b.Fits {
			return cmp.Compare(fits(b), fits(a))
		}
		return cmp.Compare(a.Off, b.Off)
	})
	return f
}

func fits(l Lamp) int {
	if l.Fits {
		return 1
	}
	return 0
}

// lamp compares a ripple's beat, which is exact, with the flicker.
func (f Flicker) lamp(ripple, rate exact.Rat) Lamp {
	l := Lamp{Ripple: ripple, Beat: light.Beating(ripple, rate, 0, 1).Beat}
	l.Off = math.Abs(f.Frequency - l.Beat.Float())
	l.Fits = l.Off <= surely*f.FrequencyDoubt+mainsShare*ripple.Float()
	return l
}

func strongestFirst(all []Flicker) {
	slices.SortStableFunc(all, func(a, b Flicker) int { return cmp.Compare(b.Stops, a.Stops) })
}
