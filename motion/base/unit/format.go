package unit

import (
	"math"
	"strconv"
	"strings"
)

const (
	// significant is how many digits Format keeps: a micrometre in a metre,
	// finer than any tabletop rig repeats.
	significant = 6
	// decimals is how far behind the point Format looks: a nanometre, below
	// which a difference is rounding of the arithmetic.
	decimals = 6
	// huge is where Format stops writing digits; no quantity of a rig is near.
	huge = 1e15
)

// Format prints a value held in the unit of dim, such as "240 mm",
// "187.5 mm/s" or "1 frame": six significant digits, at most six decimals,
// trailing zeros dropped, never an exponent and never "-0". Whole parts are
// printed in full. An infinite value, or one of 1e15 or more, is "unbounded";
// NaN is "undefined".
func Format(value float64, dim Dimension) string {
	switch {
	case math.IsNaN(value):
		return "undefined"
	case math.Abs(value) >= huge:
		return "unbounded"
	}
	digits := figure(value)
	name := dim.Unit()
	if name == "" {
		return digits
	}
	if digits == "1" {
		name = singular(dim)
	}
	return digits + " " + name
}

func singular(dim Dimension) string {
	switch dim {
	case Frames:
		return "frame"
	case Turns:
		return "turn"
	case StepRate:
		return "step/s"
	}
	return dim.Unit()
}

// figure prints value in fixed notation.
func figure(value float64) string {
	places := significant
	if a := math.Abs(value); a >= 1 {
		places = significant - 1 - int(math.Floor(math.Log10(a)))
	}
	places = min(max(places, 0), decimals)
	s := strconv.FormatFloat(value, 'f', places, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}
