package shot

import (
	"seamrail/motion/base/exact"
	"seamrail/motion/turntable/spin"
)

// Spin is a display stand that turns by itself during the loop: the rig cannot
// command it, the loop has to suit it.
type Spin struct {
	Name   string // of the stand
	Line   int    // in the file, 1-based
	Column int
	Origin string // the flag that added it; "" for the file

	Speed    string     // which of the stand's speeds; "" for the only one
	Symmetry int64      // faces of the product that look alike, at least 1
	Radius   exact.Rat  // of the product, mm; 0 = not stated
	Scale    exact.Rat  // pixels of the picture to a mm of the product; 0 = not stated
	Within   spin.Bound // how far off the loop may close; the zero Bound = not stated
	Start    exact.Rat  // degrees at frame 0
	Started  bool       // Start was stated

	Faulty bool // not understood: some fault says why
}

// Product returns what stands on s, and how the camera sees it.
func (s Spin) Product(stand spin.Stand) spin.Product {
	return spin.Product{
		Stand: stand, Symmetry: s.Symmetry, Radius: s.Radius, Scale: s.Scale, Within: s.Within,
	}
}
