package report

import (
	"fmt"
	"math"

	"seamrail/motion/exact"
	"seamrail/motion/spin"
	"seamrail/motion/unit"
)

// boundWords prints a bound, and what it is in degrees.
func boundWords(s spin.Seam) string {
	b := s.Product.Bound()
	if b.Unit == spin.Degrees {
		return b.String()
	}
	return fmt.Sprintf("%s, %s here", b, angle(s.Bound))
}

// standMeasures prints a closing error as the picture shows it.
func standMeasures(s spin.Seam) string {
	var parts []string
	if s.Product.Radius.Sign() > 0 {
		parts = append(parts, figures(s.Millimetres())+" mm at the rim")
	}
	if s.Product.Radius.Sign() > 0 && s.Product.Scale.Sign() > 0 {
		parts = append(parts, figures(s.Pixels())+" px")
	}
	frames := s.Frames().Abs().Float()
	if frames < 1 {
		return list(append(parts, figures(frames*100)+" hundredths of a frame"))
	}
	return list(append(parts, figures(frames)+" captured frames"))
}

// angle prints turns as degrees.
func angle(turns exact.Rat) string {
	return figures(turns.Mul(exact.Int(360)).Float()) + " deg"
}

// figures prints a size to four digits, whole parts in full, never with an
// exponent.
func figures(v float64) string {
	if v == 0 || math.IsInf(v, 0) || math.IsNaN(v) {
		return unit.Format(v, unit.Number)
	}
	grain := min(1, math.Pow(10, math.Floor(math.Log10(math.Abs(v)))-3))
	return unit.Format(math.Round(v/grain)*grain, unit.Number)
}
