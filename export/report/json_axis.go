package report

import (
	"seamrail/motion/base/exact"
	"seamrail/motion/plan"
	"seamrail/motion/verify"
)

// Axis is what one axis does and how near its limits it comes.
type Axis struct {
	Name         string    `json:"name"`
	Kind         string    `json:"kind"`
	Unit         string    `json:"unit"`
	Move         string    `json:"move"`
	Words        string    `json:"words"`
	Min          float64   `json:"min"`
	Max          float64   `json:"max"`
	Peaks        []Gauge   `json:"peaks"`
	StepsPerUnit exact.Rat `json:"steps_per_unit"`
	Steps        *Steps    `json:"steps,omitempty"`
	Seam         *Seam     `json:"seam,omitempty"`
	Strobe       *Strobe   `json:"strobe,omitempty"` // of a product of stated symmetry
	RunUp        *float64  `json:"run_up_seconds,omitempty"`
	RunOut       *float64  `json:"run_out_seconds,omitempty"`
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

// Steps counts what an axis steps in one round.
type Steps struct {
	Forward  int64     `json:"forward"`
	Backward int64     `json:"backward"`
	Gain     exact.Rat `json:"gain"`
}

// Seam is the jump of each derivative where the loop meets itself.
type Seam struct {
	Position     float64 `json:"position"`
	Velocity     float64 `json:"velocity"`
	Acceleration float64 `json:"acceleration"`
	Jerk         float64 `json:"jerk"`
	Highest      int     `json:"highest_continuous"` // -1 none, 0 position .. 3 jerk
	Cut          float64 `json:"cut_back,omitempty"` // taken back by the cut, beside which position is counted
	Words        string  `json:"words"`
}

func axisOf(p *plan.Plan, a *plan.Axis, v verify.Verdict, i int) Axis {
	out := Axis{
		Name: a.Rig.Name, Kind: a.Rig.Kind.String(), Unit: a.Rig.Unit(),
		Move: a.Move.Kind(), Words: moveWords(a, p.Loop.Clock),
		Min: rounded(a.Extremes.Min.Value, peakDigits), Max: rounded(a.Extremes.Max.Value, peakDigits),
		StepsPerUnit: a.Rig.StepsPerUnit,
	}
	for _, g := range gauges(p, a) {
		out.Peaks = append(out.Peaks, gaugeOf(p, g))
	}
	if i < len(v.Steps) {
		s := v.Steps[i]
		out.Steps = &Steps{s.Forward, s.Backward, s.Gain}
	}
	if faces, period, ok := tableStrobe(p, a); ok {
		strobe := strobeOf(p, period, faces)
		out.Strobe = &strobe
	}
	if a.RunUp != nil {
		out.RunUp = finite(a.RunUp.Length())
	}
	if a.RunOut != nil {
		out.RunOut = finite(a.RunOut.Length())
	}
	if i < len(v.Seam) {
		s := v.Seam[i]
		at := func(v float64) float64 { return rounded(v, seamDigits) }
		out.Seam = &Seam{at(s.Position), at(s.Velocity), at(s.Acceleration), at(s.Jerk), s.Highest, at(s.Cut), s.Words}
	}
	return out
}

func gaugeOf(p *plan.Plan, g gauge) Gauge {
	out := Gauge{
		Quantity: g.name, Value: finite(g.value()), Unit: g.dim.Unit(),
		When: instant(p.Loop.Clock, g.peak.Time),
	}
	if g.limit > 0 {
		limit := g.limit
		out.Limit, out.Share = &limit, finite(g.share())
	}
	return out
}
