package search

import (
	"fmt"
	"strings"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/unit"
	"seamrail/motion/turntable/spin"
)

// parseAlso reads "period 11 s, uncertainty 0.02 s, symmetry 4, radius 30 mm".
func parseAlso(text string) (spin.Product, error) {
	p := spin.Product{Symmetry: 1, Stand: spin.Stand{Speeds: []spin.Speed{{Name: "one"}}}}
	for part := range strings.SplitSeq(text, ",") {
		key, value, _ := strings.Cut(strings.TrimSpace(part), " ")
		if err := also(&p, key, strings.TrimSpace(value)); err != nil {
			return p, err
		}
	}
	if p.Stand.Speeds[0].Period.Sign() == 0 {
		return p, fmt.Errorf("%q needs a period above 0 s, such as \"period 11 s, symmetry 4\"", text)
	}
	return p, nil
}

// also sets one property of a product.
func also(p *spin.Product, key, value string) error {
	set := func(to *exact.Rat, dim unit.Dimension) error {
		q, err := unit.ParseAs(value, dim)
		*to = q.Value
		return err
	}
	var err error
	switch key {
	case "period":
		return set(&p.Stand.Speeds[0].Period, unit.Time)
	case "uncertainty":
		return set(&p.Stand.Speeds[0].Sigma, unit.Time)
	case "drift":
		p.Stand.Regulated = true
		return set(&p.Stand.Regulation, unit.Number)
	case "radius":
		return set(&p.Radius, unit.Length)
	case "pixels-per-mm":
		return set(&p.Scale, unit.Number)
	case "symmetry":
		p.Symmetry, err = spin.ParseSymmetry(value)
	case "direction":
		p.Stand.Direction, err = spin.ParseDirection(value)
	case "within":
		p.Within, err = spin.ParseBound(value)
	default:
		err = fmt.Errorf("%q is unknown; it must be one of period, uncertainty, drift, symmetry, radius, pixels-per-mm, direction and within", key)
	}
	return err
}
