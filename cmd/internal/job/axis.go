package job

import (
	"cmp"
	"slices"

	"seamrail/motion/shot"
	"seamrail/motion/source"
)

// axisFinder names the first axis of a shot file with a move, so that "--to"
// speaks of the axis that goes there and back. It reads the shape of the file
// alone: a value that is wrong elsewhere does not change whom a flag means.
func (x Source) axisFinder(name string, data []byte) func(string) string {
	var raw shot.Raw
	source.Read(data, nil, &raw, &source.Report{File: name})
	return func(move string) string {
		if x.Axis != "" {
			return x.Axis
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
		case move == shot.Turn:
			return tableAxis
		}
		return railAxis
	}
}

// overrides are the values in place of those of a shot whose axes are looked up with
// axisOf: it names the axis that has a move.
func (x Source) overrides(axisOf func(move string) string) []source.Override {
	var out []source.Override
	for _, v := range x.Over {
		path := v.Key
		if v.Move != "" {
			path = source.Join("axis", axisOf(v.Move)) + "." + v.Key
		}
		out = append(out, source.Override{Path: path, Text: v.Text, Origin: v.Origin})
	}
	return out
}

// The axes that values of a move mean in a shot that has none with it.
const (
	railAxis  = "rail"
	tableAxis = "table"
)
