package rig

import "math"

const (
	// mantissa is the bits of a number of single precision (IEEE 754-2019, table 3.5).
	mantissa = 24
	// numbersAStep is how many numbers of the controller there must be to a step. With
	// one, lines are a step longer or shorter than meant and take another time: a take
	// of 1092 rounds was 1.7 ms and 0.3 mm out, run on the model; with two, takes come
	// out from there as they do from 0, to the step (motion/controller/firmware, TestTakesFromAfar).
	numbersAStep = 2
)

// Countable returns up to which place, in its unit, the controller tells the steps
// of an axis of so many steps a unit well apart; infinite where it always does. A
// number of 24 bits is the coarser the greater it is: from 2^k on they are 2^(k-23)
// apart.
func (c Controller) Countable(stepsPerUnit float64) float64 {
	if !c.SinglePrecision {
		return math.Inf(1)
	}
	return math.Exp2(math.Floor(mantissa - math.Log2(numbersAStep*stepsPerUnit)))
}
