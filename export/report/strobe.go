package report

import (
	"fmt"

	"seamrail/motion/clock"
	"seamrail/motion/exact"
	"seamrail/motion/plan"
	"seamrail/motion/shot"
	"seamrail/motion/spin"
)

// pictures returns how many different pictures a second of real time gives:
// captured frames that are skipped on the timeline are not seen.
func pictures(c clock.Clock) exact.Rat {
	if n := c.PerScreen(); exact.Int(1).Less(n) {
		return c.Capture.Quo(n)
	}
	return c.Capture
}

// tableStrobe returns the strobe of a table that turns at a constant rate under
// a product of stated symmetry, and false for any other axis.
func tableStrobe(pl *plan.Plan, a *plan.Axis) (period exact.Rat, ok bool) {
	m := a.Move
	if m.Move != shot.Turn || m.Symmetry == 0 || m.Law == nil || m.Law.Name() != uniform {
		return exact.Rat{}, false
	}
	return pl.Loop.Real().Quo(m.Turns.Abs()), true
}

// uniform is the law of a turn at a constant rate.
const uniform = "uniform"

// strobeWords says how a product of k faces seems to turn from one picture to
// the next, and in which colour.
func strobeWords(pl *plan.Plan, period exact.Rat, k int64) (words, ink string) {
	rate := pictures(pl.Loop.Clock)
	s := spin.StrobeOf(period, rate, k)
	words = fmt.Sprintf("turns %s, of %s from face to face", angle(s.True), angle(exact.New(1, k)))
	switch {
	case s.Stands():
		return words + ": a whole number of faces, so it seems to stand still", yellow
	case s.Apparent.Equal(exact.New(1, 2*k)):
		return words + ": it ends half way between two faces, so nobody can say which way it turns", yellow
	case s.Backwards():
		return words + fmt.Sprintf(": it seems to turn backwards by %s a picture; it would not at more than %s pictures a second", angle(s.Apparent.Abs()), figures(s.Slowest.Float())), yellow
	case !s.Apparent.Equal(s.True):
		return words + fmt.Sprintf(": it seems to turn by %s only", angle(s.Apparent)), yellow
	}
	return words + fmt.Sprintf("; it would seem to turn backwards at more than a turn in %s s, or in fewer than %s pictures a second",
		figures(s.Reversal.Float()), figures(s.Slowest.Float())), ""
}
