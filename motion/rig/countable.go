package rig

import "math"

// mantissa is the bits of a number of single precision (IEEE 754-2019, table 3.5).
const mantissa = 24

// Countable returns up to which place, in its unit, the controller tells the steps
// of an axis of so many steps a unit apart; infinite where it always does. A number
// of 24 bits is the coarser the greater it is: from 2^k on they are 2^(k-23) apart.
func (c Controller) Countable(stepsPerUnit float64) float64 {
	if !c.SinglePrecision {
		return math.Inf(1)
	}
	return math.Exp2(math.Floor(mantissa - math.Log2(stepsPerUnit)))
}
