// Package places has what is marked on the rig: which places of a shot an axis can be put
// to, and what the shot then says. Nothing is written before it is known what that does.
package places

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"seamrail/cmd/internal/job"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/list"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/scene"
	"seamrail/motion/spec/shot"
)

// Place is a place of a shot that is found with an axis of the rig.
type Place struct {
	Axis  string // that is brought there
	Name  string // as it is typed: "from", "key 3", "lens"
	Path  string // of the value in the shot
	Means string // what is there
	Now   unit.Quantity
	// Begins and Ends tell whether the move of the axis itself does so there.
	Begins, Ends bool

	says func(at float64) float64
}

// grain is what a mark is rounded to, in mm or degrees: the finest that controllers
// report.
const grain = 0.001

// Says is what the text of a shot has to say for an axis that stands at a place, in mm or
// degrees, in the unit that it writes that value in now; and the file under the shot that
// has the value now, "" for the shot itself.
func (p Place) Says(at float64, s shot.Shot, text []byte, read func(file string) ([]byte, error)) (value, over string) {
	was, own := source.Value(text, p.Path)
	if s.Laid.Home != nil && !own {
		file, local := s.Laid.Home(p.Path)
		if data, err := read(file); file != "" && err == nil {
			was, _ = source.Value(data, local)
			over = file
		}
	}
	return unit.Like(was, math.Round(p.says(at)/grain)*grain, p.Now.Dim), over
}

// Lens is the name of the place at which the scene was measured.
const Lens = "lens"

// Of lists the places of a shot, axis by axis in the order of the plan.
func Of(j *job.Job) []Place {
	var out []Place
	for _, a := range j.Plan.Axes {
		for _, of := range j.Plan.Axes {
			for _, s := range of.Move.Does.Spots() {
				switch {
				case s.Of == "" && of.Rig.Name == a.Rig.Name:
					out = append(out, spot(a, a.Rig.Name, s.Name, s))
				case s.Of == a.Rig.Name:
					out = append(out, spot(a, of.Rig.Name, of.Rig.Name+" "+s.Name, s))
				}
			}
		}
		if j.Shot.Scene == nil {
			continue
		}
		for _, s := range j.Shot.Scene.Stand.Slides {
			if s.Axis == a.Rig.Name {
				out = append(out, lens(j, a, s))
			}
		}
	}
	return out
}

func spot(a plan.Axis, of, name string, s move.Spot) Place {
	return Place{
		Axis: a.Rig.Name, Name: name, Path: source.Join("axis", of) + "." + s.Key, Means: s.Means,
		Now:    unit.Quantity{Value: exact.FromFloat(s.Says(s.At.Float())), Dim: dimension(a)},
		Begins: s.Begins && s.Of == "", Ends: s.Ends && s.Of == "", says: s.Says,
	}
}

// lens is where the carriage stands while the camera has the distance that the scene
// states.
func lens(j *job.Job, a plan.Axis, s scene.Slide) Place {
	p := Place{
		Axis: a.Rig.Name, Name: Lens, Path: source.Join("scene", "axis", s.Axis) + ".measured-at", Means: "the lens stands as the scene says",
		Now: unit.Quantity{Value: exact.FromFloat(s.Zero), Dim: dimension(a)}, says: func(at float64) float64 { return at },
	}
	if d := j.Shot.Scene.Stand.Distance; d.Given {
		p.Means = "the lens is " + unit.Format(d.Value, unit.Length) + " from the table's axis"
	}
	return p
}

func dimension(a plan.Axis) unit.Dimension {
	if a.Rig.Unit() == "deg" {
		return unit.Angle
	}
	return unit.Length
}

// On are the places that are found with an axis.
func On(all []Place, axis string) []Place {
	var out []Place
	for _, p := range all {
		if p.Axis == axis {
			out = append(out, p)
		}
	}
	return out
}

// Find finds a place of an axis by its name, however it is spaced.
func Find(all []Place, axis, name string) (Place, error) {
	mine := On(all, axis)
	if len(mine) == 0 {
		axes := slices.Compact(list.Map(all, func(p Place) string { return p.Axis }))
		return Place{}, fmt.Errorf("there is no axis %q in this shot with a place to mark; there is %s", axis, strings.Join(axes, ", "))
	}
	for _, p := range mine {
		if tight(p.Name) == tight(name) {
			return p, nil
		}
	}
	names := list.Map(mine, func(p Place) string { return p.Name })
	if near := source.Nearest(name, names); near != "" {
		return Place{}, fmt.Errorf("axis %s has no place %q to mark; did you mean %q?", axis, name, near)
	}
	return Place{}, fmt.Errorf("axis %s has no place %q to mark; it has %s", axis, name, strings.Join(names, ", "))
}

// ByRole is the place at which the move of an axis begins, or ends.
func ByRole(all []Place, axis string, end bool) (Place, error) {
	for _, p := range On(all, axis) {
		if !end && p.Begins || end && p.Ends {
			return p, nil
		}
	}
	role := map[bool]string{false: "beginning", true: "end"}[end]
	names := strings.Join(list.Map(On(all, axis), func(p Place) string { return p.Name }), ", ")
	if names == "" {
		return Place{}, fmt.Errorf("axis %s has no place to mark", axis)
	}
	return Place{}, fmt.Errorf("axis %s: its move has no %s to mark; it has %s", axis, role, names)
}

func tight(name string) string { return strings.ToLower(strings.Join(strings.Fields(name), "")) }
