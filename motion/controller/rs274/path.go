package rs274

import (
	"math"

	"seamrail/motion/spec/rig"
)

// Path measures the length that a per-minute feed counts.
type Path struct {
	all    bool
	linear []bool    // words X Y Z
	weight []float64 // of each axis where all are counted
}

// pathOf tells linear axes by their words, not by what they move: a controller
// that has X Y Z alone turns its table with one of them.
func pathOf(c rig.Controller, axes []rig.Axis) Path {
	p := Path{all: c.PathFeed == rig.AlongAll}
	for _, a := range axes {
		linear := IsLinear(a.Letter)
		p.linear = append(p.linear, linear)
		p.weight = append(p.weight, Weight(c, a))
	}
	return p
}

// IsLinear tells whether a controller takes the axis of this word for a linear
// one.
func IsLinear(letter string) bool { return letter == "X" || letter == "Y" || letter == "Z" }

// Weight returns the mm that a unit of the axis counts as in a controller's
// own path: 1, or what a degree counts as where the word is a rotary one.
func Weight(c rig.Controller, a rig.Axis) float64 {
	if c.DegreeAs > 0 && a.Kind == rig.Rotary && !IsLinear(a.Letter) {
		return c.DegreeAs
	}
	return 1
}

// Length is one vector of all axes, or that of X Y Z if any of them moves,
// else that of the other axes (NISTIR 6556, section 2.1.2.5).
func (p Path) Length(delta []float64) float64 {
	linear, others := 0.0, 0.0
	for i, d := range delta {
		d *= p.weight[i]
		if p.linear[i] {
			linear += d * d
		} else {
			others += d * d
		}
	}
	switch {
	case p.all:
		return math.Sqrt(linear + others)
	case linear > 0:
		return math.Sqrt(linear)
	}
	return math.Sqrt(others)
}
