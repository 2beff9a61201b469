package survey

import (
	"seamrail/motion/vibration"
	"seamrail/motion/vibration/ringdown"
)

// Survey is all there is to tell of one axis.
type Survey struct {
	Subject  Subject
	Measured ringdown.Measured // the spring of the subject, and how well it is known
	Own      Found
	Why      string    // why nothing can be told of the move as it is; else ""
	Frames   []float64 // units beside the carriage, at each of Subject.Frames
	Settles  int       // rounds after which a take that began at rest is within settled of this
	Laws     []Law
	Surprise string
	Shapers  []Shaped
	Clean    []vibration.Clean
	Loops    []Offer
	Dwells   []Offer
}

const (
	// settled is how near to the steady state counts as there.
	settled = 0.01
	// maxOffers is how many of each kind are told.
	maxOffers = 5
)

// Look tells all of a subject whose spring was measured so.
func Look(s Subject, m ringdown.Measured) Survey {
	s.Spring = m.Spring
	out := Survey{
		Subject: s, Measured: m, Laws: s.Laws(), Shapers: s.Shapers(),
		Clean: s.Clean(maxOffers), Loops: s.Loops(maxOffers), Dwells: s.Dwells(maxOffers),
	}
	out.Surprise = s.Surprise(out.Laws)
	own, r, err := s.Own()
	if err != nil {
		out.Why = err.Error()
		return out
	}
	out.Own, out.Settles = own, r.Settles(settled)
	for _, t := range s.Frames() {
		out.Frames = append(out.Frames, r.At(t).Pos)
	}
	return out
}
