// Package rate finds out from passes by how much a controller's clock runs slow,
// as a rate that a longer pass has more of, and apart from what every pass is late
// by once.
//
// It is a line with an intercept, fitted by least squares (Numerical Recipes,
// section 15.2): how long something took against how long it was foretold to
// take. Within a pass each round begins once; between passes of different
// lengths their ends tell.
package rate

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"seamrail/export/drive"
)

// Found is a rate error, and how far it may be out either way.
type Found struct {
	Rate, Uncertainty float64
	Points            int // what it was fitted to
}

// String prints "0.1080 % +/- 0.0040 %".
func (f Found) String() string {
	return fmt.Sprintf("%.4f %% +/- %.4f %%", f.Rate*100, f.Uncertainty*100)
}

// Betters tells whether to keep the rate in place of one known before makes what
// is foretold better for sure: they are further apart than twice the uncertainty,
// so that the truth is nearer to this one.
func (f Found) Betters(known float64) bool { return math.Abs(f.Rate-known) > 2*f.Uncertainty }

const (
	// minLaps is how many rounds must have begun, and minPasses how many
	// passes must be there, for their scatter to tell how sure the slope is: two
	// are needed for the line and two are beyond it.
	minLaps, minPasses = 4, 4
	// grain is the scatter that is taken for granted, in s: times of answers are
	// uncertain by the millisecond in which an adapter hands them over, whose
	// standard deviation is that over the root of 12, at both ends of a time.
	grain = 0.001 / 2.449
	// maxScatter is above what laps scatter by that are paced by the controller:
	// more, and they tell of the wire or of this computer.
	maxScatter = 0.005 // s
	// confidence is the share of cases in which the truth lies within the
	// uncertainty: one in a hundred is the odd one out.
	confidence = 0.99
	// wanted is the uncertainty that advice is given for: 50 parts in a million are
	// a twentieth of a second in a quarter of an hour.
	wanted = 50e-6
)

// Fit returns the rate error that passes show, which were told with known as the
// rate error so far. Those that were held or did not run through are left out. The
// error says what to film to make it known.
func Fit(known float64, passes []drive.Pass) (Found, error) {
	var within, across line
	across.group()
	rounds, period := int64(0), 0.0
	for _, p := range passes {
		if p.End != drive.Finished || p.Held || p.Executed == 0 || p.Foretold <= 0 {
			continue
		}
		across.add(p.Foretold, p.Executed)
		within.group()
		for _, m := range p.Laps {
			within.add(float64(m.Round)*p.RoundForetold, m.Seconds)
		}
		rounds, period = max(rounds, p.Rounds), p.RoundForetold
	}
	if across.points() == 0 {
		return Found{}, fmt.Errorf("the rate was not measured: no take ran through")
	}
	best, scatter := Found{Uncertainty: math.Inf(1)}, 0.0
	for _, l := range []struct {
		*line
		least int
	}{{&within, minLaps}, {&across, minPasses}} {
		f, s, ok := l.fit(known, l.least)
		if ok && s > maxScatter {
			scatter = max(scatter, s)
			continue
		}
		if ok && f.Uncertainty < best.Uncertainty {
			best = f
		}
	}
	switch {
	case !math.IsInf(best.Uncertainty, 1):
		return best, nil
	case scatter > 0:
		return Found{}, fmt.Errorf("the rate was not measured: the rounds scatter by %.0f ms, so they tell of the wire or of this computer; "+
			"nothing else should run on it meanwhile", scatter*1000)
	}
	return Found{}, fmt.Errorf("the rate was not measured: %d %s cannot tell a clock that is slow from what every take is late by once; "+
		"film %d rounds or more in one take, or %d takes of different lengths", rounds, plural(rounds), advised(period), minPasses)
}

func plural(rounds int64) string {
	if rounds == 1 {
		return "round"
	}
	return "rounds"
}

// advised is how many rounds of a period make the rate known to what is wanted:
// the uncertainty is some three times grain over the root of the sum of squares
// of n times, which is period times the root of n cubed over 12. The first rounds
// may not count.
func advised(period float64) int64 {
	const sigmas, first = 3, 4
	if period <= 0 {
		return 2 * minLaps
	}
	n := math.Cbrt(12 * math.Pow(sigmas*grain/(wanted*period), 2))
	return max(int64(math.Ceil(n))+first, 2*minLaps)
}

// line is points in groups, each with an intercept of its own, and one slope.
type line struct{ groups [][]point }

type point struct{ x, y float64 }

func (l *line) group() { l.groups = append(l.groups, nil) }

func (l *line) add(x, y float64) {
	last := &l.groups[len(l.groups)-1]
	*last = append(*last, point{x, y})
}

func (l *line) points() (n int) {
	for _, g := range l.groups {
		n += len(g)
	}
	return n
}

// fit returns the slope as a rate error, and by how much the points scatter about
// the lines, where there are enough and they differ.
func (l *line) fit(known float64, least int) (f Found, scatter float64, ok bool) {
	var n, free int
	var xx, xy, yy float64
	for _, g := range l.groups {
		if len(g) < 2 {
			continue
		}
		n, free = n+len(g), free+len(g)-1
		mean := middle(g)
		for _, p := range g {
			dx, dy := p.x-mean.x, p.y-mean.y
			// Of what is beyond the foretold, so that no digits are lost.
			xx, xy, yy = xx+dx*dx, xy+dx*(dy-dx), yy+(dy-dx)*(dy-dx)
		}
	}
	free-- // the slope
	if n < least || free < 1 || xx == 0 {
		return f, 0, false
	}
	slope := xy / xx
	scatter = math.Sqrt(max(yy-slope*xy, 0) / float64(free))
	sigma := math.Max(scatter, grain) / math.Sqrt(xx)
	t := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(free)}.Quantile((1 + confidence) / 2)
	return Found{Rate: (1+slope)*(1+known) - 1, Uncertainty: t * sigma * (1 + known), Points: n}, scatter, true
}

func middle(g []point) (m point) {
	for _, p := range g {
		m.x, m.y = m.x+p.x, m.y+p.y
	}
	return point{m.x / float64(len(g)), m.y / float64(len(g))}
}
