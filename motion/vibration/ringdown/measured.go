package ringdown

import (
	"math"

	"seamrail/motion/vibration/spring"
)

// Measured is a spring with how well it is known: standard uncertainties, 0
// where nothing tells them.
type Measured struct {
	Spring        spring.Spring
	FrequencySure float64 // Hz
	DampingSure   float64 // share of critical
	Peaks         int     // that were counted; 0 for a record
	Samples       int     // that were fitted; 0 for peaks
	// Explained is the share of what moves in the record that the swing
	// explains, 0 to 1; 0 for peaks.
	Explained float64
	From, To  float64 // s, the part of the record that was fitted
}

// fromDecrement turns the logarithmic decrement of a swing, and its seconds,
// into a spring, with standard uncertainties (Inman, Engineering Vibration,
// section 1.6):
//
//	D = delta/sqrt(4 pi^2 + delta^2),  f = 1/(T sqrt(1 - D^2)).
func fromDecrement(decrement, decrementSure, period, periodSure float64) Measured {
	turn := 2 * math.Pi
	root := math.Hypot(turn, decrement)
	d := decrement / root
	f := root / (turn * period) // 1/sqrt(1-D^2) is root over a turn
	return Measured{
		Spring:        spring.Spring{Frequency: f, Damping: d},
		DampingSure:   decrementSure * turn * turn / (root * root * root),
		FrequencySure: f * math.Hypot(periodSure/period, decrementSure*decrement/(root*root)),
	}
}
