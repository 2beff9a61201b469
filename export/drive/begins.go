package drive

import (
	"time"

	"seamrail/motion/controller/program"
)

// answered takes in the answer to a line of the pass.
func (s *stream) answered(t *lineController, was sent) {
	p, line := s.pass, was.line
	if t.engine.pass != p {
		return
	}
	said := t.way.said()
	switch {
	case s.synced && line.Text == syncLine && s.held == nil && len(t.flight) == 0:
		s.ended = true
		s.ending(t, was, said)
	case line.Round == program.Setup:
		if dwell(line.Text) > 0 {
			s.dwelt = said
		} else if !s.dwelt.at.IsZero() {
			s.read = append(s.read, said)
		}
	case !s.opened:
		s.read = append(s.read, said)
		s.beginning(t, was)
	default:
		s.paces(t, line)
		s.takes(t, was)
		if line.Moves && said.earliest.Equal(said.at) {
			t.way.lines.add(said.at.Sub(later(was.across, s.last.at)))
		}
		p.dueAt(t.ends(line))
		s.lap(t, line, said)
	}
	if line.Round != program.Setup && line.Aim != nil {
		s.aim = line.Aim
	}
	s.last, s.rested = said, dwells(*line)
}

// beginning finds out when the motion begins. A controller that reads ahead
// begins to move once it has read all that it holds, or holds all the blocks it
// can (measured on open firmware; one that begins at the first line does so up to
// 2 ms before). A dwell is answered at its end.
func (s *stream) beginning(t *lineController, was sent) {
	if s.first == nil {
		s.first, s.before = was.line, len(s.read)-1
		s.soonest = later(s.dwelt.earliest, was.across) // not before the line was there
	}
	if was.line.Moves {
		s.moves++
	}
	next, surely := t.goesOn(s.readBy(t, len(s.read)))
	s.full = s.fullBy(t)
	if s.count == 0 && (dwells(*s.first) || !next) {
		s.count = len(s.read)
		s.pass.anchorAt(s.begins(t).at, -s.pass.runUp)
	}
	s.opened = s.count > 0 && (dwells(*s.first) || !surely)
}

// goesOn tells whether a controller that has read a line at read goes on reading
// before it moves, and whether it may: where the next line was there already, or
// may have been, by what is not known of the way.
func (t *lineController) goesOn(read time.Time) (next, perhaps bool) {
	if len(t.flight) == 0 || t.flight[0].across.IsZero() || t.stream.fullBy(t) {
		return false, false
	}
	across := t.flight[0].across
	read = read.Add(-t.way.reports.usual())
	return across.Before(read.Add(hostGrain / 2)), across.Before(read.Add(t.way.jitter()))
}

// fullBy tells whether the controller moves with the next line that it reads: it
// has no room for more blocks, or the line waits for the end of motion.
func (s *stream) fullBy(t *lineController) bool {
	next := len(t.flight) > 0 && t.flight[0].line != nil
	return s.moves >= t.mostBlocks() || next && !t.flight[0].line.Moves
}

// mostBlocks is how many blocks the look-ahead holds: one place stays free.
func (t *lineController) mostBlocks() int { return max(t.controller.Blocks, 2) - 1 }

// readTo brackets when the controller had read so many lines after the dwell.
func (s *stream) readTo(t *lineController, lines int) span {
	if lines == 0 {
		return s.dwelt
	}
	return t.way.hasRead(s.dwelt, s.read[lines-1], lines)
}

// readBy estimates when the controller had read so many lines after the dwell. An
// answer that this computer was late to see must not make it seem that lines were
// there in time which were sent later: none took longer than the quickest.
func (s *stream) readBy(t *lineController, lines int) time.Time {
	at := s.readTo(t, lines).at
	for n := 1; n < lines; n++ {
		if each := s.readTo(t, n).at.Sub(s.dwelt.at) / time.Duration(n); each > t.way.work() {
			at = earlier(at, s.dwelt.at.Add(each*time.Duration(lines)+hostGrain/2))
		}
	}
	return at
}

// begins brackets when the motion began, by what is known so far of how long
// lines take.
func (s *stream) begins(t *lineController) span {
	at, may := s.readTo(t, s.count), s.readTo(t, len(s.read))
	if s.full { // it has read one more, which waits
		may = may.add(t.way.work())
		if s.count == len(s.read) {
			at = may
		}
	}
	at.latest = may.latest
	if dwells(*s.first) {
		at = s.read[s.before].add(-seconds(t.lasts(dwell(s.first.Text))))
	}
	at.earliest = earlier(s.soonest, at.at)
	return at.within()
}

// worstClock is by how much of itself a time of the board's own may be another:
// twice what cheap resonators are said to be out by.
const worstClock = 0.01

// ending measures the pass when all of it has been carried out. A last dwell has
// told of its end itself; motion has ended before the motors had settled.
func (s *stream) ending(t *lineController, was sent, said span) {
	if s.count == 0 {
		return // nothing has moved
	}
	ends := said.add(-seconds(t.controller.IdleDelay))
	if s.rested {
		ends = s.last
	} else if said.at.Sub(was.across) <= t.way.answers.most+hostGrain {
		ends.earliest = s.last.at // it came when all was over, or nearly
	}
	took, doubt := between(s.begins(t), ends.within())
	s.pass.executed, s.pass.doubt = took.Seconds(), (doubt+t.way.jitter()).Seconds()+worstClock*t.controller.IdleDelay
}

// reported compares a report with the plan.
func (s *stream) reported(t *lineController) {
	s.unheeded = 0
	at, ok := t.position()
	if ok {
		s.pass.saw(at, t.before)
	}
	s.agrees(t, at, ok)
}
