package calibrate

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat"

	"seamrail/motion/base/list"
)

// Homing is how long an axis took to find its switch from a place.
type Homing struct {
	Place   float64 // mm or degrees, by count
	Seconds float64
}

// SwitchTimes tells places by how long it takes to find the switch from there. Most boards
// say nothing of the way that they go to their switch, and set their count anew on it; but
// all answer when they have found it, and go there at a steady speed.
type SwitchTimes struct {
	zero, slope float64 // seconds = zero + slope*place
	sigma       float64 // s, of one homing
	free        float64
	n, mean, sx float64 // of the places: how many, their mean and sum of squares
	looks       int     // for which its bounds hold together
}

// fewestHomings say a line and what it is out by.
const fewestHomings = 3

// answerGrain is the standard uncertainty of the time of an answer, in s, however well
// times agree: a host asks USB once a millisecond at its fastest, and boards turn their
// main loop in that time (common practice).
const answerGrain = 1e-3

// TimeTheSwitch learns from homings from known places, after gentle moves alone, to look so
// often for what is lost: of as many looks at a rig that loses nothing, all show nothing in
// 95 of 100 cases. It fails where they are too few, from one place, or of no line.
func TimeTheSwitch(seen []Homing, looks int) (SwitchTimes, error) {
	if len(seen) < fewestHomings {
		return SwitchTimes{}, fmt.Errorf("it takes %d homings from known places to tell a place by the switch, and there are %d", fewestHomings, len(seen))
	}
	s := lineOf(seen)
	s.looks = max(looks, 1)
	if s.sx == 0 {
		return s, fmt.Errorf("the homings began at one place; a line needs two")
	}
	if spread := math.Abs(s.slope) * math.Sqrt(s.sx/(s.n-1)); !(spread > minSpread*max(s.sigma, answerGrain)) {
		return s, fmt.Errorf("the time to the switch does not go with the way to it: %.3g s of it against %.3g s of scatter", spread, max(s.sigma, answerGrain))
	}
	return s, nil
}

// lineOf is the line of least squares through homings, with what they scatter by about it.
func lineOf(seen []Homing) SwitchTimes {
	x := list.Map(seen, func(h Homing) float64 { return h.Place })
	y := list.Map(seen, func(h Homing) float64 { return h.Seconds })
	s := SwitchTimes{n: float64(len(seen)), mean: stat.Mean(x, nil)}
	s.sx = stat.Variance(x, nil) * (s.n - 1)
	s.zero, s.slope = stat.LinearRegression(x, y, nil, false)
	rest := 0.0
	for i := range x {
		rest += math.Pow(y[i]-s.zero-s.slope*x[i], 2)
	}
	s.free = s.n - 2
	s.sigma = math.Sqrt(rest / s.free)
	return s
}

// minSpread is how many times its scatter the time to the switch must differ over the
// places it was learnt from.
const minSpread = 10

// Look is how far from where it is counted an axis stood, by the time to its switch, and
// beyond which bound that is more than chance.
func (s SwitchTimes) Look(h Homing) (lost Estimate, bound float64) {
	lost = s.lost(h)
	return lost, lost.boundOf(s.looks)
}

// Sees is the least loss at a place that a look misses no more than one time in forty: the
// bound, and what a look at that loss may be out by towards nothing (L. A. Currie,
// Analytical Chemistry 40:586-593, 1968, DOI 10.1021/ac60259a007: the limit of detection
// lies beyond the one of decision).
func (s SwitchTimes) Sees(place float64) float64 {
	lost, bound := s.Look(Homing{place, s.zero + s.slope*place})
	return bound + lost.Bound()
}

func (s SwitchTimes) lost(h Homing) Estimate {
	// Both the homing and the line are known by the same scatter: one part, not two.
	times := math.Sqrt(1 + 1/s.n + math.Pow(h.Place-s.mean, 2)/s.sx)
	off := (h.Seconds - s.zero - s.slope*h.Place) / s.slope
	each := larger(part{answerGrain, math.Inf(1)}, part{s.sigma, s.free})
	return joined(off, part{each.sigma * times / math.Abs(s.slope), each.free})
}
