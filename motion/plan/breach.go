package plan

import (
	"fmt"
	"math"

	"seamrail/motion/base/fault"
	"seamrail/motion/base/unit"
)

// Breach is one limit that the plan breaks.
type Breach struct {
	Axis     string
	Quantity string         // one of Position, Speed, Acceleration, Jerk, StepRate
	Phase    string         // "loop", "return", "run-up", "run-out" or TakingUp
	Value    float64        // in Dim's unit; +Inf where a derivative jumps
	Bound    float64        // the limit it breaks, same unit
	Dim      unit.Dimension // of Value and Bound; Number for steps a second
	Time     float64        // real seconds from frame 0
	Frame    float64        // captured frames from frame 0
	Screen   float64        // on-screen seconds from frame 0
}

// TakingUp is the phase in which an axis that is taken frame by frame goes beyond a place, to
// come to it from its side.
const TakingUp = "take-up"

// Breaches checks every axis against the rig from the exact extremes of its
// track over all rounds of the take, and of its ramps, and from where it takes up its play for
// frames that are taken one by one, and returns what is broken in axis order.
func (p *Plan) Breaches() []Breach { return p.course().breaches() }

func (c course) breaches() []Breach {
	var out []Breach
	for _, a := range c.axes {
		phase := func(name string, broken []limit) {
			for _, l := range broken {
				out = append(out, c.breach(a, name, l))
			}
		}
		phase("loop", broken(c.loopLimits(a)))
		_, ends := c.takeUp(a)
		phase(TakingUp, ends)
		phase("run-up", broken(c.rampLimits(a, a.RunUp)))
		phase("run-out", broken(c.rampLimits(a, a.RunOut)))
	}
	return out
}

func (c course) breach(a Axis, phase string, l limit) Breach {
	if phase == "loop" && c.unseen(l.peak.Time) {
		phase = "return"
	}
	value := l.peak.Value
	if l.quantity != Position {
		value = math.Abs(value)
	}
	return Breach{
		Axis: a.Rig.Name, Quantity: l.quantity, Phase: phase,
		Value: value * l.scale, Bound: l.bound * l.scale, Dim: dimension(l.quantity, a),
		Time: l.peak.Time, Frame: l.peak.Time * c.loop.Clock.Capture.Float(),
		Screen: l.peak.Time / c.loop.Clock.Retime.Float(),
	}
}

func dimension(quantity string, a Axis) unit.Dimension {
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
	switch b.Phase {
	case "loop":
	case TakingUp:
		f.Where = fmt.Sprintf("as it takes up its play for captured frame %.0f", b.Frame)
	default:
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
