// Package torque holds a plan against the motors of its rig: whether each has
// the torque that the move asks of it, at the instant when least is left over,
// what would do where it has not, and what falls when the current is cut.
package torque

import (
	"math"

	"seamrail/motion/drivetrain/motor"
	"seamrail/motion/plan"
)

// Level is how a motor fares.
type Level int

// The levels, best first.
const (
	Enough  Level = iota // it has the reserve that is asked of it
	Tight                // it has the torque, and less than the reserve
	Short                // it has not: it would lose steps
	Unknown              // the rig does not state its torque
)

// String prints "enough", "tight", "short" or "unknown".
func (l Level) String() string { return [...]string{"enough", "tight", "short", "unknown"}[l] }

// Moment is what a motor is asked for at an instant.
type Moment struct {
	Phase    string  // "loop", "run-up", "run-out" or "moves between frames"
	Seconds  float64 // real, from frame 0
	Vel, Acc float64 // of the axis, units/s and units/s2
	Speed    float64 // of the motor, turns/s
	Needs    float64 // N m; +Inf where the speed jumps
	Has      float64 // N m, by its torque curve; 0 where that has ended, or there is none
}

// Axis is an axis whose load is known.
type Axis struct {
	Name  string
	Unit  string // "mm" or "deg"
	Drive motor.Drive
	Level Level
	Worst Moment // where the least is left over; without a curve, where most is needed
	// Margin is how many times what is needed the motor has then; +Inf where
	// nothing is needed, 0 beyond its curve or without one.
	Margin  float64
	Reserve float64 // what the margin should be, at least 1
	// Standing is the torque that its load turns the motor with at rest, N m.
	Standing float64
	Cures    Cures
	Release  motor.Release
	// Travel is how far it can fall within its travel, in units, and Reaches how
	// fast it is then, in units/s. Both are 0 where it is kept, and Reaches is
	// +Inf on an axis without ends.
	Travel, Reaches float64
}

// Cures are what would give a motor its reserve. A 0 says that it would not.
type Cures struct {
	Slower  float64 // how many times as long the whole move must take, above 1
	Lighter float64 // the share of its mass that the load may have, below 1
	Torque  float64 // N m that a motor must have at the worst moment's speed
}

// Examine returns the axes of the plan whose load the rig states, in the plan's
// order.
func Examine(p *plan.Plan) []Axis {
	var out []Axis
	for i := range p.Axes {
		if a := &p.Axes[i]; a.Rig.Drive != nil {
			out = append(out, examine(p, a))
		}
	}
	return out
}

func examine(p *plan.Plan, a *plan.Axis) Axis {
	d := *a.Rig.Drive
	out := Axis{
		Name: a.Rig.Name, Unit: a.Rig.Unit(), Drive: d,
		Reserve: max(1, d.Motor.Reserve), Standing: d.Standing(), Release: d.Release(),
	}
	if out.Release.Keeper == motor.Nothing {
		out.Travel = fallLength(a, out.Release.Down)
		out.Reaches = out.Release.Reaches(out.Travel)
	}
	all := motions(p, a)
	out.Worst = worst(d, moments(all, d, 1))
	if m, jumps := jump(p, a); jumps {
		out.Worst = m
	}
	out.judge()
	if out.Level == Tight || out.Level == Short {
		out.Cures = out.cures(all)
	}
	return out
}

// judge sets the margin and the level.
func (a *Axis) judge() {
	w := a.Worst
	held := a.held()
	switch {
	case len(a.Drive.Motor.Curve) == 0:
		a.Level = Unknown
		return
	case w.Needs == 0:
		a.Margin = math.Inf(1)
	default:
		a.Margin = w.Has / w.Needs
	}
	switch least := min(a.Margin, held); {
	case least < 1:
		a.Level = Short
	case least < a.Reserve*(1-reserveSlack):
		a.Level = Tight
	}
}

// reserveSlack lets a margin through that is the reserve but for rounding.
const reserveSlack = 1e-9

// held is how many times over the holding torque keeps the load at rest; +Inf
// where it is not stated or nothing pulls.
func (a *Axis) held() float64 {
	if a.Drive.Motor.Holding == 0 || a.Standing == 0 {
		return math.Inf(1)
	}
	return a.Drive.Motor.Holding / a.Standing
}

// fallLength is how far an axis can fall from the height of its move.
func fallLength(a *plan.Axis, down float64) float64 {
	lo, hi := a.Extremes.Min.Value, a.Extremes.Max.Value
	switch {
	case a.Rig.Endless:
		return math.Inf(1)
	case down < 0:
		return hi - a.Rig.Min
	case down > 0:
		return a.Rig.Max - lo
	}
	return max(hi-a.Rig.Min, a.Rig.Max-lo)
}
