package track

import "seamrail/motion/exact"

// Key is a place the axis passes at a time.
type Key struct {
	Time  exact.Rat // s, in [0, period)
	Pos   float64   // units
	Speed *float64  // units/s; nil lets the curve choose
	Hold  exact.Rat // s at rest from Time on
}

// KeysSpec is a closed curve through keys.
type KeysSpec struct {
	Keys     []Key
	Advance  exact.Rat // units gained each loop
	Monotone bool      // never beyond its keys, at the price of some smoothness
}
