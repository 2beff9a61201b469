package ringdown

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/stat"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/unit"
)

// Peak is one turn of a swing: how far from rest, in any unit, and when.
type Peak struct {
	Height float64 // not 0; below 0 on the other side
	Time   float64 // s
}

// ParsePeak reads "4.2 at 0.31 s".
func ParsePeak(text string) (Peak, error) {
	height, when, ok := strings.Cut(text, " at ")
	bad := fmt.Errorf("peak %q must be a height and a time, such as \"4.2 at 0.31 s\"", text)
	if !ok {
		return Peak{}, bad
	}
	h, err := exact.Parse(strings.TrimSpace(height))
	if err != nil {
		return Peak{}, bad
	}
	t, err := unit.ParseAs(strings.TrimSpace(when), unit.Time)
	if err != nil {
		return Peak{}, fmt.Errorf("peak %q: %w", text, err)
	}
	return Peak{h.Float(), t.Float()}, nil
}

// Bounds of a row of peaks. More than a few hundred nobody reads off, and a
// peak may be misread by a tenth of a swing before it counts as one left out.
const (
	maxPeaks = 1000
	leftOut  = 0.35 // of the median gap
)

// FromPeaks returns the spring whose free swing has these peaks, each following
// on the one before: all on one side, a swing apart, or on both sides in turn,
// half a swing apart. Times and logarithms of heights are fitted with straight
// lines; three peaks or more tell how well they are known.
//
// It fails if there are fewer than two, if they are out of order, of no height,
// if they do not fade, if a side is left out, or if the spring is out of
// bounds.
func FromPeaks(peaks []Peak) (Measured, error) {
	if n := len(peaks); n < 2 || n > maxPeaks {
		return Measured{}, fmt.Errorf("%d peaks; there must be from 2 to %d", n, maxPeaks)
	}
	swings, err := apart(peaks)
	if err != nil {
		return Measured{}, err
	}
	var n, times, logs []float64
	for i, p := range peaks {
		n = append(n, float64(i)*swings)
		times = append(times, p.Time)
		logs = append(logs, math.Log(math.Abs(p.Height)))
	}
	period, periodSure := slope(n, times)
	fall, fallSure := slope(n, logs)
	if !(fall < 0) {
		return Measured{}, errors.New("the peaks do not fade; a swing that is left alone does")
	}
	m := fromDecrement(-fall, fallSure, period, periodSure)
	m.Peaks = len(peaks)
	return m, m.Spring.Check()
}

// apart is how many swings lie between neighbours: 1 or a half.
func apart(peaks []Peak) (float64, error) {
	swings := 1.0
	if peaks[0].Height*peaks[1].Height < 0 {
		swings = 0.5
	}
	var gaps []float64
	for i, p := range peaks {
		if p.Height == 0 || math.IsNaN(p.Height) || math.IsInf(p.Height, 0) || math.IsNaN(p.Time) || math.IsInf(p.Time, 0) {
			return 0, fmt.Errorf("peak %d must have a height and a time", i+1)
		}
		if i == 0 {
			continue
		}
		if !(p.Time > peaks[i-1].Time) {
			return 0, fmt.Errorf("peak %d at %g s must come after the one before, at %g s", i+1, p.Time, peaks[i-1].Time)
		}
		if other := p.Height*peaks[i-1].Height < 0; other != (swings == 0.5) {
			return 0, fmt.Errorf("peak %d is on the wrong side: give peaks of one side, or of both in turn", i+1)
		}
		gaps = append(gaps, p.Time-peaks[i-1].Time)
	}
	usual := median(gaps)
	for i, g := range gaps {
		if math.Abs(g-usual) > leftOut*usual {
			return 0, fmt.Errorf("peak %d comes %.3g s after the one before, where %.3g s is usual: is one left out?", i+2, g, usual)
		}
	}
	return swings, nil
}

// slope fits y = a + b x and returns b with its standard uncertainty, by least
// squares (Numerical Recipes, section 15.2); 0 where two points leave nothing
// over.
func slope(x, y []float64) (b, sure float64) {
	a, b := stat.LinearRegression(x, y, nil, false)
	if len(x) < 3 {
		return b, 0
	}
	var rest, spread float64
	mean := stat.Mean(x, nil)
	for i := range x {
		rest += (y[i] - a - b*x[i]) * (y[i] - a - b*x[i])
		spread += (x[i] - mean) * (x[i] - mean)
	}
	return b, math.Sqrt(rest / float64(len(x)-2) / spread)
}
