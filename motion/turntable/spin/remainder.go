package spin

import "seamrail/motion/base/exact"

// Remainder is what a loop leaves of a step on a table that is driven by steps.
type Remainder struct {
	Steps  exact.Rat // a round, exactly
	Whole  int64     // the whole steps of it, towards 0
	Part   exact.Rat // the rest, which is carried to the next round
	Rounds int64     // after so many rounds the steps are whole again; 0: never within 64 bits
}

// RemainderOf returns the remainder of a table of so many steps a turn that
// makes turns a loop. Carried exactly, it never adds up to more than a step.
func RemainderOf(stepsPerTurn, turns exact.Rat) Remainder {
	steps := stepsPerTurn.Mul(turns)
	whole := steps.Abs().Floor()
	if steps.Sign() < 0 {
		whole = whole.Neg()
	}
	out := Remainder{Steps: steps, Part: steps.Sub(whole)}
	out.Whole, _ = whole.Int64()
	if den := steps.Den(); den.IsInt64() {
		out.Rounds = den.Int64()
	}
	return out
}
