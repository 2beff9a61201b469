package cue

import (
	"fmt"
	"strings"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/spec/shot"
)

// leastFade, in real s, is the quickest that a hand goes evenly from one mark of a dimmer
// to another: a second (common practice).
var leastFade = exact.Int(1)

// Hasty is a lamp that fades by hand quicker than hands do.
type Hasty struct {
	Lamp, Hand string
	Lasts      exact.Rat // real s of its quickest fade
	Jumps      bool      // it would have to be elsewhere at once where the loop closes
	Clock      clock.Clock

	at shot.Cue
}

// Hasty lists the lamps that no hand can dim so.
func (s Sheet) Hasty() []Hasty {
	var out []Hasty
	at := map[string]int{}
	for _, c := range s.Cues {
		if c.Dims == nil || c.Dims.Lasts.Sign() == 0 || !c.Dims.Jumps && !c.Dims.Lasts.Less(leastFade) {
			continue
		}
		i, known := at[c.Dims.Lamp]
		switch {
		case !known:
			at[c.Dims.Lamp] = len(out)
			out = append(out, Hasty{c.Dims.Lamp, c.Hand, c.Dims.Lasts, c.Dims.Jumps, s.Plan.Loop.Clock, c.Cue})
		case c.Dims.Lasts.Less(out[i].Lasts):
			out[i].Lasts = c.Dims.Lasts
		}
	}
	return out
}

// hasty tells whether a cue is of a lamp that no hand can dim so.
func (s Sheet) hasty(c Cue) bool {
	if c.Dims == nil {
		return false
	}
	for _, h := range s.Hasty() {
		if h.Lamp == c.Dims.Lamp {
			return true
		}
	}
	return false
}

// String says what no hand can do.
func (h Hasty) String() string {
	if h.Jumps {
		return fmt.Sprintf("%s is elsewhere at once where the loop closes: no hand can do that", h.Lamp)
	}
	return fmt.Sprintf("%s fades in %s of real time, and a hand takes a second to go evenly (common practice): no hand can do that",
		h.Lamp, seconds(h.Lasts))
}

// Cure says what would do, in words.
func (h Hasty) Cure() string { return strings.Join(h.Cures().Words(), "; or ") }

// Cures are what would do: a slower motion of the rig and the hand, which is a picture
// that is slowed down less, or a longer fade, or no hand.
func (h Hasty) Cures() fault.Cures {
	table := h.one("by", "table", `by = "table"`)
	if h.Jumps {
		return fault.Cures{h.one("seam", "closed", `seam = "closed" for its keys`), table}
	}
	share := h.Lasts.Quo(leastFade)
	longer := fault.Cure{Words: fmt.Sprintf("a fade %s times as long", up(share.Inv(), 1))}
	if h.Clock.Retime.Sign() > 0 && !exact.Int(1).Less(h.Clock.Retime.Quo(share)) {
		least := up(h.Clock.Retime.Quo(share), 3)
		return fault.Cures{{Words: fmt.Sprintf("a retime of %s or more, which is at most %s captured frames a second", least, down(h.Clock.Capture.Mul(share), 2)),
			Edits: []fault.Edit{{Path: "clock.retime", Text: least}}}, longer, table}
	}
	longer.Words += ", as not even the speed that it is seen at would do"
	return fault.Cures{longer, table}
}

// one is a value of the lamp as a cure.
func (h Hasty) one(key, text, words string) fault.Cure {
	return fault.Cure{Words: words, Edits: []fault.Edit{{Path: h.at.Key(key), Text: text}}}
}

// timeSlack is what a share of times of a track may be off by: they are floats.
var timeSlack = exact.New(1, 1_000_000)

// up and down print a number to so many decimals, away from what would not do.
func up(v exact.Rat, decimals int) string { return rounded(v.Sub(timeSlack), decimals, exact.Rat.Ceil) }

func down(v exact.Rat, decimals int) string {
	return rounded(v.Add(timeSlack), decimals, exact.Rat.Floor)
}

func rounded(v exact.Rat, decimals int, to func(exact.Rat) exact.Rat) string {
	grain := exact.Int(1)
	for range decimals {
		grain = grain.Mul(exact.Int(10))
	}
	return to(v.Mul(grain)).Quo(grain).Decimal(decimals)
}
