package shot

import (
	"fmt"

	"seamrail/motion/exact"
	"seamrail/motion/unit"
)

// Spin is a display stand that turns by itself during the loop: the rig cannot
// command it, the loop has to suit it.
type Spin struct {
	Name   string // of the stand
	Line   int    // in the file, 1-based
	Column int
	Origin string // the flag that added it; "" for the file

	Speed    string    // which of the stand's speeds; "" for the only one
	Symmetry int64     // faces of the product that look alike, at least 1
	Radius   exact.Rat // of the product, mm; 0 = not stated
	Pixels   exact.Rat // of the picture to a mm of the product; 0 = not stated
	Start    exact.Rat // degrees at frame 0
	Started  bool      // Start was stated

	// Shortest and Longest are the loops to look among, in seconds on screen.
	Shortest, Longest exact.Rat
	Within            Bound
}

// Measure is what a bound on the closing of a stand is counted in.
type Measure int

// The measures of a bound.
const (
	Unbounded Measure = iota // no bound is stated
	Degrees                  // of the stand
	Rim                      // mm along the rim, at the product's radius
	Pixels                   // of the picture, at the product's radius
)

// Bound is how far from its face a stand may be when the loop comes round.
type Bound struct {
	Value exact.Rat // > 0
	In    Measure
}

// String prints the bound: "0.5 px", "0.1 deg", "" where there is none.
func (b Bound) String() string {
	v := b.Value.Float()
	switch b.In {
	case Degrees:
		return unit.Format(v, unit.Angle)
	case Rim:
		return unit.Format(v, unit.Length)
	case Pixels:
		return unit.Format(v, unit.Number) + " px"
	}
	return ""
}

// Angle returns the bound in degrees of the stand: an arc of s mm at radius r
// is 180 s / (pi r) degrees. It returns false where there is no bound.
func (s Spin) Angle(b Bound) (degrees float64, ok bool) {
	v := b.Value.Float()
	switch b.In {
	case Degrees:
		return v, true
	case Rim:
		return v / s.MMPerDegree(), true
	case Pixels:
		return v / s.Pixels.Float() / s.MMPerDegree(), true
	}
	return 0, false
}

// Face returns the degrees from one face of the product to the next.
func (s Spin) Face() exact.Rat { return exact.New(360, s.Symmetry) }

// String prints the stand and its speed, for faults.
func (s Spin) String() string {
	if s.Speed == "" {
		return s.Name
	}
	return fmt.Sprintf("%s at %s", s.Name, s.Speed)
}
