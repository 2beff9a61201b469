package spin

import (
	"fmt"
	"math"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/unit"
)

// Product is what stands on a stand and how the camera sees it.
type Product struct {
	Stand    Stand
	Symmetry int64     // times a turn that it looks the same, at least 1
	Radius   exact.Rat // of the outermost point that shows, mm; 0 unknown
	Scale    exact.Rat // pixels a mm of the picture at the product; 0 without a camera
	Within   Bound     // the zero Bound means HalfPixel with a camera, else TwentiethOfStep
}

// Bound returns the bound that holds.
func (p Product) Bound() Bound {
	switch {
	case p.Within.Unit != Unstated:
		return p.Within
	case p.Radius.Sign() > 0 && p.Scale.Sign() > 0:
		return HalfPixel
	}
	return TwentiethOfStep
}

// Limit returns the bound in turns, for a stand of a period at a capture rate.
// A bound in mm or pixels is a chord; from the diameter on every error passes.
func (p Product) Limit(period, capture exact.Rat) exact.Rat {
	b := p.Bound()
	switch b.Unit {
	case Degrees:
		return b.Value.Quo(exact.Int(360))
	case CapturedFrames:
		return b.Value.Quo(period.Mul(capture))
	case Pixels:
		b.Value = b.Value.Quo(p.Scale)
	}
	share := b.Value.Quo(p.Radius.Add(p.Radius)).Float()
	return exact.FromFloat(math.Asin(min(share, 1)) / math.Pi)
}

// MaxSymmetry is the finest symmetry that is taken: a thousand alike faces are
// a plain cylinder to any camera.
const MaxSymmetry = 1000

// ParseSymmetry reads how many times a turn a product looks the same.
func ParseSymmetry(s string) (int64, error) {
	q, err := unit.ParseAs(s, unit.Number)
	if err == nil {
		if n, whole := q.Value.Int64(); whole && n >= 1 && n <= MaxSymmetry {
			return n, nil
		}
	}
	return 0, fmt.Errorf("symmetry %q must be a whole number from 1 to %d, how many times in a turn the product looks the same; "+
		"6 for six alike panes, 1 for a product with one front", clip(s), MaxSymmetry)
}

// longestQuote keeps an error to a line.
const longestQuote = 60

func clip(s string) string {
	if r := []rune(s); len(r) > longestQuote {
		return string(r[:longestQuote]) + "..."
	}
	return s
}

// Faults returns what is wrong with the product and its stand.
func (p Product) Faults() fault.List {
	out := p.Stand.Faults()
	add := func(quantity, value, bound, fit string) {
		out = append(out, fault.Fault{Quantity: p.Stand.named(quantity), Value: value, Bound: bound, Fit: fit})
	}
	if p.Symmetry < 1 || p.Symmetry > MaxSymmetry {
		add("symmetry", fmt.Sprint(p.Symmetry), fmt.Sprintf("must be 1 to %d", MaxSymmetry), "1 for a product with one front")
	}
	if p.Radius.Sign() < 0 {
		add("radius", p.Radius.Decimal(6)+" mm", "must be above 0 mm", "measure from the middle to the outermost point that shows")
	}
	if p.Scale.Sign() < 0 {
		add("scale", p.Scale.Decimal(6)+" px/mm", "must be above 0 px/mm", "film a ruler at the product and count")
	}
	if p.Within.Unit != Unstated && p.Within.Value.Sign() <= 0 {
		add("bound", p.Within.String(), "must be above 0", "such as "+HalfPixel.String())
	}
	switch b := p.Within.Unit; {
	case b == Millimetres && p.Radius.Sign() == 0:
		add("bound", p.Within.String(), "needs the product's radius", "give it, or a bound in degrees")
	case b == Pixels && (p.Radius.Sign() == 0 || p.Scale.Sign() == 0):
		add("bound", p.Within.String(), "needs the product's radius and the pixels a mm", "give them, or a bound in degrees")
	}
	return out
}

// Seam returns how a loop closes for this product at one speed of its stand.
func (p Product) Seam(l clock.Loop, v Speed) Seam { return p.seam(l.Real(), l.Clock.Capture, v) }

func (p Product) seam(real, capture exact.Rat, v Speed) Seam {
	turns := real.Quo(v.Period)
	match := turns.Mul(exact.Int(p.Symmetry)).Round()
	if match.Sign() == 0 {
		match = exact.Int(1) // a product that has not turned does not match itself by turning
	}
	return Seam{
		Product: p, Speed: v, Capture: capture,
		Turns: turns, Match: match.Whole(),
		Error:  turns.Sub(match.Quo(exact.Int(p.Symmetry))),
		Spread: turns.Mul(v.Sigma).Quo(v.Period),
		Bound:  p.Limit(v.Period, capture),
	}
}
