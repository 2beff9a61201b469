package session

import (
	"errors"

	"seamrail/cmd/internal/deadman"
	"seamrail/export/drive"
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
		r := kept(w, o)
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
		if takes > 0 {
			s.from, o.FromFrame = 0, 0
		}
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
	s.takes(j)
	s.shooting(o, source)
	return nil
}
