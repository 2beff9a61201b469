package motor

import "math"

// Gravity is the standard acceleration of free fall, m/s2 (ISO 80000-3).
const Gravity = 9.80665

const (
	mmPerMetre   = 1000
	perSquare    = mmPerMetre * mmPerMetre // mm2 a m2
	degreesATurn = 360
)

// Load is what an axis moves: masses and forces on a linear axis, inertias and
// torques about the axis on a rotary one.
type Load struct {
	Mass      float64 // kg, or kg mm2
	Pull      float64 // N, or N m: of gravity, towards lower numbers; below 0 towards higher
	EitherWay bool    // the pull may turn round with the position: the worse way counts
	Friction  float64 // N, or N m: against any motion, 0 or more
}

// Incline returns the pull of gravity on a mass in kg on a rail that rises at an
// angle in degrees, in N.
func Incline(mass, angle float64) float64 {
	return mass * Gravity * math.Sin(angle*math.Pi/180)
}

// Motor is what turns the axis.
type Motor struct {
	Curve   []Point // running torque against speed, rising in speed; empty: not stated
	Holding float64 // N m, at rest with current; 0: not stated
	Detent  float64 // N m, without current
	Brake   float64 // N m, of a brake that falls in without current
	Inertia float64 // kg mm2, of all that turns with the motor
	Reserve float64 // how many times what is needed it should have, at least 1; 0: 1
}

// Point is the torque that a motor has at a speed.
type Point struct {
	Speed  float64 // turns/s
	Torque float64 // N m
}

// At returns the running torque at a speed in turns/s, on straight lines between
// the points. Below the first it is that of the first; beyond the last nobody
// has measured it, and it is 0.
func (m Motor) At(speed float64) float64 {
	c := m.Curve
	if len(c) == 0 || speed > c[len(c)-1].Speed {
		return 0
	}
	i := 0
	for i < len(c) && c[i].Speed < speed {
		i++
	}
	if i == 0 {
		return c[0].Torque
	}
	a, b := c[i-1], c[i]
	return a.Torque + (b.Torque-a.Torque)*(speed-a.Speed)/(b.Speed-a.Speed)
}

// Drive is an axis with its motor.
type Drive struct {
	Rotary  bool
	PerTurn float64 // mm or degrees that one turn of the motor moves, above 0
	Load    Load
	Train   Train
	Motor   Motor
}

// Speed returns turns/s of the motor at a speed of the axis in units/s.
func (d Drive) Speed(vel float64) float64 { return math.Abs(vel) / d.PerTurn }

// unit is m a mm, or radians a degree.
func (d Drive) unit() float64 {
	if d.Rotary {
		return 2 * math.Pi / degreesATurn
	}
	return 1.0 / mmPerMetre
}

// rho is what the load moves for a radian of the motor, in m or radians.
func (d Drive) rho() float64 { return d.PerTurn * d.unit() / (2 * math.Pi) }

// mass is the load's, in kg or kg m2.
func (d Drive) mass() float64 {
	if d.Rotary {
		return d.Load.Mass / perSquare
	}
	return d.Load.Mass
}

// Torque returns the torque, N m, that the motor must give at a speed in units/s
// and an acceleration in units/s2; of the two ways of a pull that turns round,
// the greater. At rest friction resists the way the axis is about to go, and
// where it is not about to, it helps to hold.
func (d Drive) Torque(vel, acc float64) float64 {
	t := d.torque(vel, acc, d.Load.Pull)
	if d.Load.EitherWay {
		if u := d.torque(vel, acc, -d.Load.Pull); math.Abs(u) > math.Abs(t) {
			return u
		}
	}
	return t
}

func (d Drive) torque(vel, acc, pull float64) float64 {
	way := vel
	if way == 0 {
		way = acc
	}
	if way == 0 {
		return d.standing(pull)
	}
	way = math.Copysign(1, way)
	rotor := d.Motor.Inertia / perSquare * acc * d.unit() / d.rho()
	force := d.mass()*acc*d.unit() + pull + d.Load.Friction*way
	if force*way > 0 {
		return rotor + force*d.rho()*d.Train.Driving
	}
	return rotor + force*d.rho()*d.Train.Driven
}

// standing is the torque that keeps a load from driving the motor: what of the
// pull friction and train let through.
func (d Drive) standing(pull float64) float64 {
	net := max(0, math.Abs(pull)-d.Load.Friction)
	return math.Copysign(net*d.rho()*max(0, d.Train.Driven), pull)
}

// Standing returns the torque, N m, that the load turns the motor with at rest;
// 0 where friction or the train hold it.
func (d Drive) Standing() float64 { return math.Abs(d.standing(d.Load.Pull)) }
