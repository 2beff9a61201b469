package ontime

import (
	"math"

	"seamrail/motion/controller/firmware"
	"seamrail/motion/controller/segment"
)

const (
	// quickReply is what a host takes that waits for nothing, s: a frame of a common
	// serial adapter.
	quickReply = 0.001
	// slowReply is what one takes that is kept busy, s: twice the usual.
	slowReply = 2 * replySeconds
	// turnShare is how much quicker or slower than measured the main loop of a board
	// may turn for a take to be the same: what it turns for is not known line by line.
	turnShare = 0.1
	// dwellDoubt is how well a dwell between two steps is known, s: as well as those
	// that were measured (testdata/reference).
	dwellDoubt = 0.00002
	// digits, times that, is by what share a number of 24 bits may be another after
	// a dozen roundings.
	digits = 8e-6
)

// others are machines for a take like m in all that is known, which differ in what is not:
// how soon a host answers, and how quickly a board reads what waits for it.
func (m *machine) others(k segment.Take) []*machine {
	var out []*machine
	if m.link.Single {
		replies := []float64{quickReply}
		if n := restsIn(k.Round); n > 0 && n < len(k.Round) {
			replies = append(replies, slowReply) // a dwell is answered when it is over
		}
		for _, reply := range replies {
			other := *m
			other.link.Reply = firmware.Lasting(reply)
			out = append(out, &other)
		}
	}
	if m.board.Turn > 0 {
		for _, by := range []float64{1 - turnShare, 1 + turnShare} {
			other := *m
			other.board.Turn = firmware.Lasting(m.board.Turn.Seconds() * by)
			other.board.Timer.Skew = (by - 1) * digits
			out = append(out, &other)
		}
	}
	return out
}

// sturdy holds what is foretold of a fitting, by so many rounds, against what
// comes of the same lines on the others: the worst of all counts.
func (s *search) sturdy(f *fitting, p Prediction, rounds int) Prediction {
	others := f.m.others(f.take)
	if len(others) == 0 {
		return p
	}
	first, err := f.m.run(f.take, rounds, s.ideal)
	if err != nil {
		return p
	}
	for _, m := range others {
		w := m.witness(s.ideal, rounds)
		w.lead, w.aligned = first.lead, true
		if _, err := m.runSeen(w, f.take); err != nil {
			continue
		}
		s.work += len(w.lines)
		q := w.prediction(p.Rounds)
		p.Unsure = max(p.Unsure, math.Abs(q.Late-p.Late)/float64(p.Rounds))
		p.Axes = worseOf(p.Axes, q.Axes)
	}
	if f.way.tread {
		p.Treads = restsIn(f.take.Round)
		p.Unsure += dwellDoubt * float64(p.Treads)
	}
	return p
}

// worseOf is of each axis the deviation that is greater.
func worseOf(a, b []Deviation) []Deviation {
	out := clone(a)
	for i, d := range b {
		if math.Abs(d.Worst) > math.Abs(out[i].Worst) {
			out[i] = d
		}
	}
	return out
}
