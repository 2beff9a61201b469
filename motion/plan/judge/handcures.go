package judge

import (
	"fmt"
	"slices"

	"seamrail/motion/base/fault"
	"seamrail/motion/camera/lensview"
	"seamrail/motion/cue"
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
	if m.Beats >= 0 {
		for _, key := range m.Keys {
			x.Edits = append(x.Edits, fault.Edit{Path: key, Text: fmt.Sprint(m.Beats)})
		}
	}
	return c.tried(fault.Cures{x})
}
