package plan

import (
	"fmt"
	"math"

	"seamrail/motion/exact"
	"seamrail/motion/fault"
	"seamrail/motion/track"
	"seamrail/motion/unit"
)

// limitSlack is how far past a limit a computed peak may lie before it counts,
// as a share of the limit. Peaks are closed forms good to a few parts in 1e15;
// a billionth lets a move planned exactly at a limit through and is far below
// what any motor or reader could notice.
const limitSlack = 1e-9

// Quantities an axis is limited in.
const (
	Position     = "position"
	Speed        = "speed"
	Acceleration = "acceleration"
	Jerk         = "jerk"
	StepRate     = "step rate"
)

// Breach is one limit that the plan breaks.
type Breach struct {
	Axis     string
	Quantity string         // one of the constants above
	Phase    string         // "loop", "return", "run-up" or "run-out"
	Value    float64        // in Dim's unit; +Inf where a derivative jumps
	Bound    float64        // the limit it breaks, same unit
	Dim      unit.Dimension // of Value and Bound; Number for steps a second
	Time     float64        // real seconds from frame 0
	Frame    float64        // captured frames from frame 0
	Screen   float64        // on-screen seconds from frame 0
}

// Breaches checks every axis against the rig from the exact extremes of its
// track over all rounds of the take, and of its ramps, and returns what is broken in axis order.
func (p *Plan) Breaches() []Breach {
	var out []Breach
	for i := range p.Axes {
		out = append(out, p.axisBreaches(&p.Axes[i])...)
	}
	return out
}

// carried is how far the axis has come by the start of the take's last round:
// a turn goes on where the round before it ended.
func (p *Plan) carried(a *Axis) float64 {
	return exact.Int(int64(p.Rounds - 1)).Mul(a.Track.Advance()).Float()
}

// whole takes an extreme of one round to the extreme of all rounds of the
// take, on the side of sign.
func (p *Plan) whole(peak track.Peak, a *Axis, sign float64) track.Peak {
	if gained := p.carried(a); gained*sign > 0 {
		peak.Value += gained
		peak.Time += p.Period() * float64(p.Rounds-1)
	}
	return peak
}

type check struct {
	quantity string
	peak     track.Peak
	bound    float64
	scale    float64 // what Value and Bound are multiplied by in the report
}

func (p *Plan) axisBreaches(a *Axis) []Breach {
	out := p.travelBreaches(a, "loop", p.whole(a.Extremes.Min, a, -1), p.whole(a.Extremes.Max, a, 1))
	for _, c := range p.checks(a, a.Extremes) {
		if over(c.peak.Value, c.bound) {
			out = append(out, p.breach(a, "loop", c))
		}
	}
	if a.RunUp != nil {
		out = append(out, p.rampBreaches(a, "run-up", a.RunUp, -a.RunUp.Length())...)
	}
	return append(out, p.rampBreaches(a, "run-out", a.RunOut, p.Period())...)
}

func (p *Plan) checks(a *Axis, e track.Extremes) []check {
	list := []check{
		{Speed, e.Speed, a.Rig.MaxSpeed, 1},
		{Acceleration, e.Acc, a.Rig.MaxAcc, 1},
	}
	if a.Rig.MaxJerk > 0 {
		list = append(list, check{Jerk, e.Jerk, a.Rig.MaxJerk, 1})
	}
	if rate := p.Rig.Controller.StepRate; rate > 0 {
		steps := a.Rig.StepsPerUnit.Float()
		list = append(list, check{StepRate, e.Speed, rate / steps, steps})
	}
	return list
}

func over(value, bound float64) bool { return math.Abs(value) > bound*(1+limitSlack) }

// travelSlack is how far, in units, past an end of the travel does not count.
func travelSlack(a *Axis) float64 { return limitSlack * math.Max(1, a.Rig.Max-a.Rig.Min) }

