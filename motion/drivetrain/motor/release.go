package motor

import "math"

// Keeper is what holds the load when the motor's current is cut.
type Keeper int

// The keepers, the surest first.
const (
	Level    Keeper = iota // nothing pulls
	Brake                  // a brake that falls in
	SelfHeld               // the train does not let the load drive it
	Friction               // of the load's own bearings
	Detent                 // the motor's own torque without current
	Nothing                // it falls
)

// Release is what the load does when the current is cut.
type Release struct {
	Keeper Keeper
	// Spare is how many times over the keeper holds; +Inf where nothing pulls or
	// a train takes all. Vibration lowers it: of friction and detent, less than
	// twice over is not to be trusted.
	Spare float64
	Acc   float64 // units/s2 at which it falls; 0 where it is kept
	Down  float64 // -1 where it falls towards lower numbers, 1 towards higher; 0 where it may be either
}

// Release tells what happens when the current is cut at rest.
func (d Drive) Release() Release {
	pull := math.Abs(d.Load.Pull)
	net := pull - d.Load.Friction
	shaft := max(0, net) * d.rho() * max(0, d.Train.Driven)
	m := d.Motor
	r := Release{Down: d.down()}
	switch {
	case pull == 0:
		r.Keeper, r.Spare = Level, math.Inf(1)
	case m.Brake > 0 && m.Brake+m.Detent >= shaft:
		r.Keeper, r.Spare = Brake, (m.Brake+m.Detent)/shaft
	case d.Train.HoldsItself():
		r.Keeper, r.Spare = SelfHeld, math.Inf(1)
	case net <= 0:
		r.Keeper, r.Spare = Friction, d.Load.Friction/pull
	case m.Detent >= shaft:
		r.Keeper, r.Spare = Detent, m.Detent/shaft
	default:
		r.Keeper, r.Spare = Nothing, (m.Brake+m.Detent)/shaft
		r.Acc = d.fall(shaft - m.Brake - m.Detent)
	}
	return r
}

func (d Drive) down() float64 {
	if d.Load.EitherWay || d.Load.Pull == 0 {
		return 0
	}
	return -math.Copysign(1, d.Load.Pull)
}

// fall is the acceleration, units/s2, under a torque left over at the shaft: the
// rotor, and the load as the train lets it through, gain speed together.
func (d Drive) fall(torque float64) float64 {
	rho := d.rho()
	inertia := d.Motor.Inertia/perSquare + d.mass()*rho*rho*d.Train.Driven
	return torque / inertia * rho / d.unit()
}

// Reaches returns the speed, units/s, that a fall over a travel ends in.
func (r Release) Reaches(travel float64) float64 { return math.Sqrt(2 * r.Acc * travel) }
