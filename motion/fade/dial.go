package fade

import "math"

// Curve is what a dimmer makes of its dial.
type Curve int

// The curves of the lighting trade (common practice): with the square law the light is
// the square of the dial, so that half of it looks half as bright.
const (
	Linear Curve = iota
	Square
)

// Curves are their names.
func Curves() []string { return []string{"linear", "square"} }

// String names a curve.
func (c Curve) String() string { return Curves()[c] }

// Words tells the curve in a sentence about a dimmer.
func (c Curve) Words() string {
	if c == Square {
		return "by the square law: its light is the square of its dial"
	}
	return "linear: its light goes with its dial"
}

// Dial is where the dial stands, 0..1, for a level.
func (c Curve) Dial(level float64) float64 {
	if c == Square {
		return math.Sqrt(level)
	}
	return level
}

// Slots are a dial as stage lighting sends it, full being 255 (ANSI E1.11), and in two
// such slots, the coarse one first, as 65 535ths (common practice).
func Slots(dial float64) (one, two int) {
	return int(math.Round(255 * dial)), int(math.Round(65535 * dial))
}
