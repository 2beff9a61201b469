package survey

import (
	"cmp"
	"slices"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/move"
)

// maxTried bounds the loops and dwells that are tried, each with all its
// swings.
const maxTried = 400

// Offer is another loop or another dwell, of whole frames, that leaves less.
type Offer struct {
	Loop  clock.Loop
	Dwell int64 // timeline frames at the far end; -1 where the offer is a loop
	Found
}

// Loops returns loops from half to twice as long, of whole captured frames, in
// which the move leaves less than in its own and less than in their
// neighbours, best first. Moves along keys have their times stated and none.
func (s Subject) Loops(most int) []Offer {
	_, legged := s.Leg()
	if _, ended := s.Move.Does.(move.Ended); s.Fixed != nil || !legged && !ended {
		return nil
	}
	lo := max(1, s.Loop.Screen/2)
	hi := min(2*s.Loop.Screen, lo+maxTried)
	var all []Offer
	for n := lo; n <= hi; n++ {
		l, err := s.Loop.Clock.LoopFrames(n)
		if err != nil {
			continue
		}
		other := s
		other.Loop = l
		if f, ok := other.try(); ok {
			all = append(all, Offer{l, -1, f})
		}
	}
	return s.better(all, most)
}

// Dwells returns dwells at the far end, in whole timeline frames, with which a
// move there and back leaves less in a loop as long as it is, best first.
func (s Subject) Dwells(most int) []Offer {
	m, ok := s.Move.Does.(move.Shuttle)
	if !ok || s.Fixed != nil {
		return nil
	}
	c := s.Loop.Clock
	frame := exact.Int(1).Quo(c.Playback).Mul(c.Retime) // real seconds of a timeline frame
	ways := m.Going()
	cycle := ways.Cycle(s.Loop.Real())
	longest := min(cycle.Quo(exact.Int(2)).Quo(frame).Floor().Whole(), maxTried)
	var all []Offer
	for n := int64(0); n <= longest; n++ {
		other := s
		ways.DwellFar = frame.Mul(exact.Int(n))
		other.Move.Does = m.WithWays(ways)
		if f, ok := other.try(); ok {
			all = append(all, Offer{s.Loop, n, f})
		}
	}
	return s.better(all, most)
}

// better keeps what is within limits and leaves less than its neighbours and
// than the move as it is.
func (s Subject) better(all []Offer, most int) []Offer {
	own, ok := s.try()
	var out []Offer
	for i, o := range all {
		if !o.Within || ok && o.Left >= own.Left ||
			i > 0 && all[i-1].Left < o.Left || i+1 < len(all) && all[i+1].Left <= o.Left {
			continue
		}
		out = append(out, o)
	}
	slices.SortStableFunc(out, func(a, b Offer) int { return cmp.Compare(a.Left, b.Left) })
	return out[:min(most, len(out))]
}
