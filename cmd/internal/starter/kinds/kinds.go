// Package kinds holds the kinds of shot that a person starts from. A kind is a shot file
// made of pieces (shots/*.tmpl), with a small story, that plans as it stands on the
// built-in rig; it asks five numbers, and puts the answers, and what follows from them,
// in the place of those of the file. Nothing here knows a terminal: the questions are
// values, to be asked wherever one likes.
package kinds

import (
	"fmt"
	"slices"
	"strings"

	"seamrail/cmd/internal/starter"
	"seamrail/motion/base/list"
	"seamrail/motion/spec/rig"
)

// Kind is a kind of shot.
type Kind struct {
	Name string // as it is typed
	Line string // what it shows, in less than a line

	stand  bool                        // it is filmed on a display stand
	byHand bool                        // a rig that takes two ends and a time can film it
	needs  func(Bench) error           // nil where a rail is enough
	asks   func(Bench) []Question      // five of them
	suits  func(Bench, Answers) string // the loop to begin with, where that follows from other answers; nil where it does not
	sets   func(Bench, numbers) sets   // what follows from the answers
}

// All returns the kinds, in the order in which they are offered.
func All() []Kind { return slices.Clone(all) }

// ByHand returns those that a rig films on which two ends and a time are set.
func ByHand() []Kind { return slices.DeleteFunc(All(), func(k Kind) bool { return !k.byHand }) }

// Names are the names of all kinds.
func Names() []string { return list.Map(all, func(k Kind) string { return k.Name }) }

// Named finds a kind by its name.
func Named(name string) (Kind, bool) {
	i := slices.IndexFunc(all, func(k Kind) bool { return k.Name == name })
	if i < 0 {
		return Kind{}, false
	}
	return all[i], true
}

// ShotName is what the file of the shot is called.
func (k Kind) ShotName() string { return k.Name + ".toml" }

// Bench is what of a rig a shot is filmed with.
type Bench struct {
	Rig   rig.Rig
	Rail  rig.Axis  // that carries the camera; without a name where there is none
	Table string    // the axis that turns the lantern; "" where there is none
	Stand rig.Stand // a display stand; without a name where there is none
}

// BenchOf picks the axes of a rig by their names, or else by what they are: the first
// that slides, and the first that turns without end. Without table there is none.
func BenchOf(r rig.Rig, table bool) Bench {
	b := Bench{Rig: r}
	b.Rail = pick(r, railName, func(a rig.Axis) bool { return a.Kind == rig.Linear })
	if table {
		b.Table = pick(r, tableName, func(a rig.Axis) bool { return a.Kind == rig.Rotary && (a.Endless || a.Name == tableName) }).Name
	}
	if len(r.Stands) > 0 {
		b.Stand = r.Stands[0]
	}
	return b
}

// What the axes of the built-in rig are called.
const (
	railName  = "rail"
	tableName = "table"
)

func pick(r rig.Rig, name string, does func(rig.Axis) bool) rig.Axis {
	if a, ok := r.Axis(name); ok && does(a) {
		return a
	}
	if i := slices.IndexFunc(r.Axes, does); i >= 0 {
		return r.Axes[i]
	}
	return rig.Axis{}
}

// Suits is an error where the kind cannot be filmed with what the bench has: it says
// what it needs, and what would do instead.
func (k Kind) Suits(b Bench) error {
	if !b.Rig.Controller.Kind.Driven() && !k.byHand {
		names := list.Map(ByHand(), func(k Kind) string { return k.Name })
		return fmt.Errorf("%s needs a rig that is driven, and %q takes two ends and a time by hand: %s would do", k.Name, b.Rig.Name, strings.Join(names, " or "))
	}
	if k.needs != nil {
		return k.needs(b)
	}
	if b.Rail.Name == "" {
		return fmt.Errorf("%s needs an axis that slides, and the rig %q has %s", k.Name, b.Rig.Name, axesOf(b.Rig))
	}
	return nil
}

func axesOf(r rig.Rig) string {
	if len(r.Axes) == 0 {
		return "no axis"
	}
	return "only " + strings.Join(r.Names(), ", ")
}

// BuiltIn returns a rig file of the starter's as the kind is filmed with it: with the
// stand that it has behind marks, where the kind wants one, and without a table, where
// there is to be none.
func (k Kind) BuiltIn(rigText []byte, table bool) []byte {
	if !table {
		rigText = starter.WithoutTable(rigText)
	}
	if k.stand {
		rigText = starter.WithStand(rigText)
	}
	return rigText
}

// turnable wants an axis that turns the lantern.
func turnable(name string) func(Bench) error {
	return func(b Bench) error {
		if b.Table != "" {
			return nil
		}
		return fmt.Errorf("%s needs a turntable, an axis that turns without an end; without one, display-stand films a stand that turns by itself, and there-and-back moves the camera alone", name)
	}
}

// standing wants a rail and a display stand.
func standing(b Bench) error {
	switch {
	case b.Stand.Name == "":
		return fmt.Errorf("display-stand needs a stand that turns by itself, and the rig %q states none: add [stand.display] with its speeds; \"seamrail help turntable\" says how to time it", b.Rig.Name)
	case b.Rail.Name == "":
		return fmt.Errorf("display-stand needs an axis that slides as well, and the rig %q has %s", b.Rig.Name, axesOf(b.Rig))
	}
	return nil
}
