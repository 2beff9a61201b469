package rs274

import (
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/controller/firmware"
)

// Place keeps the positions of an axis as whole counts of the last decimal
// that is written, so that what has been told can be compared and the advance
// of a round added exactly.
type Place struct {
	grain    float64 // counts a unit: 10^decimals
	perUnit  float64 // steps a unit
	decimals int
	single   bool // the controller counts positions with 24 bits
	advance  exact.Rat
	whole    int64   // counts of the shift, whole
	rest     float64 // units of the shift below a count
}

// NewPlace returns the places of an axis of so many steps a unit, which gains
// advance units a round, on a controller that counts positions with 24 bits or with all.
func NewPlace(decimals int, perUnit float64, single bool, advance exact.Rat) Place {
	return Place{grain: math.Pow10(decimals), decimals: decimals, perUnit: perUnit, single: single, advance: advance}
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

// Counts returns pos, shifted and rounded to the decimals. A controller with 24
// bits takes some counts for another step than the nearest; it gets the ones
// next to them then.
func (p *Place) Counts(pos float64) int64 {
	near := int64(math.Round((pos+p.rest)*p.grain)) + p.whole
	if !p.single {
		return near
	}
	want := int64(math.Round(float64(near) / p.grain * p.perUnit))
	for off := int64(0); off <= maxOff; off++ {
		for _, counts := range [...]int64{near + off, near - off} {
			if p.Steps(counts) == want {
				return counts
			}
		}
	}
	return near
}

// maxOff is how many counts beside the nearest are looked at: beyond them the
// controller cannot tell steps apart.
const maxOff = 8

// Units returns counts in the axis' unit.
func (p *Place) Units(counts int64) float64 { return float64(counts) / p.grain }

// Steps returns the motor step nearest to counts, by the numbers that the
// controller has.
func (p *Place) Steps(counts int64) int64 {
	if p.single {
		return p.singleSteps(counts)
	}
	return int64(math.Round(float64(counts) / p.grain * p.perUnit))
}

// Stepped returns so many steps in the axis' unit.
func (p *Place) Stepped(steps int64) float64 { return float64(steps) / p.perUnit }

func (p *Place) singleSteps(counts int64) int64 {
	whole, exponent := counts, -p.decimals
	for most := int64(maxWhole); whole >= most || -whole >= most; exponent++ {
		whole /= 10 // boards leave out what is beyond their digits
	}
	return int64(math.Round(float64(firmware.Single(whole, exponent) * float32(p.perUnit))))
}

// maxWhole is the first number with more digits than boards with 24 bits read.
const maxWhole = 1e8
