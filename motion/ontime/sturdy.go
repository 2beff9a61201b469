package ontime

import (
	"math"

	"seamrail/motion/firmware"
)

const (
	// quickReply is what a host takes that waits for nothing, s: a frame of a common
	// serial adapter.
	quickReply = 0.001
	// turnShare is how much quicker or slower than measured the main loop of a board
	// may turn for a take to be the same: what it turns for is not known line by line.
	turnShare = 0.1
	// digits, times that, is by what share a number of 24 bits may be another after
	// a dozen roundings.
	digits = 8e-6
)

// others are machines like m in all that is known, which differ in what is not:
// how soon a host answers, and how quickly a board reads what waits for it.
func (m *machine) others() []*machine {
	var out []*machine
	if m.link.Single {
		quick := *m
		quick.link.Reply = firmware.Lasting(quickReply)
		out = append(out, &quick)
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
	others := f.m.others()
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
	p.Unsure += f.m.unsure(f.take)
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
