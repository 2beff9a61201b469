package rig

import (
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/drivetrain/motor"
	"seamrail/motion/vibration/ringdown"
)

// Kind says whether an axis slides or turns.
type Kind int

// The kinds of axis.
const (
	Linear Kind = iota // measured in mm
	Rotary             // measured in degrees
)

// String prints "linear" or "rotary".
func (k Kind) String() string {
	if k == Rotary {
		return "rotary"
	}
	return "linear"
}

// degreesPerTurn is how many units one revolution of a rotary axis has.
const degreesPerTurn = 360

// Axis is one moving part of the rig. Lengths are in mm on a linear axis and
// in degrees on a rotary one; times are real seconds.
type Axis struct {
	Name   string // "rail", as the files call it
	Kind   Kind
	Letter string // "X", as the controller calls it
	Faulty bool   // not understood: some fault says why

	Min, Max float64 // travel, Min < Max; both 0 when Endless
	Endless  bool    // rotary only: turns as far as it likes
	Home     float64 // where it stands after homing, inside the travel
	HomeLine string  // the line that homes it alone; "" = the controller's does, if it has a switch
	NoSwitch bool    // it has no switch to home on

	MaxSpeed float64 // units/s, > 0; +Inf where a rig that is not driven states none
	MaxAcc   float64 // units/s², > 0; the same
	MaxJerk  float64 // units/s³; 0 = no limit stated

	StepsPerUnit exact.Rat         // > 0; 0 where it is not driven: nobody knows its steps
	Reverse      bool              // a positive step moves towards Min
	Backlash     *float64          // units lost where it turns round; nil = not stated
	Settings     AxisSettings      // the controller's own, for this axis
	Assumed      AssumedSettings   // which of them the rig file leaves out
	Drive        *motor.Drive      // its load and its motor; nil = not stated
	Shake        ringdown.Measured // how what it carries swings; zero = not known
	Mechanics    string            // in words: "belt 2 mm x 20 teeth, 200 x 16 microsteps"

	// Of one that is not driven: where its ends may be set and how far apart, in units;
	// nil for anywhere.
	Stops, Distances Offers
}

// AssumedSettings are the settings of an axis that the rig file does not state: its
// limits stand in.
type AssumedSettings struct{ Acceleration, Speed bool }

// Unit returns "mm" or "deg".
func (a Axis) Unit() string {
	if a.Kind == Rotary {
		return "deg"
	}
	return "mm"
}

// SpeedCap returns the greatest speed, in units/s, that both the axis and a
// controller of stepRate steps/s allow. A stepRate of 0 is no limit.
func (a Axis) SpeedCap(stepRate float64) float64 {
	if stepRate <= 0 {
		return a.MaxSpeed
	}
	return math.Min(a.MaxSpeed, stepRate/a.StepsPerUnit.Float())
}

// Travel returns Max - Min, or +Inf when the axis is endless.
func (a Axis) Travel() float64 {
	if a.Endless {
		return math.Inf(1)
	}
	return a.Max - a.Min
}

// Contains tells whether pos is inside the travel, ends included.
func (a Axis) Contains(pos float64) bool {
	return a.Endless || a.Min <= pos && pos <= a.Max
}
