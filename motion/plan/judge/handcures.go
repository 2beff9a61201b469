package judge

import (
	"fmt"
	"slices"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/camera/lensview"
	"seamrail/motion/cue"
	"seamrail/motion/move"
	"seamrail/motion/plan/trajectory"
)

// sheet is what hands are told with a cure in place: as far as the turns of a focus ring
// go, which the picture tells, they are as they were.
func (c Case) sheet(x fault.Cure) (cue.Sheet, bool) {
	y, ok := c.after(x)
	if !ok {
		return cue.Sheet{}, false
	}
	if turns := lensview.Turns(trajectory.New(y.Plan), c.Picture); len(turns) > 0 {
		y.Shot = y.Shot.WithTurns(turns, y.Plan.Round())
	}
	s, err := cue.New(y.Plan, y.Shot)
	return s, err == nil
}

// troubles counts what hands cannot do, and what they cannot tell apart.
func troubles(s cue.Sheet) int { return len(s.Hasty()) + len(s.Clashes()) + len(s.Muddled()) }

// helps tells whether a cure leaves hands with fewer troubles than there are.
func (c Case) helps(x fault.Cure) bool {
	s, ok := c.sheet(x)
	return ok && troubles(s) < troubles(c.Cues)
}

// tried are cures of hands: one that does not help by itself, or leads to something else,
// is left to a hand.
func (c Case) tried(all fault.Cures) fault.Cures {
	out := slices.Clone(all)
	for i, x := range out {
		if !x.ByHand() && !c.helps(x) {
			out[i].Edits = nil
		}
	}
	return out
}

func (c Case) unhasty(h cue.Hasty) fault.Cures { return c.tried(h.Cures()) }

// twoHands are those that everyone has.
var twoHands = []string{"left", "right"}

// otherHand are the other hands that could take one of two things, and where none can, what
// a hand has to find.
func (c Case) otherHand(m cue.Clash) fault.Cures {
	var hands []string
	for _, q := range c.Cues.Cues {
		hands = append(hands, q.Hand)
	}
	var out fault.Cures
	for i, thing := range []string{m.One, m.Other} {
		for _, hand := range slices.Concat(hands, twoHands) {
			x := cure(m.Keys[i], hand, "the %s for %s", cue.Called(hand), thing)
			if hand != m.Hand && len(out) < maxCures && !slices.ContainsFunc(out, func(y fault.Cure) bool { return y.Words == x.Words }) && c.helps(x) {
				out = append(out, x)
			}
		}
	}
	if len(out) == 0 {
		return fault.Cures{{Words: m.Cure()}}
	}
	return out
}

// told is as many beats as let two counts be told apart.
func (c Case) told(m cue.Muddle) fault.Cures {
	x := fault.Cure{Words: m.Cure()}
	if m.Beats < 0 {
		if out := c.otherTimes(m); len(out) > 0 {
			return out
		}
	}
	if m.Beats >= 0 {
		for _, key := range m.Keys {
			x.Edits = append(x.Edits, fault.Edit{Path: key, Text: fmt.Sprint(m.Beats)})
		}
	}
	return c.tried(fault.Cures{x})
}

// apart are how much later or earlier a thing is tried whose count runs into another, real s:
// two single tones take half a second to be told apart.
var apart = []int64{1, 2, 4, 8}

// otherTimes are the nearest other times of one of two things whose counts run into each other.
func (c Case) otherTimes(m cue.Muddle) fault.Cures {
	var out fault.Cures
	for _, name := range []string{m.Other, m.One} {
		i := slices.IndexFunc(c.Cues.Cues, func(q cue.Cue) bool { return q.Name == name })
		if i < 0 {
			continue
		}
		if x, ok := c.otherTime(c.Cues.Cues[i], m); ok {
			out = append(out, x)
		}
	}
	return out
}

// otherTime is the nearest at which the counts are told apart, and nothing else gets worse.
func (c Case) otherTime(q cue.Cue, m cue.Muddle) (fault.Cure, bool) {
	same := func(x cue.Muddle) bool { return x.One == m.One && x.Other == m.Other }
	k := c.Plan.Loop.Clock
	for _, sec := range apart {
		by := exact.Int(sec).Mul(k.Capture).Quo(k.PerScreen()).Ceil().Whole()
		for _, at := range []int64{q.Screen.Floor().Whole() + by, q.Screen.Floor().Whole() - by} {
			x := cure(q.Key("at"), move.FramesText(at), "%s at %s", q.Name, move.FramesText(at))
			if at < 0 || at >= c.Plan.Loop.Screen {
				continue
			}
			if s, ok := c.sheet(x); ok && troubles(s) < troubles(c.Cues) && !slices.ContainsFunc(s.Muddled(), same) {
				return x, true
			}
		}
	}
	return fault.Cure{}, false
}
