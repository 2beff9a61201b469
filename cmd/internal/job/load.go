package job

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"seamrail/cmd/internal/starter"
	"seamrail/cmd/internal/textfile"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/source"
	"seamrail/motion/cue"
	"seamrail/motion/cue/syncmark"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/plan/reach"
	"seamrail/motion/spec/filekind"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/setup"
	"seamrail/motion/spec/shot"
)

// Source says where a shot comes from, and what takes the place of what it says.
type Source struct {
	Shot string // file name; "" for the built-in shot, textfile.Stdin for standard input
	Rig  string // file name that takes the place of the shot's rig
	Axis string // the axis that values of a move speak of; "" for the first that has it
	// Without are axes and stands of the shot that are left out.
	Without []string
	Over    []Value // in place of values in the file
	Ahead   bool    // what the controller makes of the shot will be asked for
}

// Value takes the place of one in a shot.
type Value struct {
	Key    string  // of the shot, or of an axis
	Of     *Spoken // what axis has the key; nil for keys outside the axes
	Text   string
	Origin string // where it was given, for faults
}

// Files reads what lies under a shot beside it.
var Files = setup.Files{Open: textfile.Under}

// Job loads, plans and checks.
func (x Source) Job(in io.Reader) (*Job, error) {
	s, r, err := x.Load(in)
	if err != nil {
		return nil, err
	}
	return Plan(s, r, x.Ahead)
}

// Load reads the shot and the rig it names.
func (x Source) Load(in io.Reader) (shot.Shot, rig.Rig, error) {
	name, data, err := x.shotText(in)
	if err != nil {
		return shot.Shot{}, rig.Rig{}, err
	}
	return x.understood(name, data)
}

// JobOf is Job of a text in the place of the shot's file.
func (x Source) JobOf(text []byte) (*Job, error) {
	s, r, err := x.understood(x.Shot, text)
	if err != nil {
		return nil, err
	}
	return Plan(s, r, false)
}

// Instead is where a value was given that stands in the place of the one at a path of a
// text, "" where none does.
func (x Source) Instead(path string, text []byte) string {
	for _, o := range x.overrides(x.axisFinder(x.Shot, text)) {
		if o.Path == path {
			return o.Origin
		}
	}
	return ""
}

func (x Source) understood(name string, data []byte) (shot.Shot, rig.Rig, error) {
	over := x.overrides(x.axisFinder(name, data))
	gone, wrong := x.leftOut(name, data, over)
	s, faults := Files.Understand(name, data, slices.Concat(gone, over))
	faults = append(faults, wrong...)
	if len(faults) > 0 {
		if err := textfile.WrongKind(name, data, filekind.Shot); err != nil {
			return s, rig.Rig{}, err
		}
	}
	r, err := x.Joined(&s, faults)
	return s, r, err
}

func (x Source) shotText(in io.Reader) (string, []byte, error) {
	switch {
	case x.Shot == "":
		if b, ok := x.bare(); ok {
			return bareName, b.text(), nil
		}
		return starter.ShotName, starter.Shot(), nil
	case x.Shot == "-":
		data, err := io.ReadAll(io.LimitReader(in, textfile.Largest))
		return "stdin", data, err
	}
	data, err := textfile.Read(x.Shot)
	return x.Shot, data, err
}

// RigFile names the file that describes the rig of a shot: that of the source,
// or the one the shot names, which is beside it. It is "" for a rig inside the
// shot and for the built-in one.
func (x Source) RigFile(s shot.Shot) string {
	switch {
	case x.Rig != "":
		return x.Rig
	case s.Rig != nil || x.Shot == "" && s.RigFrom == "":
		return ""
	case x.Shot == textfile.Stdin && s.RigFrom == "":
		return s.RigFile
	}
	return textfile.Beside(cmp.Or(s.RigFrom, x.Shot), s.RigFile)
}

// loadRig reads the rig of a shot. A shot that does not say which has none.
func (x Source) loadRig(s *shot.Shot) (rig.Rig, fault.List, error) {
	switch {
	case x.Rig != "":
	case s.Rig != nil:
		return *s.Rig, nil, nil
	case s.RigFile == "":
		return rig.Rig{}, nil, nil
	}
	name, data := x.RigFile(*s), starter.Rig()
	var err error
	if name == "" {
		name = starter.RigName
	} else {
		data, err = textfile.Read(name)
	}
	if err != nil {
		return rig.Rig{}, nil, fmt.Errorf("the rig of the shot: %w", err)
	}
	r, defaults, faults := rig.Understand(name, data)
	if len(faults) > 0 {
		if err := textfile.WrongKind(name, data, filekind.Rig); err != nil {
			return rig.Rig{}, nil, fmt.Errorf("the rig of the shot: %w", err)
		}
	}
	s.Defaults = append(s.Defaults, defaults...)
	return r, faults, nil
}

// Joined reads the rig of a shot and tells all that is wrong with the two.
func (x Source) Joined(s *shot.Shot, faults fault.List) (rig.Rig, error) {
	r, wrong, err := x.loadRig(s)
	faults = append(append(faults, wrong...), x.onRig(*s, r)...)
	if all := cue.Beside(faults, *s, r); len(all) > 0 {
		return r, errors.Join(lacking(append(all, syncmark.Beside(*s, r)...), *s, r).Err(), err)
	}
	return r, err
}

// withCues adds to the faults of a plan those of the cues that it does not hide.
func withCues(err error, s shot.Shot, r rig.Rig) error {
	p, _ := plan.Partly(s, r)
	err = atOnce(err, cue.Partly(p, s).Err(), syncmark.Beside(s, r).Err())
	var list fault.List
	if errors.As(err, &list) {
		return lacking(list, s, r).Err()
	}
	return err
}

// atOnce is several lists of faults as one, which is sorted.
func atOnce(errs ...error) error {
	var all fault.List
	for _, err := range errs {
		var list fault.List
		switch {
		case errors.As(err, &list):
			all = append(all, list...)
		case err != nil:
			return errors.Join(errs...)
		}
	}
	return all.Err()
}

// onRig is the fault of an axis that the flags name and neither shot nor rig has.
func (x Source) onRig(s shot.Shot, r rig.Rig) fault.List {
	_, moves := s.Axis(x.Axis)
	_, there := r.Axis(x.Axis)
	if x.Axis == "" || moves || there || len(r.Axes) == 0 {
		return nil
	}
	return fault.List{{
		File: "--axis", Quantity: fmt.Sprintf("%q", x.Axis), Bound: "is not on the rig",
		Fit: "it has " + strings.Join(r.Names(), ", "),
	}}
}

// axisFinder names the first axis of a shot file with a move, so that "--to"
// speaks of the axis that goes there and back. It reads the shape of the file
// alone: a value that is wrong elsewhere does not change whom a flag means.
func (x Source) axisFinder(name string, data []byte) func(Value) string {
	if b, ok := x.bare(); ok {
		return b.of
	}
	var raw shot.Raw
	source.Read(data, nil, &raw, &source.Report{File: name})
	return func(v Value) string {
		of := v.Of
		if x.Axis != "" {
			return x.Axis
		}
		var names []string
		for axis, a := range raw.Axis {
			if a.Move.Text == of.Move && !slices.Contains(x.Without, axis) {
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
func (x Source) overrides(axisOf func(Value) string) []source.Override {
	var out []source.Override
	if b, ok := x.bare(); ok {
		out = b.moves()
	}
	for _, v := range x.Over {
		path := v.Key
		if v.Of != nil {
			path = source.Join("axis", axisOf(v)) + "." + v.Key
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
