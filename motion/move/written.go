package move

import (
	"fmt"
	"math"

	"seamrail/motion/exact"
	"seamrail/motion/plain"
	"seamrail/motion/unit"
)

// Grains that places are written to, in mm or degrees.
const (
	// DragGrain is that of a place that was dragged, or found as the greatest that
	// fits: no hand sets a rig finer, and numbers stay short.
	DragGrain = 0.1
	// placeGrain is that of a place that was moved as far as it must.
	placeGrain = 1e-4
)

// Place is a place as the shot file has it, to a grain in mm or degrees.
func Place(at, grain float64, dim unit.Dimension) string {
	return unit.Format(math.Round(at/grain)*grain, dim)
}

// FramesText is a count of frames as the shot file has it.
func FramesText(n int64) string {
	if n == 1 {
		return "1 frame"
	}
	return fmt.Sprintf("%d frames", n)
}

// asWritten is a quantity as the text of a shot file has it.
func asWritten(text string, dim unit.Dimension) unit.Quantity {
	q, err := unit.ParseAs(text, dim)
	if err != nil {
		panic("move: " + err.Error()) // Format wrote it
	}
	return q
}

// seconds prints an exact time, to a fraction of any frame.
func seconds(s exact.Rat) string { return s.Decimal(3) + " s" }

func times(n int) string {
	if n <= 1 {
		return "once a loop"
	}
	return fmt.Sprintf("%d times a loop", n)
}

// clean keeps text from a file on its line and free of terminal commands.
func clean(s string) string { return plain.Line(s) }

// exactly is a quantity of just that value.
func exactly(v float64, dim unit.Dimension) unit.Quantity {
	return unit.Quantity{Value: exact.FromFloat(v), Dim: dim}
}
