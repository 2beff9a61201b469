package planreport

import (
	"fmt"
	"math"

	"seamrail/export/report"
	"seamrail/motion/base/unit"
	"seamrail/motion/plan"
	"seamrail/motion/track"
)

// gauge is one peak of an axis beside its limit.
type gauge struct {
	name  string
	peak  track.Peak
	limit float64 // 0 where the rig states none
	dim   unit.Dimension
	scale float64 // steps a unit for a step rate, else 1

	steady bool // the same all through the loop
}

// gauges lists the peaks of an axis.
func gauges(p *plan.Plan, a *plan.Axis) []gauge {
	dims, steps := dimensions(a.Rig.Unit()), a.Rig.StepsPerUnit.Float()
	out := []gauge{
		{plan.Speed, a.Extremes.Speed, stated(a.Rig.MaxSpeed), dims[1], 1, a.Extremes.Acc.Value == 0},
		{plan.Acceleration, a.Extremes.Acc, stated(a.Rig.MaxAcc), dims[2], 1, false},
		{plan.Jerk, a.Extremes.Jerk, a.Rig.MaxJerk, dims[3], 1, false},
	}
	if steps > 0 {
		out = append(out, gauge{plan.StepRate, a.Extremes.Speed, p.Rig.Controller.StepRate, unit.StepRate, steps, false})
	}
	return out
}

// stated is a limit, 0 where none is.
func stated(limit float64) float64 {
	if math.IsInf(limit, 1) {
		return 0
	}
	return limit
}

func (g gauge) value() float64 { return math.Abs(g.peak.Value) * g.scale }

// share is the peak as a share of its limit; 0 where there is no limit.
func (g gauge) share() float64 {
	if g.limit <= 0 {
		return 0
	}
	return g.value() / g.limit
}

// when says where in the loop the peak is. A speed that never changes has no
// one place, and a step rate has that of the speed.
func (g gauge) when(p *plan.Plan) string {
	switch {
	case g.name == plan.StepRate, g.value() == 0:
		return ""
	case g.steady:
		return "all through the loop"
	}
	return report.When(p.Loop.Clock, g.peak.Time)
}

// gauge tells a peak, how much of its limit that is, and where it happens.
func (p *page) gauge(g gauge) {
	value := unit.Format(g.value(), g.dim)
	if g.limit > 0 {
		p.Add(report.Gauge{
			Label: g.name, Value: value, Share: g.share(), Tone: shade(g.share()), Told: percent(g.share()),
			Limit: unit.Format(g.limit, g.dim), When: g.when(p.pl),
		})
	} else if g.value() > 0 && g.name != plan.StepRate && !math.IsInf(g.value(), 0) {
		p.Field(g.name, value+" no limit stated")
	}
}

// nearShare is the share of a limit from which a gauge is to be minded: a motor
// that is asked for more has little left for a cable that drags.
const nearShare = 0.9

func shade(share float64) report.Tone {
	switch {
	case share > 1:
		return report.Poor
	case share >= nearShare:
		return report.Fair
	}
	return report.Good
}

// manyTimes is from where a share is told in times, not per cent.
const manyTimes = 10

// percent prints a share of a limit: "23 % of", "18 times", or "over" where it is past
// counting.
func percent(share float64) string {
	if math.IsInf(share, 0) || share > 99.99 {
		return "over"
	}
	if share >= manyTimes {
		return fmt.Sprintf("%.0f times", share)
	}
	p := fmt.Sprintf("%.0f", share*100)
	if p == "100" && share > 1 {
		p = "101" // never "100 %" for something that is over
	}
	return p + " % of"
}

// Gauge is a peak beside its limit; Limit and Share are null where the rig
// states none.
type Gauge struct {
	Quantity string   `json:"quantity"`
	Value    *float64 `json:"value"`
	Limit    *float64 `json:"limit"`
	Share    *float64 `json:"share"`
	Unit     string   `json:"unit"`
	When     When     `json:"when"`
}

func gaugeOf(p *plan.Plan, g gauge) Gauge {
	out := Gauge{Quantity: g.name, Value: peaks.OrNull(g.value()), Unit: g.dim.Unit(), When: instant(p, g.peak.Time)}
	if g.limit > 0 {
		out.Limit, out.Share = &g.limit, peaks.OrNull(g.share())
	}
	return out
}
