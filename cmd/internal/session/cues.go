package session

import (
	"fmt"
	"iter"

	"seamrail/cmd/internal/logbook"
	"seamrail/export/drive"
	"seamrail/export/header"
	"seamrail/motion/cue"
)

// cue has the hands of the shot counted to their moments, and the take counted
// in for as long as that needs.
func (s *session) cue(o *drive.Options) {
	o.Beats, o.Call, o.Shifts, o.CountIn = nil, nil, nil, s.o.CountIn
	if len(s.job.Cues.Cues) == 0 {
		return
	}
	sheet := logbook.WithHabits(s.job.Cues, s.before)
	o.Beats = func(rounds int64) (func() (drive.Beat, bool), func()) { return iter.Pull(beats(sheet, rounds)) }
	o.Call = func(b drive.Beat) { s.Call(b) }
	if s.called != nil {
		o.Call = s.called
	}
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
