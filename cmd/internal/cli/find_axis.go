package cli

import (
	"cmp"
	"slices"

	"seamrail/motion/shot"
	"seamrail/motion/source"
)

// axisFinder names the first axis of a shot file with a move, so that "--to"
// speaks of the axis that goes there and back. It reads the shape of the file
// alone: a value that is wrong elsewhere does not change whom a flag means.
func (f *ShotFlags) axisFinder(name string, data []byte) func(string) string {
	var raw shot.Raw
	source.Read(data, nil, &raw, &source.Report{File: name})
	return func(move string) string {
		if f.Axis != "" {
			return f.Axis
		}
		var names []string
		for axis, a := range raw.Axis {
			if a.Move.Text == move {
				names = append(names, axis)
			}
		}
		slices.SortFunc(names, func(a, b string) int {
			return cmp.Compare(raw.Axis[a].Place.Line, raw.Axis[b].Place.Line)
		})
		switch {
		case len(names) > 0:
			return names[0]
		case move == turn:
			return tableAxis
		}
		return railAxis
	}
}
