package job

import (
	"fmt"
	"io"
	"path/filepath"

	"seamrail/cmd/internal/starter"
	"seamrail/cmd/internal/textfile"
	"seamrail/motion/base/fault"
	"seamrail/motion/spec/filekind"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// Source says where a shot comes from, and what takes the place of what it says.
type Source struct {
	Shot  string  // file name; "" for the built-in shot, textfile.Stdin for standard input
	Rig   string  // file name that takes the place of the shot's rig
	Axis  string  // the axis that values of a move speak of; "" for the first that has it
	Over  []Value // in place of values in the file
	Ahead bool    // what the controller makes of the shot will be asked for
}

// Value takes the place of one in a shot.
type Value struct {
	Key    string  // of the shot, or of an axis
	Of     *Spoken // what axis has the key; nil for keys outside the axes
	Text   string
	Origin string // where it was given, for faults
}

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
	s, faults := shot.Understand(name, data, x.overrides(x.axisFinder(name, data)))
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
	case x.bare():
		return bareName, []byte(bareShot), nil
	case x.Shot == "":
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
	case s.Rig != nil || x.Shot == "":
		return ""
	case x.Shot == "-" || filepath.IsAbs(s.RigFile):
		return s.RigFile
	}
	return filepath.Join(filepath.Dir(x.Shot), s.RigFile)
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