func (p *Plan) travelBreaches(a *Axis, phase string, lo, hi track.Peak) []Breach {
	var out []Breach
	if a.Rig.Endless {
		return nil
	}
	slack := travelSlack(a)
	if lo.Value < a.Rig.Min-slack {
		out = append(out, p.breach(a, phase, check{Position, lo, a.Rig.Min, 1}))
	}
	if hi.Value > a.Rig.Max+slack {
		out = append(out, p.breach(a, phase, check{Position, hi, a.Rig.Max, 1}))
	}
	return out
}

func (p *Plan) rampBreaches(a *Axis, phase string, r *Ramp, start float64) []Breach {
	if r == nil || p.overAtSeam(a, r.end) {
		return nil
	}
	lo, hi, speed, acc, jerk := r.peaks()
	at := func(v float64) track.Peak { return track.Peak{Value: v, Time: start} }
	carried := p.carriedBy(r.out, a)
	lo, hi = lo+carried, hi+carried
	out := p.travelBreaches(a, phase, at(lo), at(hi))
	for _, c := range p.checks(a, track.Extremes{Speed: at(speed), Acc: at(acc), Jerk: at(jerk)}) {
		if over(c.peak.Value, c.bound) {
			out = append(out, p.breach(a, phase, c))
		}
	}
	return out
}

// overAtSeam tells whether the loop asks too much of an axis at the seam itself. What
// a ramp to there breaks then is no fault of its own.
func (p *Plan) overAtSeam(a *Axis, s track.State) bool {
	return over(s.Vel, a.Rig.SpeedCap(p.Rig.Controller.StepRate)) || over(s.Acc, a.Rig.MaxAcc)
}

func (p *Plan) breach(a *Axis, phase string, c check) Breach {
	if phase == "loop" && p.unseen(c.peak.Time) {
		phase = "return"
	}
	frame := c.peak.Time * p.Loop.Clock.Capture.Float()
	value := c.peak.Value
	if c.quantity != Position {
		value = math.Abs(value)
	}
	return Breach{
		Axis: a.Rig.Name, Quantity: c.quantity, Phase: phase,
		Value: value * c.scale, Bound: c.bound * c.scale, Dim: dimension(c.quantity, a),
		Time: c.peak.Time, Frame: frame,
		Screen: c.peak.Time / p.Loop.Clock.Retime.Float(),
	}
}

func dimension(quantity string, a *Axis) unit.Dimension {
	rotary := a.Rig.Unit() == "deg"
	pick := func(linear, turning unit.Dimension) unit.Dimension {
		if rotary {
			return turning
		}
		return linear
	}
	switch quantity {
	case Position:
		return pick(unit.Length, unit.Angle)
	case Speed:
		return pick(unit.Speed, unit.AngularSpeed)
	case Acceleration:
		return pick(unit.Acceleration, unit.AngularAcceleration)
	case Jerk:
		return pick(unit.Jerk, unit.AngularJerk)
	}
	return unit.Number
}

// Faults words the breaches, without what would fit: package reach knows that.
func (p *Plan) Faults() fault.List {
	var list fault.List
	for _, b := range p.Breaches() {
		list = append(list, p.Fault(b))
	}
	return list
}

// Fault words one breach.
func (p *Plan) Fault(b Breach) fault.Fault {
	f := fault.Fault{File: p.ShotFile, Axis: b.Axis, Quantity: b.Quantity}
	for _, a := range p.Axes {
		if a.Rig.Name == b.Axis {
			f.Line, f.Column = a.Move.Line, a.Move.Column
		}
	}
	f.Value, f.Bound = text(b, b.Value), "must be at most "+text(b, b.Bound)
	if b.Quantity == Position && b.Value < b.Bound {
		f.Bound = "must be at least " + text(b, b.Bound)
	}
	f.Where = fmt.Sprintf("at %.3f s on screen, captured frame %.1f", b.Screen, b.Frame)
	if b.Phase != "loop" {
		f.Where = "in the " + b.Phase
	}
	return f
}

func text(b Breach, v float64) string {
	if b.Quantity == StepRate && !math.IsInf(v, 0) {
		return fmt.Sprintf("%.0f steps/s", v)
	}
	return unit.Format(v, b.Dim)
}
