package cue

import (
	"fmt"
	"slices"

	"seamrail/motion/base/exact"
)

// Clash is a hand that would have to be at two things at once, however often.
type Clash struct {
	One, Other, Hand string
	Keys             [2]string // of the file, that say whose hand each is
}

// Clashes lists what one hand cannot do together: while it dims a lamp or turns the focus
// ring, it does nothing else.
func (s Sheet) Clashes() []Clash {
	var out []Clash
	for i, c := range s.Cues {
		for _, d := range s.Cues[i+1:] {
			if m := (Clash{c.thing(), d.thing(), c.Hand, [2]string{c.Key("hand"), d.Key("hand")}}); !slices.Contains(out, m) && s.clash(c, d) {
				out = append(out, m)
			}
		}
	}
	return out
}

func (s Sheet) clash(c, d Cue) bool {
	if c.Hand != d.Hand || oneThing(c, d) || c.Busy.Sign() == 0 && d.Busy.Sign() == 0 {
		return false
	}
	return s.share(c, d, c.busy(), d.busy())
}

// busy is from when until when the hand is at it.
func (c Cue) busy() [2]exact.Rat { return [2]exact.Rat{c.Moves(), c.Moves().Add(c.Busy)} }

// oneThing tells whether two cues are of one dimmer, or of the focus ring: a hand that is
// at it already knows which is which.
func oneThing(c, d Cue) bool {
	return c.thing() == d.thing() && (c.Ring || c.Dims != nil)
}

// thing is what the hand is at.
func (c Cue) thing() string {
	switch {
	case c.Ring:
		return "the focus ring"
	case c.Dims != nil:
		return "the dimmer of " + c.Dims.Lamp
	}
	return c.Name
}

// String says what is wrong.
func (m Clash) String() string {
	return fmt.Sprintf("%s and %s both take the %s at once: it cannot do both", m.One, m.Other, Called(m.Hand))
}

// Cure says what would do.
func (m Clash) Cure() string { return "another hand for one of them, or another time" }
