package drive

import (
	"time"

	"seamrail/motion/controller/program"
)

const (
	// overdue is how long an answer may be late, beyond when it is due by the plan
	// and the pace that was seen, before it counts as lost. It is above maxLate,
	// at which a pass that is merely late is given up, and leaves the tenth of a
	// second of a report to half a second.
	overdue = 400 * time.Millisecond
	// worstPace is by how much of itself a pass may be late that is told nothing of
	// its pace yet: a resonator is out by up to 0.5 % (manufacturers state that) and
	// takes on 16-bit timers ran up to 0.21 % late (measured).
	worstPace = 0.0071
)

// paces notes how late the pass runs where that is seen: at the end of a dwell.
// The beginnings of rounds tell too: see lap.
func (s *stream) paces(t *talker, line *program.Line) {
	if dwells(*line) {
		s.seen(t, t.engine.pass.sec()-t.ends(line))
	}
}

// takes notes how long after there was room for it a block was taken.
func (s *stream) takes(t *talker, was sent) {
	if was.roomy {
		s.lags = max(s.lags, t.now.Sub(later(s.pass.when(was.room), was.arrives(t))).Seconds())
	}
}

// seen says that the pass is so many s late now.
func (s *stream) seen(t *talker, late float64) {
	s.slow, s.lag, s.seenAt = max(late, 0), late, t.now
}

// lookahead is when the blocks end that a controller may hold.
type lookahead struct {
	ends    []float64 // sec of the take, oldest first
	longest float64   // s, of any block since the last rest
}

// shortBlock is how long blocks may be for their room to tell when a line is due,
// in s. A controller that holds fewer blocks than the rig file says is later with
// each line by a block at most, and is seen to be before that counts.
const shortBlock = 0.2

// next returns from which sec on there is room for a block, if that is known, and
// adds it.
func (a *lookahead) next(line *program.Line, most int) (room float64, ok bool) {
	switch {
	case line.Round == program.Setup:
		return 0, false
	case !line.Moves: // when it is over the controller holds none
		*a = lookahead{}
		return 0, false
	}
	room = line.Start // no sooner than that, if it is the first
	if len(a.ends) > 0 {
		room = a.ends[0] - a.longest
	}
	if len(a.ends) == most {
		room = a.ends[0]
		a.ends = a.ends[:copy(a.ends, a.ends[1:])]
	}
	a.ends = append(a.ends, line.End)
	a.longest = max(a.longest, line.End-line.Start)
	return room, a.longest <= shortBlock
}

// due is when a line of the pass is answered at the latest if nothing is wrong:
// when there is room for its block, when its motion begins, or when its dwell
// ends; as late as the pass is by now, or may be.
func (s *stream) due(t *talker, was sent) time.Time {
	p, sec := s.pass, t.ends(was.line)
	if was.roomy {
		sec = min(sec, was.room+s.lags)
	}
	due := later(p.when(sec+s.slow), s.last.at)
	if since := due.Sub(later(s.seenAt, p.zero)); since > 0 {
		due = due.Add(time.Duration(worstPace * float64(since)))
	}
	return later(due, was.arrives(t))
}

// arrives is when a line has reached the controller, or may have at the earliest.
func (was sent) arrives(t *talker) time.Time {
	if was.across.IsZero() {
		return t.now
	}
	return was.across
}

// answerBy is when a line of the pass counts as lost.
func (s *stream) answerBy(t *talker, was sent) time.Time {
	switch {
	case s.paused:
		return t.now.Add(never)
	case s.pass.zero.IsZero() && len(t.asks) > 0:
		return was.by.Add(patience) // reports asked for before have not come: the wire is slow
	case s.pass.zero.IsZero() && !t.before.After(was.at):
		return later(was.by, t.statusAt.Add(overdue)) // which it had to send first
	case s.pass.zero.IsZero():
		return was.by
	case was.line.Text == syncLine && t.status.is("Run") && t.before.After(s.due(t, was)):
		return s.due(t, was).Add(patience) // it is late, and not silent
	case s.pass.held: // when it was to begin is known less well
		return s.due(t, was).Add(patience)
	}
	return s.due(t, was).Add(overdue)
}

// promptly is how long an answer to a line of so many bytes may take that lets no
// time pass: what is on the way before it, and what an answer may be late.
func (t *talker) promptly(bytes int) time.Duration {
	return overdue + t.way.bytes(t.bytes+bytes+okBytes*(len(t.flight)+1))
}
