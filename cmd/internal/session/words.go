package session

import (
	"errors"
	"fmt"
	"io"

	"seamrail/cmd/internal/console"
	"seamrail/cmd/internal/exit"
	"seamrail/export/drive"
	"seamrail/export/header"
	"seamrail/export/report/planreport"
	"seamrail/motion/plain"
)

// head says what is about to be done, and what to mind.
func (s *session) head() error {
	p, where := s.job.Plan, "at "+s.o.Port
	if s.o.Virtual {
		where = "made of software"
	}
	rounds := plain.Counted(p.Rounds, "round")
	if s.o.Endless {
		rounds = "rounds until stopped"
	}
	h := s.job.Headline()
	text := fmt.Sprintf("%s, on %s %s: %s of %.3f s, plan %s.\n%s: %s\n%s\n", header.Clean(p.Title), header.Clean(p.Rig.Name), where,
		rounds, s.job.Trajectory.Period().Float(), p.Hash(), h.Stamp, header.Clean(h.Words), console.NoEmergencyStop)
	if s.o.Confirmed {
		for _, c := range planreport.Cautions(p) {
			text += "  ! " + header.Clean(c) + "\n"
		}
	}
	_, err := io.WriteString(s.out, console.Folded(text+s.cuesHead(s.options(nil))+s.lastTime(), s.o.Terminal.width()))
	return err
}

// lastTime says what the log tells of the last run on a rig of metal, to whoever is
// about to drive one.
func (s *session) lastTime() string {
	if s.o.Virtual {
		return ""
	}
	if k, cut := s.before.LastCut(); cut {
		return fmt.Sprintf("Take %d was cut short: where the rig stands is not known from then.\n", k.Number)
	}
	if s.before.Real() > 0 && !s.before.Known {
		return "The last run ended without knowing where the rig stands.\n"
	}
	return ""
}

// ended says how the run ended, as an error where it is one.
func (s *session) ended(r drive.Result) error {
	if err := r.Err(); err != nil {
		return &exit.RigError{Err: fmt.Errorf("%w\nwhere the rig stands is not known: home it, or place it by hand, before it moves again", err)}
	}
	words := "Where the rig stands is known."
	if !r.Known {
		words = "Where the rig stands is not known."
	}
	if _, err := fmt.Fprintf(s.out, "Ended: %s, %s. %s\n", r.End, plain.Counted(r.Takes, "take"), words); err != nil {
		return err
	}
	if err := s.cutShort(r); err != nil {
		return err
	}
	if s.o.KeepRate {
		return s.keepRate()
	}
	return nil
}

// cutShort is an error where the operator ended the last take before its time: an
// abort, which loses position, is the rig's until it is known again.
func (s *session) cutShort(r drive.Result) error {
	last := drive.Finished
	if n := len(s.passes); n > 0 {
		last = s.passes[n-1].End
	}
	switch {
	case s.told.Load() || last == drive.Stopped || last == drive.Aborted && r.Known:
		stopped := &exit.StoppedError{}
		if why := s.why.Load(); why != nil {
			stopped.Why = *why
		}
		return stopped
	case last == drive.Aborted:
		return &exit.RigError{Err: errors.New("aborted: home the rig, or place it by hand, before it moves again")}
	}
	return nil
}
