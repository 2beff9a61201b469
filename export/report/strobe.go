package report

import (
	"seamrail/export/spinwords"
	"seamrail/motion/exact"
	"seamrail/motion/plan"
	"seamrail/motion/shot"
	"seamrail/motion/spin"
)

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
	words, natural := spinwords.Strobe(spin.StrobeOf(period, pl.Loop.Clock.Pictures(), k), k)
	if natural {
		return words, ""
	}
	return words, yellow
}
