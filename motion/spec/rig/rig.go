package rig

// Rig is the whole machine.
type Rig struct {
	Name       string
	Axes       []Axis  // in the order of the file
	Stands     []Stand // in the order of the file; they turn by themselves
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
