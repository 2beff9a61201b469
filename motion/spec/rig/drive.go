package rig

import (
	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/drivetrain/motor"
)

// Where nothing is said. A toothed belt loses about a twentieth, and drives
// without position feedback are given half as much again as they need; common
// practice.
const (
	beltEfficiency = 0.95
	defaultReserve = 1.5
	maxReserve     = 10
	maxIncline     = 90 // degrees
)

// driveBuilder understands the load and the motor of an axis.
type driveBuilder struct {
	axisBuilder
	load  RawLoad
	motor RawMotor
	drive *motor.Drive
}

// drive reads the load and the motor of an axis; without a load there is
// nothing to tell.
func (b axisBuilder) drive(a *Axis) {
	raw := b.raw
	if raw.Load == nil {
		if raw.Motor != nil {
			b.report.Missing(raw.Motor.Place, b.path+"load", `{ mass = "2.4 kg" }`)
		}
		return
	}
	d := driveBuilder{axisBuilder: b, load: *raw.Load, drive: &motor.Drive{Rotary: a.Kind == Rotary}}
	if raw.Motor != nil {
		d.motor = *raw.Motor
	}
	d.perTurn(a)
	if a.Kind == Rotary {
		d.turning()
	} else {
		d.sliding()
	}
	d.train(a)
	d.motorSide()
	a.Drive = d.drive
}

// perTurn is what a turn of the motor moves: stated, or from the mechanics.
func (d driveBuilder) perTurn(a *Axis) {
	path, t := d.path+"motor.per-turn", d.motor.PerTurn
	if !d.raw.Steps.Set {
		if t.Set {
			d.report.Wrong(t, path, "says already what belt, screw or gear say", "leave it out")
		}
		d.drive.PerTurn = d.stepsATurn().Quo(a.StepsPerUnit).Float()
		return
	}
	d.drive.PerTurn = 1
	if !t.Set {
		at := d.motor.Place
		if d.raw.Motor == nil {
			at = d.load.Place
		}
		d.report.Missing(at, path, `"40 mm"`)
		return
	}
	q, ok := d.position(a.Kind, t, path)
	switch {
	case ok && q.Value.Sign() <= 0:
		d.report.Wrong(t, path, "must be above 0 "+a.Unit(), "")
	case ok:
		d.drive.PerTurn = q.Float()
	}
}

// stepsATurn are the microsteps of a turn of the motor. What is wrong with them
// has been reported already.
func (d driveBuilder) stepsATurn() exact.Rat {
	steps := exact.Int(defaultMotorSteps)
	if n, err := exact.Parse(d.raw.MotorSteps.Text); err == nil && n.Sign() > 0 {
		steps = n
	}
	if n, err := exact.Parse(d.raw.Microsteps.Text); err == nil && n.Sign() > 0 {
		steps = steps.Mul(n)
	}
	return steps
}

func (d driveBuilder) sliding() {
	d.stray(d.load.Inertia, "inertia", "linear", `mass = "2.4 kg"`)
	d.stray(d.load.Overhang, "overhang", "linear", `incline = "20 deg"`)
	l := &d.drive.Load
	l.Mass = d.above(d.load.Place, d.load.Mass, "load.mass", unit.Mass)
	l.Friction = d.atLeast0(d.load.Friction, "load.friction", unit.Force, "not counted")
	if !d.load.Incline.Set {
		d.report.Default(d.path+"load.incline", "0 deg", "the rail is level")
		return
	}
	path := d.path + "load.incline"
	q, ok := d.report.Quantity(d.load.Incline, path, unit.Angle)
	if v := q.Float(); ok && (v < -maxIncline || v > maxIncline) {
		d.report.Wrong(d.load.Incline, path, "must be from -90 to 90 deg", "")
	}
	l.Pull = motor.Incline(l.Mass, q.Float())
}

func (d driveBuilder) turning() {
	d.stray(d.load.Mass, "mass", "rotary", `inertia = "4000 kg mm2"`)
	d.stray(d.load.Incline, "incline", "rotary", `overhang = "0.3 N m"`)
	l := &d.drive.Load
	l.Mass = d.above(d.load.Place, d.load.Inertia, "load.inertia", unit.Inertia)
	l.Friction = d.atLeast0(d.load.Friction, "load.friction", unit.Torque, "not counted")
	l.Pull = d.atLeast0(d.load.Overhang, "load.overhang", unit.Torque, "the load is balanced")
	l.EitherWay = l.Pull > 0
}

// stray reports a key of the other kind of axis.
func (d driveBuilder) stray(t source.Text, key, kind, fit string) {
	if t.Set {
		d.report.Wrong(t, d.path+"load."+key, "has no meaning on a "+kind+" axis", "write "+fit)
	}
}

// above reads what has to be there and above 0.
func (d driveBuilder) above(at source.Place, t source.Text, key string, dim unit.Dimension) float64 {
	if !t.Set {
		d.report.Missing(at, d.path+key, `"`+dim.Example()+`"`)
		return 1
	}
	return d.limit(t, key, dim)
}

// atLeast0 reads what may be left out.
func (d driveBuilder) atLeast0(t source.Text, key string, dim unit.Dimension, why string) float64 {
	if !t.Set {
		d.report.Default(d.path+key, "0 "+dim.Unit(), why)
		return 0
	}
	q, ok := d.report.Quantity(t, d.path+key, dim)
	if ok && q.Value.Sign() < 0 {
		d.report.Wrong(t, d.path+key, "must be at least 0 "+dim.Unit(), "")
	}
	return q.Float()
}
