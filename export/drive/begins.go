package drive

import (
	"time"
)

// answered takes in the answer to a line of the pass.
func (s *stream) answered(t *talker, was sent) {
	p, line := s.pass, was.line
	if t.engine.pass != p {
		return
	}
	switch {
	case s.synced && line.Text == syncLine && s.held == nil && len(t.flight) == 0:
		s.ended = true
		p.executed = p.now.Sub(s.begun).Seconds() - syncSeconds
	case line.Round == setupRound:
		if dwell(line.Text) > 0 {
			s.filled = t.now
		}
	case p.zero.IsZero():
		s.beginning(t, line)
	default:
		p.dueAt(line.Start)
	}
	if line.Round != setupRound && line.Aim != nil {
		s.aim = line.Aim
	}
}

// beginning finds out when the motion begins. A controller that reads ahead
// begins to move once it has read all that it holds (measured on open firmware;
// one that begins at the first line does so up to 2 ms before). A dwell is
// answered at its end.
func (s *stream) beginning(t *talker, line *Line) {
	if s.first == nil {
		s.first = line
		if line.Moves {
			s.unread = t.sentBefore(s.filled)
		}
	} else {
		s.unread--
	}
	if s.unread > 0 {
		return
	}
	sec := s.first.Start
	if !s.first.Moves {
		sec = s.first.End
	}
	s.pass.anchor(sec)
	s.begun = s.pass.when(-s.pass.runUp)
}

// sentBefore returns how many of the lines in flight were sent before then.
func (t *talker) sentBefore(then time.Time) (n int) {
	for _, s := range t.flight {
		if s.at.Before(then) {
			n++
		}
	}
	return n
}

// answerBy is when a line of the pass should have been answered: when its
// motion begins, at the latest.
func (s *stream) answerBy(t *talker, was sent) time.Time {
	switch {
	case s.paused:
		return t.now.Add(never)
	case s.pass.zero.IsZero():
		return was.by
	}
	due := s.pass.when(was.line.Start).Add(patience)
	if was.by.After(due) {
		return was.by
	}
	return due
}

// reported compares a report with the plan.
func (s *stream) reported(t *talker) {
	if at, ok := t.position(); ok {
		s.pass.saw(at, t.before, t.now)
	}
}
