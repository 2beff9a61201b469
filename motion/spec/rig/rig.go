package rig

import "seamrail/motion/base/list"

// Rig is the whole machine.
type Rig struct {
	Name       string
	Axes       []Axis   // in the order of the file
	Stands     []Stand  // in the order of the file; they turn by themselves
	Outputs    []Output // in the order of the file; what the controller can switch
	Controller Controller
	Cautions   []string // what to know before it moves, in words
	Doubts     []Doubt  // lines of its file that are marked as guesses or questions, in their order
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
	return list.Map(r.Axes, func(a Axis) string { return a.Name })
}
