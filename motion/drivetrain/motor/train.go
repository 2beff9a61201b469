package motor

import (
	"errors"
	"fmt"
	"math"
)

// Train is what lies between motor and load, and what it loses. Both shares are
// of the torque that a train without loss would need at the shaft.
type Train struct {
	Driving float64 // what the motor needs when it drives the load, at least 1
	// Driven is what reaches the motor when the load drives it, at most 1. Below
	// 0 the load cannot: the motor has to drive it even where the load pulls.
	Driven float64
}

// Ideal is a train that loses nothing.
func Ideal() Train { return Train{1, 1} }

// Efficient returns a train of an efficiency in (0, 1]: the share of the motor's
// work that reaches the load. Its loss is taken to be as great when the load
// drives, so that 2 - 1/e of the pull arrives: nothing at one half and below,
// where a train holds itself (common to makers' tables of screws).
func Efficient(e float64) Train { return Train{1 / e, 2 - 1/e} }

// Thread is a screw: lengths in mm.
type Thread struct {
	Lead     float64 // mm a turn, above 0
	Diameter float64 // mm, at the middle of the thread, above 0
	Friction float64 // coefficient, 0 or more
	Flank    float64 // degrees between the flank and the normal to the axis: 0 square, 15 trapezoidal
}

var errJams = errors.New("no motor can turn such a screw: its thread jams")

// Check tells what is wrong with a thread, NaN included.
func (t Thread) Check() error {
	switch {
	case !(t.Lead > 0 && t.Diameter > 0 && t.Friction >= 0):
		return errors.New("a screw needs a lead and a diameter above 0 and a friction of 0 or more")
	case !(t.Flank >= 0 && t.Flank < 90):
		return fmt.Errorf("a flank of %g degrees must be from 0 to below 90", t.Flank)
	case t.Friction/t.cosine()*t.slope() >= 1:
		return errJams
	}
	return nil
}

// slope is the tangent of the lead angle.
func (t Thread) slope() float64 { return t.Lead / (math.Pi * t.Diameter) }

func (t Thread) cosine() float64 { return math.Cos(t.Flank * math.Pi / 180) }

// Train returns the screw as a train. With lead angle L and friction angle P,
// tan P = friction / cos flank, raising needs tan(L+P)/tan L and lowering
// tan(L-P)/tan L of the torque without friction (Shigley's Mechanical
// Engineering Design, power screws). It panics on a thread that fails its
// Check.
func (t Thread) Train() Train {
	if err := t.Check(); err != nil {
		panic("motor: " + err.Error())
	}
	l, f := t.slope(), t.Friction/t.cosine()
	return Train{(l + f) / (1 - f*l) / l, (l - f) / (1 + f*l) / l}
}

// Efficiency is the share of the motor's work that reaches the load.
func (t Train) Efficiency() float64 { return 1 / t.Driving }

// HoldsItself tells whether a load cannot drive the motor through it.
func (t Train) HoldsItself() bool { return t.Driven <= 0 }
