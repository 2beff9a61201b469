package session

import (
	"errors"
	"fmt"
	"io"
	"iter"

	"seamrail/cmd/internal/console"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/logbook"
	"seamrail/export/drive"
	"seamrail/export/header"
	"seamrail/export/report/planreport"
	"seamrail/motion/base/plain"
	"seamrail/motion/cue"
)

// head says what is about to be done, and what to mind.
func (s *session) head() error {
	p, where := s.job.Plan, "at "+s.o.Port
	if s.o.Virtual {
		where = "made of software"
	}
	rounds := plain.Count(p.Rounds, "round")
	if s.o.Endless {
		rounds = "rounds until stopped"
	}
	pace := fmt.Sprintf("%s of %.3f s", rounds, s.job.Trajectory.Period().Float())
	if f := s.job.Schedule; f != nil {
		pace = plain.Count(f.Frames(), "frame") + ", one by one"
	}
	h := s.job.Headline()
	text := fmt.Sprintf("%s, on %s %s: %s, plan %s.\n%s: %s\n%s\n", header.Clean(p.Title), header.Clean(p.Rig.Name), where,
		pace, p.Hash(), h.Stamp, header.Clean(h.Words), console.NoEmergencyStop)
	for _, c := range planreport.Cautions(p, s.job.Schedule) { // keys move it before a take asks for the word
		text += "  ! " + header.Clean(c) + "\n"
	}
	_, err := io.WriteString(s.out, console.Folded(text+s.framesHead()+s.syncHead()+s.cuesHead(s.options(nil))+s.drivenBy()+s.lastTime()+s.leftOff(), s.o.Terminal.width()))
	return err
}

// lastTime says what the log tells of the last run on a rig of metal, to whoever is
// about to drive one; to whoever practises, what such a rig would wait for.
func (s *session) lastTime() string {
	if s.o.Virtual {
		return s.homesHere()
	}
	if k, cut := s.before.LastCut(); cut {
		return fmt.Sprintf("Take %d was cut short: where the rig stands is not known from then.\n", k.Number)
	}
	if s.before.Real() > 0 && !s.before.Known {
		return "The last run ended without knowing where the rig stands.\n"
	}
	return ""
}

// homesHere says of a rig of software that homes itself that one of metal does not.
func (s *session) homesHere() string {
	if s.o.Home || s.settling() != drive.ByHoming {
		return ""
	}
	how := "h, or --home"
	if s.called != nil { // steered by the page, whose button says so
		how = "Find the switches"
	}
	return "Made of software, it homes itself. A rig of metal stands until it is homed: " + how + ".\n"
}

// ended says how the run ended, as an error where it is one.
func (s *session) ended(r drive.Result) error {
	if err := r.Err(); err != nil {
		return exit.Failed("%w%s\nwhere the rig stands is not known: home it, or place it by hand, before it moves again", err, s.unheard(r))
	}
	words := "Where the rig stands is known."
	if !r.Known {
		words = "Where the rig stands is not known."
	}
	takes := ", " + plain.Count(r.Takes, "take")
	if s.o.ByHand {
		takes = ""
	}
	if _, err := fmt.Fprintf(s.out, "Ended: %s%s. %s\n", r.End, takes, words); err != nil {
		return err
	}
	if err := errors.Join(s.cutShort(r), s.unmoved()); err != nil {
		return err
	}
	if s.o.KeepRate {
		return s.keepRate()
	}
	return nil
}

// unheard says who finds out more where a port never gave the answer of this rig.
func (s *session) unheard(r drive.Result) string {
	never := r.End == drive.Silent || r.End == drive.Garbled || r.End == drive.Foreign
	if !never || r.Takes > 0 || s.o.Virtual {
		return ""
	}
	return fmt.Sprintf("\n\"seamrail connect --port %s\" tells what answers there, and what to do where nothing does", s.o.Port)
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
		if why := s.why.Load(); why != nil {
			return exit.Told(*why)
		}
		return exit.Told(nil)
	case last == drive.Aborted:
		return exit.Failed("aborted: home the rig, or place it by hand, before it moves again")
	}
	return nil
}

// cue has the hands of the shot counted to their moments, and the take counted
// in for as long as that needs.
func (s *session) cue(o *drive.Options) {
	o.Beats, o.Call, o.Shifts, o.CountIn = nil, nil, nil, s.o.CountIn
	s.sync(o)
	if len(s.job.Cues.Cues) == 0 {
		return
	}
	sheet := logbook.WithHabits(s.job.Cues, s.before)
	o.Beats = func(rounds int64) (func() (drive.Beat, bool), func()) { return iter.Pull(beats(sheet, rounds)) }
	o.Call = s.calls()
	o.Shifts = logbook.Shifts(sheet)
	o.CountIn = max(o.CountIn, int(sheet.Needs(o.Rounds)))
}

// beats are those of a sheet in the engine's words.
func beats(s cue.Sheet, rounds int64) iter.Seq[drive.Beat] {
	return func(yield func(drive.Beat) bool) {
		for b := range s.Beats(rounds) {
			c := s.Cues[b.Cue]
			text := header.Clean(c.Name) + ", " + header.Clean(cue.Called(c.Hand))
			if !yield(drive.Beat{At: b.At.Float(), Text: text, Left: b.Left}) {
				return
			}
		}
	}
}

// cuesHead says before a run what hands have to do, and how they are counted.
func (s *session) cuesHead(o drive.Options) string {
	if o.Beats == nil {
		return ""
	}
	text := ""
	sheet := logbook.WithHabits(s.job.Cues, s.before)
	for _, c := range sheet.Cues {
		text += fmt.Sprintf("Cue: %s, %s, %s: %s, told %s.\n", header.Clean(c.Name), header.Clean(cue.Called(c.Hand)), c.InRounds(), sheet.Seen(c), c.Told())
	}
	for _, c := range sheet.Cautions(o.Rounds) {
		text += "  ! " + header.Clean(c) + "\n"
	}
	if o.CountIn > s.o.CountIn {
		text += fmt.Sprintf("The count-in is %d s, so that every count is heard from its beginning.\n", o.CountIn)
	}
	return text
}
