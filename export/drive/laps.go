package drive

import "seamrail/motion/controller/program"

// lap keeps the answer to the first line of a round. Those are left out before
// which the controller had taken others ahead than it takes in every round: while
// it still had room, and lines of the run-up.
func (s *stream) lap(t *talker, line *program.Line, said span) {
	if line.Round >= 0 {
		s.taken++
	}
	if line.Round == s.round {
		return
	}
	s.round = line.Round
	p, ahead := s.pass, int64(t.mostBlocks()+t.controller.ReceiveBuffer/minLine)
	if s.taken <= ahead || p.total > 0 && line.Round >= p.total || said.earliest.Before(said.at) {
		return
	}
	at := (said.at.Sub(p.zero) - p.shift).Seconds()
	p.laps = append(p.laps, Lap{line.Round, at})
	first := p.laps[0]
	late := at - first.Seconds - float64(line.Round-first.Round)*p.period
	s.seen(t, late)
	if late < -maxLate && !p.held {
		t.fail(NotPlan, "round %d has begun %.0f ms ahead of the plan", line.Round+1, -late*1000)
	}
}

// minLine is how long a line of a motion is at least, with its end: a word of
// four characters, one of three and what is between.
const minLine = 12
