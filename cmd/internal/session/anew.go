package session

import (
	"errors"
	"fmt"

	"seamrail/cmd/internal/console"
	"seamrail/cmd/internal/deadman"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/textfile"
	"seamrail/export/drive"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/spec/shot"
)

// run drives, and holds what moves should it panic.
func (s *session) run(w drive.World, o drive.Options) (r drive.Result) {
	deadman.Guard(func() { r = s.goOn(w, o) })
	return r
}

// goOn drives, and plans anew and goes on where marks have changed the shot.
func (s *session) goOn(w drive.World, o drive.Options) drive.Result {
	takes := 0
	for {
		r := drive.Run(w, o)
		takes += r.Takes
		if !s.anew.Swap(false) || r.End != drive.Quitted || !r.Known {
			r.Takes = takes
			return r
		}
		if err := s.plan(&o, r); err != nil {
			s.Say(err.Error())
			s.Say("The shot is not one to run as it is: set its ends anew, or leave and change it.")
		} else {
			s.Say("Planned anew: plan " + s.job.Plan.Hash() + ".")
		}
		o.Settle, o.At = drive.AsBefore, r.At
		o.FirstTake += r.Takes
	}
}

// plan reads the shot again and plans it, or takes what it was handed, for a run that
// follows r. Where it cannot be, the options stay as they are.
func (s *session) plan(o *drive.Options, r drive.Result) error {
	j := s.next.Load()
	if j == nil {
		var err error
		if j, err = s.o.Source.Job(nil); err != nil {
			return err
		}
	}
	if err := j.Unable(); err != nil {
		return err
	}
	if len(j.Plan.Axes) != len(r.At) {
		return errors.New("the shot has other axes now; drive it from the beginning")
	}
	before := s.job
	s.job = j
	source, err := s.program()
	if err != nil {
		s.job = before
		return err
	}
	if j.Rig.Controller.RateError != before.Rig.Controller.RateError {
		s.passes = nil // they were told with another one
	}
	s.changed.Store(false)
	s.runs.Store(runOf(j))
	s.shooting(o, source)
	return nil
}

// mark writes where an axis stands into the shot.
func (s *session) mark(name string, axis int, at float64) (string, error) {
	text, err := mark(s.o.Source.Shot, s.job.Plan.Axes[axis], name, at)
	if err == nil {
		s.changed.Store(true)
	}
	return text, err
}

// markKey returns the key of the shot file that a mark sets, or why there is
// none.
func markKey(m shot.AxisMove, name string) (string, error) {
	key, instead := m.Does.Mark(name != console.Start)
	if key == "" {
		return "", fmt.Errorf("axis %s: a %s has no end to set; change its %s in the shot", m.Name, m.Kind(), instead)
	}
	return key, nil
}

// markGrain is what a mark is rounded to, in mm or degrees: the finest that
// controllers report.
const markGrain = 0.001

// markText is a place as the shot file has it.
func markText(a plan.Axis, at float64) string {
	dim := unit.Length
	if a.Rig.Unit() == "deg" {
		dim = unit.Angle
	}
	return move.Place(at, markGrain, dim)
}

// mark writes where an axis stands into the shot file, and says so. A shot that
// would no longer be one is not written.
func mark(file string, a plan.Axis, name string, at float64) (string, error) {
	key, err := markKey(a.Move, name)
	if err != nil {
		return "", err
	}
	text := markText(a, at)
	if file == "" || file == "-" {
		return "", fmt.Errorf("axis %s stands at %s; there is no shot file to write it to: \"seamrail new\" makes one", a.Rig.Name, text)
	}
	sound := func(data []byte) error {
		_, err := job.Files.Decode(file, data, nil)
		return err
	}
	path := source.Join("axis", a.Rig.Name) + "." + key
	if err := textfile.Rewrite(file, "not written: ", sound, textfile.Value{Path: path, Text: text}); err != nil {
		return "", err
	}
	return fmt.Sprintf("axis %s: %s = %q is now in %s", a.Rig.Name, key, text, file), nil
}
