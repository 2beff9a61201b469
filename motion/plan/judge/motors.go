package judge

import (
	"math"
	"strings"

	"seamrail/motion/base/fault"
	"seamrail/motion/camera/picture"
	"seamrail/motion/drivetrain/motor"
	"seamrail/motion/drivetrain/torque"
	"seamrail/motion/plan"
)

// Torque is the check on whether the motors have it.
const Torque = "torque"

// motors judges whether the motors have the torque, of all axes together: what
// each needs is told in a place of its own.
func (c Case) motors() []picture.Verdict {
	if !c.Rig.Controller.Kind.Driven() {
		return nil // its motors are its own affair
	}
	known := map[string]torque.Level{}
	for _, a := range torque.Examine(c.Plan) {
		known[a.Name] = a.Level
	}
	var short, tight, untold []string
	for _, a := range moved(c.Plan) {
		switch level, ok := known[a.Rig.Name]; {
		case !ok || level == torque.Unknown:
			untold = append(untold, a.Rig.Name)
		case level == torque.Short:
			short = append(short, a.Rig.Name)
		case level == torque.Tight:
			tight = append(tight, a.Rig.Name)
		}
	}
	v := picture.Verdict{Check: Torque, Level: picture.Good, Text: "every motor has the torque that the move asks for, and its reserve"}
	switch {
	case len(short) > 0:
		v.Level, v.Text = picture.Poor, "not enough for "+strings.Join(short, " and ")+": steps are lost"
	case len(untold) > 0:
		v.Level, v.Text = picture.Unknown, "whether the motors lose steps, and what falls without them, is not known: the rig states no load and torque of "+strings.Join(untold, " and ")
		v.Missing = []string{"load and motor of " + strings.Join(untold, ", ")}
	case len(tight) > 0:
		v.Level, v.Text = picture.Fair, "less in reserve than is wanted for "+strings.Join(tight, " and ")
	case len(known) == 0:
		v.Text = "nothing moves"
	}
	return []picture.Verdict{v}
}

// moved lists the axes that move.
func moved(p *plan.Plan) []*plan.Axis {
	var out []*plan.Axis
	for i := range p.Axes {
		if a := &p.Axes[i]; a.Extremes.Speed.Value != 0 {
			out = append(out, a)
		}
	}
	return out
}

// Trusted is how many times over friction, a detent or a brake must hold before
// nothing is said: each loses half of it to a knock or a drop of oil (common
// practice).
const Trusted = 2

// falls judges what becomes of each load when the current is cut, of all axes of
// the rig whose load is known: a camera falls from an axis that stands, too.
func (c Case) falls() []picture.Verdict {
	var out []picture.Verdict
	for _, a := range c.Plan.Rig.Axes {
		if a.Drive == nil {
			continue
		}
		v := picture.Verdict{Check: "power loss of " + a.Name, Level: picture.Good, Text: a.Name + " stays where it is when its motor loses power"}
		switch r := a.Drive.Release(); {
		case r.Keeper == motor.Nothing:
			v.Level, v.Text = picture.Poor, a.Name+" falls when its motor loses power"
			if brake, ok := enough(*a.Drive); ok {
				v.Cures = append(v.Cures, fault.Cure{Words: "a brake of " + short(brake) + " N m at the motor's shaft, which holds twice over"})
			}
		case r.Spare < Trusted:
			v.Level, v.Text = picture.Fair, a.Name+" is kept by little when its motor loses power: a knock may set it off"
		}
		out = append(out, v)
	}
	return out
}

// enough is the torque of a brake that holds a load, with as much again, rounded up
// to two digits.
func enough(d motor.Drive) (float64, bool) {
	d.Motor.Brake = math.SmallestNonzeroFloat64
	r := d.Release()
	if r.Keeper != motor.Nothing || r.Spare <= 0 && d.Motor.Detent > 0 {
		return 0, false
	}
	for brake := 0.01; brake < 1000; brake *= 1.1 {
		grain := math.Pow(10, math.Floor(math.Log10(brake))-1)
		d.Motor.Brake = math.Ceil(brake/grain) * grain
		if r := d.Release(); r.Keeper == motor.Brake && r.Spare >= Trusted {
			return d.Motor.Brake, true
		}
	}
	return 0, false
}
