package report

import (
	"seamrail/export/spinwords"
	"seamrail/motion/base/exact"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/turntable/spin"
)

// tableStrobe returns what turns at a constant rate under a product of stated
// symmetry, with the time of a turn, and false for any other axis.
func tableStrobe(pl *plan.Plan, a *plan.Axis) (faces int64, period exact.Rat, ok bool) {
	m, turns := a.Move.Does.(move.Turner)
	if !turns || m.Faces() == 0 || !m.Steady() {
		return 0, exact.Rat{}, false
	}
	return m.Faces(), pl.Loop.Real().Quo(m.Turned().Abs()), true
}

// strobeWords says how a product of k faces seems to turn from one picture to
// the next, and in which colour.
func strobeWords(pl *plan.Plan, period exact.Rat, k int64) (words, ink string) {
	words, natural := spinwords.Strobe(spin.StrobeOf(period, pl.Loop.Clock.Pictures(), k), k)
	if natural {
		return words, ""
	}
	return words, yellow
}
