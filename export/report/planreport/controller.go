package planreport

import (
	"fmt"

	"seamrail/export/header"
	"seamrail/export/report"
	"seamrail/motion/base/fault"
	"seamrail/motion/controller/ontime"
)

// Controller is what the rig's controller is expected to make of the take.
type Controller struct {
	Follows bool `json:"follows"` // within a millisecond a round, and near the path
	Exact   bool `json:"exact"`   // it plays steps; nothing is foretold
	// Lines of a round, and the greatest duration of one.
	Lines        int     `json:"lines_a_round"`
	LongestLine  float64 `json:"longest_line_seconds"`
	Round        float64 `json:"round_seconds"`
	RoundRuns    float64 `json:"round_executed_seconds"`
	RoundLate    float64 `json:"round_late_seconds"`
	Take         float64 `json:"take_seconds"`
	TakeRuns     float64 `json:"take_executed_seconds"`
	LastRoundEnd float64 `json:"last_round_late_seconds"`
	RestsLate    float64 `json:"rests_late_seconds"` // at most, a round besides
	// RoundsRun are the rounds whose lines were run on the model.
	RoundsRun int64 `json:"rounds_run"`
	// Within is what is promised: whoever does not keep it does not follow.
	WithinSeconds float64   `json:"within_seconds"`
	Assumed       []Assumed `json:"assumed"` // of what the rig file does not say
	// Axes at their worst captured frame.
	Axes    []Strayed `json:"axes"`
	Reasons []string  `json:"reasons"` // why it does not follow, and what would fit
}

// Strayed is how far an axis is off its path at the worst captured frame.
type Strayed struct {
	Axis    string  `json:"axis"`
	Worst   float64 `json:"worst"` // executed less planned
	Wanted  float64 `json:"wanted"`
	Unit    string  `json:"unit"`
	Frame   int64   `json:"captured_frame"`
	Seconds float64 `json:"real_seconds"`
}

// Assumed is a value that was taken for one that the rig file does not state.
type Assumed struct {
	Key   string `json:"key"`
	Value string `json:"value"`
	Cost  string `json:"otherwise"` // what another value would cost, in words
}

func controllerOf(p *ontime.Prediction) *Controller {
	if p == nil {
		return nil
	}
	at := foretold.Of
	return &Controller{
		Follows: p.Follows(), Exact: p.Exact, Lines: p.Blocks, LongestLine: at(p.Longest),
		Round: at(p.RoundPlanned), RoundRuns: at(p.RoundExecuted), RoundLate: small(p.RoundLate),
		Take: at(p.Planned), TakeRuns: at(p.Executed), LastRoundEnd: small(p.Late), RestsLate: small(p.Unsure),
		RoundsRun: p.Ran, WithinSeconds: p.Within,
		Assumed: report.Each(p.Assumed, func(a ontime.Assumption) Assumed { return Assumed(a) }),
		Axes: report.Each(p.Axes, func(d ontime.Deviation) Strayed {
			return Strayed{d.Axis, small(d.Worst), at(d.Wanted), d.Unit, d.Frame, at(d.Seconds)}
		}),
		Reasons: report.Each(p.Faults, fault.Fault.String),
	}
}

// small rounds a difference to a millionth of its unit.
func small(v float64) float64 {
	const grain = 1e6
	return foretold.Of(float64(int64(v*grain)) / grain)
}

func (p *page) controller() {
	x := p.d.Controller
	if x == nil {
		return
	}
	p.Named("controller", "ON THIS CONTROLLER")
	p.Fields("expected", header.Expected(*x))
	for _, a := range x.Assumed {
		p.Bullets(report.Fair, "!", assumedWords(a))
	}
	for _, f := range x.Faults {
		p.Bullets(report.Poor, "x", f.String())
	}
}

func assumedWords(a ontime.Assumption) string {
	return fmt.Sprintf("controller.%s: assumed %s; %s", a.Key, a.Value, a.Cost)
}
