package ringdown

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"unicode"

	"gonum.org/v1/gonum/stat"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/unit"
)

// Peak is one turn of a swing: how far from rest, in any unit, and when.
type Peak struct {
	Height float64 // not 0; below 0 on the other side
	Time   float64 // s

	// Standard uncertainties of reading them off; 0 where they are exact.
	HeightSure float64
	TimeSure   float64 // s
}

// ParsePeak reads "4.2 at 0.31 s". What is typed is known to half its last digit.
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
	lastHeight, _ := exact.Parse(lastDigit(strings.TrimSpace(height)))
	lastTime, _ := unit.ParseAs(lastDigit(strings.TrimSpace(when)), unit.Time)
	return Peak{h.Float(), t.Float(), rounded(lastHeight.Float()), rounded(lastTime.Float())}, nil
}

// lastDigit is a number as typed with a one in place of its last digit and noughts
// before: "0.01 s" for "0.31 s". A fraction is exact: "0".
func lastDigit(text string) string {
	end := strings.IndexFunc(text, unicode.IsLetter)
	if end < 0 {
		end = len(text)
	}
	last := strings.LastIndexAny(text[:end], "0123456789")
	if strings.Contains(text[:end], "/") || last < 0 {
		return "0" + text[end:]
	}
	nought := func(r rune) rune {
		if unicode.IsDigit(r) {
			return '0'
		}
		return r
	}
	return strings.TrimLeft(strings.Map(nought, text[:last]), "+-") + "1" + text[last+1:]
}

// rounded is the standard uncertainty of a number whose last digit is worth so much:
// it lies anywhere within half of that (GUM, JCGM 100:2008, section 4.3.7).
func rounded(last float64) float64 { return math.Abs(last) / 2 / math.Sqrt(3) }

// Bounds of a row of peaks. More than a few hundred nobody reads off, and a
// peak may be misread by a tenth of a swing before it counts as one left out.
const (
	maxPeaks = 1000
	leftOut  = 0.35 // of the median gap
)

// FromPeaks returns the spring whose free swing has these peaks, each following
// on the one before: all on one side, a swing apart, or on both sides in turn,
// half a swing apart. Times and logarithms of heights are fitted with straight
// lines. How well they are known is told by how they scatter about these, and
// never better than they were read off.
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
	var n, times, logs, timesSure, logsSure []float64
	for i, p := range peaks {
		n = append(n, float64(i)*swings)
		times, timesSure = append(times, p.Time), append(timesSure, p.TimeSure)
		logs = append(logs, math.Log(math.Abs(p.Height)))
		logsSure = append(logsSure, p.HeightSure/math.Abs(p.Height))
	}
	period, periodSure := slope(n, times, timesSure)
	fall, fallSure := slope(n, logs, logsSure)
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

// slope fits y = a + b x by least squares and returns b with its standard
// uncertainty: by how y scatters (Numerical Recipes, section 15.2) or by how each
// was read off, whichever is greater, since a few may lie in line by chance. Two
// do not scatter.
func slope(x, y, read []float64) (b, sure float64) {
	a, b := stat.LinearRegression(x, y, nil, false)
	var rest, spread, carried float64
	mean := stat.Mean(x, nil)
	for i := range x {
		rest += (y[i] - a - b*x[i]) * (y[i] - a - b*x[i])
		spread += (x[i] - mean) * (x[i] - mean)
		carried += (x[i] - mean) * (x[i] - mean) * read[i] * read[i]
	}
	sure = math.Sqrt(carried) / spread
	if len(x) > 2 {
		sure = max(sure, math.Sqrt(rest/float64(len(x)-2)/spread))
	}
	return b, sure
}
