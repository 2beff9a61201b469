package report

import (
	"math"

	"seamrail/motion/base/unit"
	"seamrail/motion/plan"
	"seamrail/motion/spec/shot"
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

func (g gauge) value() float64 { return math.Abs(g.peak.Value) * g.scale }

// share is the peak as a share of its limit; 0 where there is no limit.
func (g gauge) share() float64 {
	if g.limit <= 0 {
		return 0
	}
	return g.value() / g.limit
}

// when says where in the loop the peak is. A speed that never changes has no
// one place.
func (g gauge) when(p *plan.Plan) string {
	if g.steady {
		return "all through the loop"
	}
	return where(p, g.peak.Time)
}

// gauges lists the peaks of an axis.
func gauges(p *plan.Plan, a *plan.Axis) []gauge {
	dims := [3]unit.Dimension{unit.Speed, unit.Acceleration, unit.Jerk}
	if a.Rig.Unit() == "deg" {
		dims = [3]unit.Dimension{unit.AngularSpeed, unit.AngularAcceleration, unit.AngularJerk}
	}
	steps := a.Rig.StepsPerUnit.Float()
	return []gauge{
		{plan.Speed, a.Extremes.Speed, a.Rig.MaxSpeed, dims[0], 1, a.Extremes.Acc.Value == 0},
		{plan.Acceleration, a.Extremes.Acc, a.Rig.MaxAcc, dims[1], 1, false},
		{plan.Jerk, a.Extremes.Jerk, a.Rig.MaxJerk, dims[2], 1, false},
		{plan.StepRate, a.Extremes.Speed, p.Rig.Controller.StepRate, unit.StepRate, steps, false},
	}
}

func positionDim(a *plan.Axis) unit.Dimension {
	if a.Rig.Unit() == "deg" {
		return unit.Angle
	}
	return unit.Length
}

// take is what is recorded and what of it is kept, in captured frames counted
// from the first recorded one.
type take struct {
	recorded    int64
	round       int64 // the round that is delivered, 0-based
	first, last int64 // delivered
	handles     int64 // kept on either side
	short       bool  // the handles reach past what was recorded at pace
}

func takeOf(p *plan.Plan) take {
	c, rounds := p.Loop.Captured, int64(p.Rounds)
	all := p.RoundFrames()
	t := take{recorded: p.RunUp + rounds*all + p.RunOut, round: shot.KeptRound(rounds), handles: p.Handles}
	t.first = p.RunUp + t.round*all
	t.last = t.first + c - 1
	after := (rounds-1-t.round)*all + p.Back
	t.short = p.Handles > t.round*all || p.Handles > after
	return t
}
