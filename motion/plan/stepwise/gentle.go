package stepwise

import (
	"math"

	"seamrail/motion/law"
	"seamrail/motion/spec/rig"
)

// GentleShare is the share of its greatest speed at which an axis moves where nothing
// asks for haste: a tabletop rail that can do 400 mm/s takes ten seconds over its
// length, time to see what it is about to meet.
const GentleShare = 0.1

// GentleSpeed is how fast an axis moves where nothing asks for haste, in units a second.
func GentleSpeed(a rig.Axis) float64 { return a.MaxSpeed * GentleShare }

// Acceleration is what an axis is moved with: its own limit, or what the controller is
// set to if that is less.
func Acceleration(a rig.Axis) float64 {
	if set := a.Settings.Acceleration; set > 0 {
		return min(a.MaxAcc, set)
	}
	return a.MaxAcc
}

// Gentle returns the quickest move of an axis over a distance at its gentle speed.
func Gentle(a rig.Axis, distance float64) law.Profile {
	jerk := math.Inf(1)
	if a.MaxJerk > 0 {
		jerk = a.MaxJerk
	}
	return law.Fastest(distance, GentleSpeed(a), Acceleration(a), jerk)
}
