// Package spinreport reports which loops suit a display stand, as text and as
// JSON.
package spinreport

import (
	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/turntable/spin"
)

// Data is all that a report tells.
type Data struct {
	Title    string
	Query    spin.Query
	Answer   spin.Answer
	Assume   spin.Assume
	Measured []Measured
	Own      *spin.Loop // the loop of the shot itself; nil without a shot
	Tables   []Table
	Defaults []source.Default
}

// Measured is a period that was worked out from readings.
type Measured struct {
	Stand, Speed string
	spin.Measured
}

// Table is a turntable that the rig commands.
type Table struct {
	Name      string
	Turns     exact.Rat // a loop; below 0 clockwise, seen from above
	Speed     exact.Rat // degrees a real second on the average, at least 0
	Steady    bool      // at one speed all through
	Symmetry  int64     // of what stands on it; 0 where it is not stated
	Remainder spin.Remainder
	RunUp     int64     // captured frames before frame 0
	RunOut    int64     // and after the last
	Period    exact.Rat // real s of the loop
}

// Options says how the text is dressed.
type Options struct {
	Colour bool
}
