package calibrate

import (
	"math"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// Estimate is a value with its standard uncertainty, and the degrees of freedom of that:
// +Inf where nothing of it was guessed from a few readings.
type Estimate struct {
	Value, Sigma float64
	Free         float64
}

// covered is the share of cases in which the truth lies within Bound: what two standard
// deviations of a normal distribution hold, as is usual (JCGM 100, 6.2.3).
const covered = 0.9545

// Bound is how far the truth may be out either way, in 95 of 100 cases.
func (e Estimate) Bound() float64 { return e.boundOf(1) }

// boundOf is the bound within which so many of these all are, in 95 of 100 cases: each
// leaves out its part of the rest (C. E. Bonferroni's inequality, as any text on statistics
// has it).
func (e Estimate) boundOf(many int) float64 {
	tail := (1 - covered) / 2 / float64(many)
	switch {
	case e.Sigma == 0:
		return 0
	case e.Free == 0 || math.IsInf(e.Free, 1):
		return e.Sigma * distuv.UnitNormal.Quantile(1-tail)
	}
	return e.Sigma * distuv.StudentsT{Sigma: 1, Nu: e.Free}.Quantile(1-tail)
}

// Has tells whether a value lies within the bound.
func (e Estimate) Has(x float64) bool { return math.Abs(x-e.Value) <= e.Bound() }

// part is one thing that a value is uncertain by.
type part struct{ sigma, free float64 }

// even is the standard uncertainty of what may be out by half a width either way, each
// place as likely as another (JCGM 100, 4.3.7).
func even(half float64) part { return part{half / math.Sqrt(3), math.Inf(1)} }

// scatter is that of the mean of readings (JCGM 100, 4.2.3); nothing for one alone.
func scatter(readings []float64) part {
	n := float64(len(readings))
	if n < 2 {
		return part{}
	}
	return part{stat.StdDev(readings, nil) / math.Sqrt(n), n - 1}
}

// larger is what counts of a resolution and of the scatter that it makes: both in one
// would count it twice.
func larger(a, b part) part {
	if b.sigma > a.sigma {
		return b
	}
	return a
}

// joined is a value with what makes it uncertain: by squares, with the degrees of freedom
// of the Welch-Satterthwaite formula (JCGM 100, G.4.1).
func joined(value float64, parts ...part) Estimate {
	var squares, fourths float64
	for _, p := range parts {
		squares += p.sigma * p.sigma
		if p.free > 0 {
			fourths += math.Pow(p.sigma, 4) / p.free
		}
	}
	e := Estimate{Value: value, Sigma: math.Sqrt(squares), Free: math.Inf(1)}
	if fourths > 0 {
		e.Free = squares * squares / fourths
	}
	return e
}

// times is the estimate on another scale.
func (e Estimate) times(k float64) Estimate {
	return Estimate{e.Value * k, e.Sigma * math.Abs(k), e.Free}
}
