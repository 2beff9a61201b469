package survey

import (
	"fmt"
	"slices"

	"seamrail/motion/base/exact"
	"seamrail/motion/law"
	"seamrail/motion/move"
	"seamrail/motion/vibration"
)

// Leg is one way of a move from rest to rest.
type Leg struct {
	Travel  float64   // units, above 0
	Seconds exact.Rat // real
	Swings  float64   // of the rig, in that time
}

// Leg returns the quicker way of a move there and back, or a turn; false for
// moves that have no law, or no times, of their own.
func (s Subject) Leg() (Leg, bool) {
	var l Leg
	if s.Fixed != nil {
		return l, false
	}
	m, ok := s.Move.Does.(move.Legged)
	if !ok {
		return l, false
	}
	l.Travel, l.Seconds = m.Leg(s.Loop.Real())
	l.Swings = l.Seconds.Float() * s.Spring.Frequency
	return l, l.Seconds.Sign() > 0
}

// Law is what the move would do under one law.
type Law struct {
	Law   law.Law
	Alone float64 // units: swing that one way leaves, without what was there before
	Found
}

// Laws tries every law, plainest first, in the same loop with the same dwells,
// unshaped. A law under which the loop has no steady state is left out; a move
// without a law has none.
func (s Subject) Laws() []Law {
	leg, ok := s.Leg()
	if !ok {
		return nil
	}
	var out []Law
	for _, l := range law.All() {
		other := s
		other.Move = s.Move.WithLaw(l)
		other.Move.Shaped = 0
		if f, ok := other.try(); ok {
			out = append(out, Law{l, leg.Travel * vibration.Residual(s.Spring, l, leg.Seconds.Float()), f})
		}
	}
	return out
}

// Surprise says in words where a smoother law shakes more than a plainer one,
// or "": where the move's own law leaves clearly more than one of lower peak
// acceleration, the rig's limits preferred.
func (s Subject) Surprise(laws []Law) string {
	leg, ok := s.Leg()
	own := s.Move.Law()
	if !ok || own == nil {
		return ""
	}
	i := slices.IndexFunc(laws, func(l Law) bool { return l.Law.Name() == own.Name() })
	if i < 0 {
		return ""
	}
	better, ok := quieter(laws, laws[i])
	if !ok {
		return ""
	}
	text := fmt.Sprintf("On so short a move a smoother law shakes more: each way lasts %.2g times a swing of the rig, and %s leaves less than %s. Smoothness pays from about two swings on.",
		leg.Swings, better.Law.Name(), laws[i].Law.Name())
	if !better.Within {
		text += " This rig's limits do not let it run " + better.Law.Name() + "."
	}
	return text
}

// quieter is the plainer law that leaves least, one that the rig can do before
// any other.
func quieter(laws []Law, own Law) (Law, bool) {
	var best Law
	found := false
	for _, l := range laws {
		if !plainer(l.Law, own.Law) || l.Alone*worthTelling >= own.Alone {
			continue
		}
		if !found || l.Within && !best.Within || l.Within == best.Within && l.Alone < best.Alone {
			best, found = l, true
		}
	}
	return best, found
}

// worthTelling is how many times less a plainer law must leave to be worth a
// word.
const worthTelling = 1.2

// plainer tells whether a has a lower peak of acceleration than b: what
// smoothness is paid with.
func plainer(a, b law.Law) bool { return a.Peaks().A < b.Peaks().A && !law.IsEven(a) }

// Clean returns the durations of one way, in whole captured frames from half
// to twice as long as it is, after which it leaves least, best first.
func (s Subject) Clean(most int) []vibration.Clean {
	leg, ok := s.Leg()
	own := s.Move.Law()
	if !ok || own == nil {
		return nil
	}
	frame := s.Loop.Clock.FrameTime(1)
	n := leg.Seconds.Quo(frame).Round().Whole()
	lo := max(1, n/2)
	hi := min(max(lo, 2*n), lo+maxTried)
	return vibration.Best(vibration.CleanDurations(s.Spring, own, frame, lo, hi), most)
}
