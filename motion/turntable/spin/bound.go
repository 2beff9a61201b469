package spin

import (
	"fmt"
	"strings"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/unit"
)

// Unit is what a bound is counted in.
type Unit int

// The units of a bound.
const (
	Unstated Unit = iota
	Pixels        // of the picture, at the product's radius
	Millimetres
	Degrees
	CapturedFrames // of the stand's own turn from one captured frame to the next
)

// Bound is how far off a loop may close and still pass.
type Bound struct {
	Value exact.Rat
	Unit  Unit
}

// The bounds where none is stated. Half a pixel is where an edge lands on
// another pixel. Without a camera a twentieth of the stand's own step from frame
// to frame is taken: people tell speeds apart from about 6 % on, at best
// (S. P. McKee and K. Nakayama, Vision Research 24:25-32, 1984,
// DOI 10.1016/0042-6989(84)90140-8), so a seam below that is no change of speed
// to the eye.
var (
	HalfPixel       = Bound{exact.New(1, 2), Pixels}
	TwentiethOfStep = Bound{exact.New(1, 20), CapturedFrames}
)

// String prints the bound as ParseBound reads it: "0.5 px", "0.1 deg", "0.05
// captured frames".
func (b Bound) String() string {
	return b.Value.Decimal(4) + " " + [...]string{"of nothing", "px", "mm", "deg", "captured frames"}[b.Unit]
}

// boundNames are the units that only a bound is counted in.
var boundNames = []struct {
	name string
	unit Unit
}{{"px", Pixels}, {"pixels", Pixels}, {"pixel", Pixels}, {"captured frames", CapturedFrames}, {"captured frame", CapturedFrames}}

// ParseBound reads "0.5 px", "0.1 deg", "0.2 mm" or "0.05 captured frames". The
// value must be above 0.
func ParseBound(s string) (Bound, error) {
	text := strings.TrimSpace(s)
	b, err := parseBound(text)
	switch {
	case err != nil:
		return Bound{}, fmt.Errorf("bound %q must be a number of px, deg, mm or captured frames, such as \"0.5 px\"", clip(s))
	case b.Value.Sign() <= 0:
		return Bound{}, fmt.Errorf("bound %q must be above 0; no stand is exact; such as \"0.5 px\"", clip(s))
	}
	return b, nil
}

func parseBound(text string) (Bound, error) {
	for _, n := range boundNames {
		if number, ok := strings.CutSuffix(text, n.name); ok {
			v, err := exact.Parse(number)
			return Bound{v, n.unit}, err
		}
	}
	q, err := unit.ParseAs(text, unit.Angle, unit.Length)
	if q.Dim == unit.Angle {
		return Bound{q.Value, Degrees}, err
	}
	return Bound{q.Value, Millimetres}, err
}
