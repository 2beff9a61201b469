package track

import (
	"fmt"

	"seamrail/motion/base/exact"
	"seamrail/motion/law"
)

// SwingSpec is a carriage that swings about a place as a pendulum does. With tau the
// time since frame 0 and that of Phase, in turns of the loop, it is at
//
//	About + Amplitude (1 - Decay (1 - cos 2 pi tau)/2) sin 2 pi Cycles tau.
//
// A pendulum left alone dies away exponentially and never comes back to where it
// began; this one dies away and comes back once a loop, with all derivatives.
type SwingSpec struct {
	About     float64   // units
	Amplitude float64   // units to either side, at most; above 0
	Cycles    int       // per loop, at least 1
	Decay     exact.Rat // share of it that is gone half a loop later, from 0 to below MostDecay
	Phase     exact.Rat // share of the loop that is past at frame 0
}

// MostDecay is below what decay so many cycles turn round twice each, and no more often.
//
// Position is a sum of sines; as e sin(n t) with e = 1 - d (1 - cos t)/2 its speed is
// sin(n t + psi) times what is never 0, and the whole phase only grows as long as
// 2 e'^2 - e e” + n^2 e^2 is above 0, of which the least is at e = 1-d, where
// e” = d/2: that is above 0 for d below 2n^2/(2n^2+1).
func MostDecay(cycles int) exact.Rat {
	twice := 2 * int64(cycles) * int64(cycles)
	return exact.New(twice, twice+1)
}

// Swing returns the track of a swing over period seconds: exactly, as the sum of a
// sine and, where it decays, of its two sidebands, each of them ways there and back by
// the harmonic law.
//
// It fails if the place is not finite, the amplitude not above 0, there is less than
// one cycle, or Decay is out of range.
func Swing(period exact.Rat, s SwingSpec) (*Track, error) {
	if err := checkPeriod(period); err != nil {
		return nil, err
	}
	switch {
	case !finite(s.About) || !finite(s.Amplitude) || s.Amplitude <= 0:
		return nil, fmt.Errorf("a swing of %g about %g must be finite and above 0", s.Amplitude, s.About)
	case s.Cycles < 1 || s.Cycles >= maxCycles:
		return nil, fmt.Errorf("%d cycles a loop; it must be from 1 to below %d", s.Cycles, maxCycles)
	case s.Decay.Sign() < 0 || !s.Decay.Less(MostDecay(s.Cycles)):
		return nil, fmt.Errorf("a decay of %s must be from 0 to below %s with %d cycles a loop", s.Decay, MostDecay(s.Cycles), s.Cycles)
	}
	if s.Decay.Sign() == 0 {
		return s.sine(period, s.Cycles)
	}
	side := s.Decay.Quo(exact.Int(4)).Float()
	var parts []delayed
	for _, p := range []struct {
		cycles int
		share  float64
	}{{s.Cycles, 1 - 2*side}, {s.Cycles + 1, side}, {s.Cycles - 1, side}} {
		t, err := s.sine(period, p.cycles)
		if err != nil {
			return nil, err
		}
		parts = append(parts, delayed{track: t, share: p.share})
	}
	return summed(parts), nil
}

// sine is about + amplitude sin(2 pi cycles tau): from the near end, where ways there
// and back begin, a quarter of a cycle earlier.
func (s SwingSpec) sine(period exact.Rat, cycles int) (*Track, error) {
	if cycles == 0 {
		return Hold(period, s.About)
	}
	return ThereAndBack(period, ThereAndBackSpec{
		From: s.About - s.Amplitude, To: s.About + s.Amplitude, Out: law.Harmonic(), Cycles: cycles,
		Phase: s.Phase.Add(exact.New(1, 4*int64(cycles))),
	})
}
