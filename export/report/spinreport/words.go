package spinreport

import (
	"fmt"
	"math"
	"strings"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/plain"
	"seamrail/motion/base/unit"
	"seamrail/motion/turntable/spin"
)

// Angle prints turns as degrees.
func Angle(turns exact.Rat) string { return figures(turns.Mul(exact.Int(360)).Float()) + " deg" }

// figures prints a number to four digits, whole parts in full, never with an
// exponent.
func figures(v float64) string {
	if v == 0 || math.IsInf(v, 0) || math.IsNaN(v) {
		return unit.Format(v, unit.Number)
	}
	grain := math.Pow(10, math.Floor(math.Log10(math.Abs(v)))-3)
	if grain < 1 {
		v = math.Round(v/grain) * grain
	}
	return unit.Format(v, unit.Number)
}

// Match prints the part of a turn that a product should have made: "2/6 turn",
// "3 turns" where no two faces are alike.
func Match(s spin.Seam) string {
	if s.Product.Symmetry == 1 {
		return plain.Count(s.Match, "turn")
	}
	return fmt.Sprintf("%d/%d turn", s.Match, s.Product.Symmetry)
}

// Measures prints turns in every measure there is, as they look at the seam's
// product: degrees, mm and pixels.
func Measures(s spin.Seam, turns exact.Rat) string {
	parts := []string{Angle(turns.Abs())}
	if s.Product.Radius.Sign() > 0 {
		mm := s.Product.Chord(turns)
		parts = append(parts, figures(mm)+" mm at the rim")
		if s.Product.Scale.Sign() > 0 {
			parts = append(parts, figures(mm*s.Product.Scale.Float())+" px")
		}
	}
	return strings.Join(parts, ", ")
}

// Frames prints the error in frames: hundredths of one while it is below one.
func Frames(s spin.Seam) string {
	f := s.Frames().Abs().Float()
	if f < 1 {
		return figures(f*100) + " hundredths of a frame"
	}
	return figures(f) + " captured frames"
}

// Bound prints a bound, and what it is in degrees.
func Bound(s spin.Seam) string {
	b := s.Product.Bound()
	if b.Unit == spin.Degrees {
		return b.String()
	}
	return fmt.Sprintf("%s, %s here", b, Angle(s.Bound))
}

// Error says how far off the product is when the loop comes round.
func Error(s spin.Seam) string {
	switch s.Error.Sign() {
	case 0:
		return "closes exactly"
	case -1:
		return "short of its match by " + Measures(s, s.Error) + ", " + Frames(s)
	}
	return "past its match by " + Measures(s, s.Error) + ", " + Frames(s)
}

// Known says how well the error is known from the period alone.
func Known(s spin.Seam) string {
	if s.Spread.Sign() == 0 {
		return "exactly, if the period is as stated"
	}
	words := "± " + Measures(s, s.Spread.Mul(exact.Int(spin.Coverage))) + ", two standard uncertainties"
	switch {
	case s.Sure():
		return words + ": it closes for sure while the speed holds"
	case s.Closes():
		return words + ": it may not close after all"
	}
	return words
}

// Needs says how much must be measured to know the error to its bound, by either
// way; empty where it is known already.
func Needs(s spin.Seam, a spin.Assume) string {
	if s.Spread.Sign() > 0 && !s.Bound.Less(s.Spread.Mul(exact.Int(spin.Coverage))) {
		return ""
	}
	var ways []string
	for _, way := range []struct {
		sigma float64
		how   string
	}{{a.ByStopwatch(), "by stopwatch"}, {a.ByPicture(), "in the picture"}} {
		if n, ok := s.TurnsToTime(way.sigma); ok {
			ways = append(ways, fmt.Sprintf("%s %s (%s)", plain.Count(n.Turns, "turn"), way.how, patience(n.Seconds)))
		}
	}
	if len(ways) == 0 {
		return ""
	}
	return "time " + strings.Join(ways, " or ") + " at a stretch to know it to the bound"
}

// patience prints a time that a person waits.
func patience(sec float64) string {
	switch {
	case sec < 120:
		return fmt.Sprintf("%.0f s", math.Ceil(sec))
	case sec < 7200:
		return fmt.Sprintf("%.0f min", math.Ceil(sec/60))
	}
	return fmt.Sprintf("%.1f h", sec/3600)
}

// Drift says what becomes of the error when rounds follow each other.
func Drift(s spin.Seam) string {
	n, ever := s.Shows()
	if !ever {
		return "filmed on, it ends on its match every time"
	}
	words := "filmed on, it is " + Angle(s.Error.Abs()) + " further from its match each round"
	if n > 1 {
		words += ", past the bound after " + plain.Count(n, "round")
	}
	return words + "; the clip shows the same jump at every repeat and no more"
}

// Off says what a speed that is off by a share does to the seam.
func Off(s spin.Seam, share exact.Rat) string {
	return "moves the seam by " + Measures(s, s.Off(share))
}

// Strobe says how a product of k faces seems to turn from one picture to the
// next, and whether that is as it does.
func Strobe(s spin.Strobe, k int64) (words string, natural bool) {
	words = fmt.Sprintf("turns %s, of %s from face to face", Angle(s.True), Angle(exact.New(1, k)))
	switch {
	case s.Stands():
		return words + ": a whole number of faces, so it seems to stand still", false
	case s.Apparent.Equal(exact.New(1, 2*k)):
		return words + ": it ends half way between two faces, so nobody can say which way it turns", false
	case s.Backwards():
		return words + fmt.Sprintf(": it seems to turn backwards by %s a picture; it would not at more than %s pictures a second",
			Angle(s.Apparent.Abs()), figures(s.Slowest.Float())), false
	case !s.Apparent.Equal(s.True):
		return words + fmt.Sprintf(": it seems to turn by %s only", Angle(s.Apparent)), false
	}
	return words + fmt.Sprintf("; it would seem to turn backwards at more than a turn in %s s, or in fewer than %s pictures a second",
		figures(s.Reversal.Float()), figures(s.Slowest.Float())), true
}
