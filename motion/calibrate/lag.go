package calibrate

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
)

// LagReadings are how late a shutter was, in s, each from one try, and how fine each was
// told: the step of a counter in the picture, or a frame.
type LagReadings struct {
	Seconds []float64
	Grain   float64 // s
	Pairs   bool    // each is the difference of two that were read so
}

// read is what a try is unsure by since it is told no finer.
func (l LagReadings) read() part {
	one := even(l.Grain / 2)
	if l.Pairs {
		one.sigma *= math.Sqrt2
	}
	return one
}

// ByFrames is how late a recorder began that was told to at an instant, where a lamp that
// was lit so many s later is first seen in a frame, 0 being the clip's first, of which a
// share is exposed: the lamp was lit after the exposure of the frame before had ended and
// before that of this one had, half a frame before that at the likeliest.
func ByFrames(lit float64, frame int64, open, rate float64) float64 {
	return lit - (float64(frame)-0.5+open)/rate
}

const (
	// fewestLags say what a shutter differs by from one time to the next.
	fewestLags = 3
	// earliestLag is how much before its signal a shutter may seem to open for what the
	// counter is read to, in grains: further, and the readings were swapped.
	earliestLag = 1
	// wildLag is how far from the median one try may be, in grains, on top of wildSpread
	// times what the middle half of them spreads over; else it was another event. Of
	// readings that are spread normally none in a million millions is as far.
	wildLag, wildSpread = 3, 10
)

// Lag is the mean, with its uncertainty and that of a single release, which is what a take
// meets. It fails with fewer than three, where they are early, and where one is far from
// the others.
func (l LagReadings) Lag() (mean, single Estimate, err error) {
	if len(l.Seconds) < fewestLags {
		return mean, single, fmt.Errorf("how late a shutter is needs %d tries, and there are %d", fewestLags, len(l.Seconds))
	}
	sorted := slices.Sorted(slices.Values(l.Seconds))
	middle := stat.Quantile(0.5, stat.Empirical, sorted, nil)
	spread := stat.Quantile(0.75, stat.Empirical, sorted, nil) - stat.Quantile(0.25, stat.Empirical, sorted, nil)
	for i, s := range l.Seconds {
		switch {
		case s < -earliestLag*l.Grain:
			return mean, single, fmt.Errorf("try %d: the shutter opened %.3g s before it was told to: the two readings may be swapped", i+1, -s)
		case math.Abs(s-middle) > wildLag*l.Grain+wildSpread*spread:
			return mean, single, fmt.Errorf("the readings contradict each other: try %d says %.3g s and the others about %.3g s", i+1, s, middle)
		}
	}
	m := stat.Mean(l.Seconds, nil)
	one := larger(l.read(), part{stat.StdDev(l.Seconds, nil), float64(len(l.Seconds) - 1)})
	return joined(m, larger(l.read(), scatter(l.Seconds))), joined(m, one), nil
}
