package plan

import (
	"slices"
	"strings"

	"seamrail/motion/base/fault"
	"seamrail/motion/base/list"
	"seamrail/motion/move"
	"seamrail/motion/scene"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// notOnRig is said of an axis that a shot moves and its rig does not have.
const notOnRig = "is not on the rig"

// Lack is an axis or a stand that a shot asks for and its rig does not have.
type Lack struct {
	Name    string
	Stand   bool   // a display stand
	Remains string // what of the shot remains without all that the rig lacks; "" where nothing moves
}

// Is tells whether a fault says that the rig has it not.
func (l Lack) Is(f fault.Fault) bool {
	if l.Stand {
		return f.Quantity == standPath(l.Name) && strings.HasPrefix(f.Bound, noStand)
	}
	return f.Axis == l.Name && f.Quantity == notOnRig
}

// Lacking lists what a shot asks for and the rig does not have, in the order of the shot.
// A rig without axes, which could not be read, lacks nothing that could be told.
func Lacking(s shot.Shot, r rig.Rig) []Lack {
	if len(r.Axes) == 0 {
		return nil
	}
	var out []Lack
	for _, m := range s.Axes {
		if _, there := r.Axis(m.Name); !there {
			out = append(out, Lack{Name: m.Name})
		}
	}
	for _, one := range s.Spins {
		if _, there := r.Stand(one.Name); !there {
			out = append(out, Lack{Name: one.Name, Stand: true})
		}
	}
	words := remaining(s, list.Map(out, func(l Lack) string { return l.Name }))
	for i := range out {
		out[i].Remains = words
	}
	return out
}

// remaining says what a shot still does without some of its axes and stands, and what the
// picture then lacks.
func remaining(s shot.Shot, gone []string) string {
	var moves []string
	left := func(name string) bool { return !slices.Contains(gone, name) }
	for _, m := range s.Axes {
		if f, follows := m.Does.(move.Follower); follows && !left(f.Carriage()) {
			gone = append(gone, m.Name)
		}
	}
	for _, m := range s.Axes {
		if left(m.Name) {
			moves = append(moves, "the "+m.Kind()+" of "+m.Name)
		}
	}
	if len(moves) == 0 {
		return ""
	}
	words := strings.Join(moves, ", ")
	if s.Scene == nil {
		return words
	}
	if table := s.Scene.Stand.TableAxis; table != "" && !left(table) {
		words += ", and the product then shows one face"
	}
	slides := s.Scene.Stand.Slides
	if len(slides) > 0 && !slices.ContainsFunc(slides, func(x scene.Slide) bool { return left(x.Axis) }) {
		words += ", and the camera then stays where it is"
	}
	return words
}
