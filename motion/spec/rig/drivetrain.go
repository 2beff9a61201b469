package rig

import (
	"fmt"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/unit"
	"seamrail/motion/drivetrain/motor"
)

// train reads what is lost between motor and load: from the thread of a screw,
// or an efficiency.
func (d driveBuilder) train(a *Axis) {
	d.drive.Train = motor.Ideal()
	path, t := d.path+"load.efficiency", d.load.Efficiency
	threaded := d.threaded()
	switch {
	case t.Set && threaded:
		d.report.Wrong(t, path, "says already what the screw's diameter and friction say", "keep one of the two")
	case threaded:
		d.thread()
	case t.Set:
		d.efficiency()
	case d.raw.Screw != nil:
		d.report.Missing(d.load.Place, path, `"40 %", or give the screw its diameter and friction`)
	case a.Kind == Rotary && d.raw.Gear.Set || d.raw.Steps.Set:
		d.report.Missing(d.load.Place, path, `"60 %"`)
	default:
		d.drive.Train = motor.Efficient(beltEfficiency)
		d.report.Default(path, "95 %", "as toothed belts have")
	}
}

func (d driveBuilder) threaded() bool {
	s := d.raw.Screw
	return s != nil && (s.Diameter.Set || s.Friction.Set || s.Flank.Set)
}

func (d driveBuilder) efficiency() {
	path, t := d.path+"load.efficiency", d.load.Efficiency
	q, ok := d.report.Quantity(t, path, unit.Number)
	switch {
	case ok && (q.Value.Sign() <= 0 || exact.Int(1).Less(q.Value)):
		d.report.Wrong(t, path, "must be above 0 and at most 100 %", `such as "90 %"`)
	case ok:
		d.drive.Train = motor.Efficient(q.Float())
	}
}

func (d driveBuilder) thread() {
	s, path := d.raw.Screw, d.path+"screw."
	lead, err := unit.ParseAs(s.Lead.Text, unit.Length)
	diameter := d.pitch(s.Place, s.Diameter, path+"diameter", `"7 mm"`)
	if !s.Friction.Set {
		d.report.Missing(s.Place, path+"friction", "0.15")
		return
	}
	friction, ok := d.report.Quantity(s.Friction, path+"friction", unit.Number)
	flank := unit.Quantity{Value: exact.Int(15), Dim: unit.Angle}
	if s.Flank.Set {
		flank, _ = d.report.Quantity(s.Flank, path+"flank", unit.Angle)
	} else {
		d.report.Default(path+"flank", "15 deg", "a trapezoidal thread (ISO 2901)")
	}
	if err != nil || !ok || lead.Value.Sign() <= 0 || diameter.Sign() <= 0 {
		return
	}
	thread := motor.Thread{Lead: lead.Float(), Diameter: diameter.Float(), Friction: friction.Float(), Flank: flank.Float()}
	if err := thread.Check(); err != nil {
		d.report.Wrong(s.Friction, path+"friction", "will not do: "+err.Error(), "0.15 is usual for steel on bronze")
		return
	}
	d.drive.Train = thread.Train()
}

// motorSide reads what the motor can do.
func (d driveBuilder) motorSide() {
	if d.raw.Motor == nil {
		return
	}
	m := &d.drive.Motor
	m.Curve = d.curve()
	if d.motor.Holding.Set {
		m.Holding = d.limit(d.motor.Holding, "motor.holding", unit.Torque)
	}
	m.Detent = d.atLeast0(d.motor.Detent, "motor.detent", unit.Torque, "not counted on")
	m.Brake = d.atLeast0(d.motor.Brake, "motor.brake", unit.Torque, "none is stated")
	m.Inertia = d.atLeast0(d.motor.Inertia, "motor.inertia", unit.Inertia, "not counted")
	m.Reserve = d.reserve()
}

func (d driveBuilder) reserve() float64 {
	path, t := d.path+"motor.reserve", d.motor.Reserve
	if !t.Set {
		d.report.Default(path, "1.5", "half as much again as needed, as is usual for steppers")
		return defaultReserve
	}
	q, ok := d.report.Quantity(t, path, unit.Number)
	if v := q.Float(); ok && (v < 1 || v > maxReserve) {
		d.report.Wrong(t, path, fmt.Sprintf("must be from 1 to %d", maxReserve), "1.5 is usual")
	}
	return q.Float()
}
