package job

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"seamrail/motion/base/source"
	"seamrail/motion/move"
	"seamrail/motion/plan/reach"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// axisFinder names the first axis of a shot file with a move, so that "--to"
// speaks of the axis that goes there and back. It reads the shape of the file
// alone: a value that is wrong elsewhere does not change whom a flag means.
func (x Source) axisFinder(name string, data []byte) func(*Spoken) string {
	var raw shot.Raw
	source.Read(data, nil, &raw, &source.Report{File: name})
	return func(of *Spoken) string {
		if x.Axis != "" {
			return x.Axis
		}
		var names []string
		for axis, a := range raw.Axis {
			if a.Move.Text == of.Move {
				names = append(names, axis)
			}
		}
		slices.SortFunc(names, func(a, b string) int {
			return cmp.Compare(raw.Axis[a].Place.Line, raw.Axis[b].Place.Line)
		})
		if len(names) > 0 {
			return names[0]
		}
		return of.Axis
	}
}

// overrides are the values in place of those of a shot whose axes are looked up with
// axisOf.
func (x Source) overrides(axisOf func(*Spoken) string) []source.Override {
	var out []source.Override
	for _, v := range x.Over {
		path := v.Key
		if v.Of != nil {
			path = source.Join("axis", axisOf(v.Of)) + "." + v.Key
		}
		out = append(out, source.Override{Path: path, Text: v.Text, Origin: v.Origin})
	}
	return out
}

// Spoken is the axis that values of a move speak of: the first with that move, and in a
// shot that has none with it the axis of that name.
type Spoken struct{ Move, Axis string }

// What values without an axis speak of.
var (
	Rail  = &Spoken{move.ThereAndBackKeys{}.Name(), "rail"}
	Table = &Spoken{move.TurnKeys{}.Name(), "table"}
)

// Axis picks the axis that was named, or the first that goes there and
// back, or the first of the rig, with how it goes there and back.
func Axis(s shot.Shot, r rig.Rig, name string) (rig.Axis, reach.Shuttle, error) {
	if name == "" && len(r.Axes) > 0 {
		name = r.Axes[0].Name
		for _, m := range slices.Backward(s.Axes) {
			if _, goes := reach.ShuttleOf(m); goes {
				name = m.Name
			}
		}
	}
	axis, ok := r.Axis(name)
	if !ok {
		return rig.Axis{}, reach.Shuttle{}, fmt.Errorf("--axis %q is not on the rig; it has %s",
			name, strings.Join(r.Names(), ", "))
	}
	m, _ := s.Axis(name)
	if own, goes := reach.ShuttleOf(m); goes {
		return axis, own, nil
	}
	return axis, reach.Plain(axis), nil
}
