// Package motionplot draws a plan: every axis' position, speed and acceleration
// over the loop, and the seam magnified. It draws what it is given and
// computes no motion.
package motionplot

import "math"

// State is an axis at one moment: position in the axis' unit (mm or deg), and
// its rates per real second.
type State struct{ Pos, Vel, Acc, Jerk float64 }

// Axis is one axis over one loop. Times are real seconds, 0 at frame 0.
type Axis struct {
	Name string
	Unit string // "mm" or "deg"
	// At is the state at a time in [0, period], right-continuous; Before is
	// the limit from the left in (0, period]. Nil Before means At has no jumps.
	At, Before func(sec float64) State
	// Breaks are the times inside the loop where a rate may jump.
	Breaks []float64
	// Dwells are the stretches in which the axis stands still.
	Dwells [][2]float64
	Limits Limits
	Peaks  *Peaks  // nil: read off the curve
	Gain   float64 // units gained in a loop, 0 for an axis that comes back
	Cut    float64 // units gained by the end of what is shown, where there is a cut
	Seam   string  // what is said of the seam, or ""
}

// Limits are what the rig allows. An infinite Min or Max, or a rate of 0,
// means that the rig states none.
type Limits struct{ Min, Max, Speed, Acc, Jerk float64 }

// Free is no limits at all.
func Free() Limits { return Limits{Min: math.Inf(-1), Max: math.Inf(1)} }

// Peak is a value and the real second at which it is reached.
type Peak struct{ Value, Time float64 }

// Peaks are the signed extremes of greatest size; an infinite value says that
// the rate is unbounded, as acceleration is where speed jumps.
type Peaks struct{ Speed, Acc, Jerk Peak }

// Data is all that a figure shows.
type Data struct {
	Title    string
	Subtitle string  // frames and durations in words
	Clock    string  // the rates in words
	Verdict  string  // what the checker found, in words
	Foot     string  // small print
	Period   float64 // real seconds of one loop
	OnScreen float64 // seconds that one loop takes on screen
	Captured int64   // frames captured in one loop; frame 0 comes round again at the end
	Shown    int64   // frames of those that are shown before a cut back to frame 0; 0 where there is no cut
	Axes     []Axis
	Stands   []Stand // what turns by itself beside the axes
	Strips   []Strip // what the picture makes of it; drawn where Options.Picture is set
}

// Options say what to draw.
type Options struct {
	Jerk    bool // a panel for jerk as well
	Picture bool // positions and the picture, in place of rates and the seam
}
