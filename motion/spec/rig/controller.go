package rig

import "seamrail/motion/base/source"

// ControllerKind is the way a controller takes its work.
type ControllerKind int

// The kinds of controller.
const (
	Buffered   ControllerKind = iota // lines into a receive buffer that is counted; real-time bytes
	Lockstep                         // one line, one answer
	StepPlayer                       // plays a table of steps, has no planner of its own
	TwoEnds                          // two ends and a time are set on it; it is started by hand
)

// FeedStyle says how a controller is told the pace of a move.
type FeedStyle int

// The feed styles of RS-274/NGC.
const (
	InverseTime FeedStyle = iota // G93: one over the minutes a block takes
	PerMinute                    // G94: units a minute along the path
)

// String prints "inverse-time" or "per-minute".
func (f FeedStyle) String() string {
	if f == PerMinute {
		return "per-minute"
	}
	return "inverse-time"
}

// PathFeed says which length a per-minute feed is measured along when a linear
// and a rotary axis move together.
type PathFeed int

// The readings of a per-minute feed that are found.
const (
	AlongLinear PathFeed = iota // the linear axes alone; rotary axes follow (RS-274/NGC)
	AlongAll                    // one vector of all axes, a degree counting as DegreeAs mm
)

// String prints "linear" or "all".
func (p PathFeed) String() string {
	if p == AlongAll {
		return "all"
	}
	return "linear"
}

// Controller is what the box that makes the steps can do, by capability.
type Controller struct {
	Kind ControllerKind

	// What it reads.
	Feed          FeedStyle // default InverseTime
	PathFeed      PathFeed  // default AlongLinear
	DegreeAs      float64   // mm a degree counts as in its own path length; default 1
	LineLength    int       // longest line it reads, characters; default 80
	Decimals      int       // decimals of a coordinate word; default 3
	FeedDecimals  int       // decimals of a feed word; default 3
	Baud          int       // bits a second on the wire; default 115200
	ReceiveBuffer int       // bytes it holds before it parses them; default 128

	// What it does with it.
	StepRate          float64 // most steps/s on each axis; 0 = none stated
	SlowestStepRate   float64 // steps/s it does not go below; 0 = none stated
	Blocks            int     // blocks its look-ahead holds; default 16
	SegmentRate       float64 // most blocks/s it takes; 0 = none stated
	JunctionDeviation float64 // mm; how much a corner may be rounded at speed; default 0.01
	RateError         float64 // executed over told duration, less 1; 0 until measured

	// What it counts time and place with.
	Timer           StepTimer
	DwellGrain      float64 // s of which its dwells last whole multiples; 0 = any length
	IdleDelay       float64 // s that each end of motion takes longer, before the motors lose their current; 0 = they keep it
	IdleStated      bool    // whether the rig file says so, or it is the kind's
	IdleAtOnce      bool    // its motors lose their current at each rest, without a delay
	SinglePrecision bool    // positions have 24 bits

	// How it talks.
	Greeting     string // how the line begins that it greets with; "" = it does not greet
	ResetsOnOpen bool   // opening the port starts it anew
	Status       byte   // real-time bytes; 0 = has none
	Hold         byte
	Resume       byte
	Abort        byte
	HomeLine     string // the line that homes every axis without a line of its own; "" = none
	UnlockLine   string // the line that clears an alarm; "" = none
	SettingsLine string // the line that makes it print its settings; "" = none
	JogLine      string // how a line begins that moves it by hand, apart from programs; "" = has none
	JogCancel    byte   // real-time byte that ends such moves and forgets them; 0 = has none

	// Filled are the keys that the rig file leaves out, so that what its kind usually
	// has stands in.
	Filled []string

	// What it is.
	Letters string               // of its axes; "" = not stated
	Reports SettingNames         // of the settings that concern all axes
	Stated  [SettingCount]Stated // what the rig file says they are

	Buttons Buttons // of one that is not driven
}

// Jogs tells whether it moves by hand in a way of its own: by lines that a byte ends at
// once, and with reports that say when it rests.
func (c Controller) Jogs() bool { return c.JogLine != "" && c.JogCancel != 0 && c.Status != 0 }

// HomeLineOf returns the line that homes an axis, or "" where none does. An
// endless axis is homed by a line of its own alone: any angle will do for it.
func (c Controller) HomeLineOf(a Axis) string {
	switch {
	case a.HomeLine != "":
		return a.HomeLine
	case a.NoSwitch || a.Endless:
		return ""
	}
	return c.HomeLine
}

// AxisSettings are the controller's own settings for one axis.
type AxisSettings struct {
	Acceleration float64 // units/s2 its planner uses; default the axis' limit
	Speed        float64 // units/s it caps at; default the axis' limit
	// Names under which it prints its settings, such as "$100"; "" = unknown.
	StepsName, SpeedName, AccelerationName, TravelName string
}

// Default is one value the rig file left out and the program filled in.
type Default = source.Default
