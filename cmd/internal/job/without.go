package job

import (
	"fmt"
	"slices"
	"strings"

	"seamrail/motion/base/fault"
	"seamrail/motion/base/source"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// withoutFlag names axes and stands that are left out.
const withoutFlag = "--without"

// leftOut takes the axes and stands out of a shot file that are to be left out of it. It
// is a fault where the file has none of that name, and where a value speaks of one.
func (x Source) leftOut(name string, data []byte, over []source.Override) (gone []source.Override, faults fault.List) {
	if len(x.Without) == 0 {
		return nil, nil
	}
	var raw shot.Raw
	source.Read(data, nil, &raw, &source.Report{File: name})
	has := slices.Concat(
		source.InOrder(raw.Axis, func(a move.Raw) source.Place { return a.Place }),
		source.InOrder(raw.Spin, func(s shot.RawSpin) source.Place { return s.Place }))
	for i, out := range x.Without {
		path := source.Join("axis", out)
		if _, stand := raw.Spin[out]; stand {
			path = source.Join("spin", out)
		}
		switch {
		case slices.Contains(x.Without[:i], out): // said twice
		case !slices.Contains(has, out):
			faults = append(faults, fault.Fault{File: withoutFlag, Quantity: fmt.Sprintf("%q", out),
				Bound: "is no axis and no stand of the shot", Fit: "it has " + strings.Join(has, ", ")})
		default:
			gone = append(gone, source.Override{Path: path, Origin: withoutFlag, Gone: true})
		}
		for _, o := range over {
			if strings.HasPrefix(o.Path, path+".") {
				faults = append(faults, fault.Fault{File: o.Origin, Axis: out, Quantity: "is left out",
					Bound: "by " + withoutFlag, Fit: "leave one of the two flags away"})
			}
		}
	}
	return gone, faults
}

// lacking adds to the faults of what a shot asks of a rig and the rig has not what would
// remain without it, and how to have that.
func lacking(faults fault.List, s shot.Shot, r rig.Rig) fault.List {
	for _, l := range plan.Lacking(s, r) {
		i := slices.IndexFunc(faults, l.Is)
		if i < 0 {
			continue
		}
		if l.Remains == "" {
			faults[i].Fit += "; without it nothing of the shot would move"
			continue
		}
		faults[i].Fit += fmt.Sprintf("; %s %s leaves it out: what remains is %s", withoutFlag, l.Name, l.Remains)
	}
	return faults
}
