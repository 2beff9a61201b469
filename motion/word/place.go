package word

import (
	"math"

	"seamrail/motion/exact"
)

// Place keeps the positions of an axis as whole counts of the last decimal
// that is written, so that what has been told can be compared and the advance
// of a round added exactly.
type Place struct {
	grain   float64 // counts a unit: 10^decimals
	perUnit float64 // steps a unit
	advance exact.Rat
	whole   int64   // counts of the shift, whole
	rest    float64 // units of the shift below a count
}

// NewPlace returns the places of an axis of so many steps a unit, which gains
// advance units a round.
func NewPlace(decimals int, perUnit float64, advance exact.Rat) Place {
	return Place{grain: math.Pow10(decimals), perUnit: perUnit, advance: advance}
}

// Shift adds the advance of so many rounds to the positions that follow.
func (p *Place) Shift(rounds int64) {
	if p.advance.Sign() == 0 {
		return
	}
	counts := p.advance.Mul(exact.Int(rounds)).Mul(exact.Int(int64(p.grain)))
	p.whole = counts.Floor().Whole()
	p.rest = counts.Frac().Float() / p.grain
}

// Counts returns pos, shifted and rounded to the decimals.
func (p *Place) Counts(pos float64) int64 {
	return int64(math.Round((pos+p.rest)*p.grain)) + p.whole
}

// Units returns counts in the axis' unit.
func (p *Place) Units(counts int64) float64 { return float64(counts) / p.grain }

// Steps returns the motor step nearest to counts.
func (p *Place) Steps(counts int64) int64 {
	return int64(math.Round(float64(counts) / p.grain * p.perUnit))
}

// Stepped returns so many steps in the axis' unit.
func (p *Place) Stepped(steps int64) float64 { return float64(steps) / p.perUnit }
