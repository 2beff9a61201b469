package rig

import "seamrail/motion/source"

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

// Controller is what the box that makes the steps can do.
type Controller struct {
	StepRate   float64   // steps/s on each axis; 0 = none stated
	Feed       FeedStyle // default InverseTime
	LineLength int       // longest line it reads, characters; default 80
	Decimals   int       // decimals of a coordinate word; default 3
}

// Rig is the whole machine.
type Rig struct {
	Name       string
	Axes       []Axis // in the order of the file
	Controller Controller
	Cautions   []string // what to know before it moves, in words
}

// Axis returns the axis called name.
func (r Rig) Axis(name string) (Axis, bool) {
	for _, a := range r.Axes {
		if a.Name == name {
			return a, true
		}
	}
	return Axis{}, false
}

// Names returns the names of the axes, in the order of the file.
func (r Rig) Names() []string {
	names := make([]string, len(r.Axes))
	for i, a := range r.Axes {
		names[i] = a.Name
	}
	return names
}

// Default is one value the rig file left out and the program filled in.
type Default = source.Default
