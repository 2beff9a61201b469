package scene

import (
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/camera/pose"
)

// RimCorners is how many corners stand for a circle: their area is short of it by a
// part in four thousand.
const RimCorners = 120

// Called names a hole in a sentence.
func (h Hole) Called() string { return strings.TrimSpace("hole " + h.Name) }

// In tells whether a hole goes through a dark: the two were measured in one plane,
// give or take the board and what a ruler gives away.
func (h Hole) In(d Dark) bool {
	const ruler = 1 // mm
	return math.Abs(h.Centre.Y-d.Centre.Y) <= h.Thickness+ruler && h.Diameter.Given &&
		math.Abs(h.Centre.X-d.Centre.X) < d.Width.Value/2 && math.Abs(h.Centre.Z-d.Centre.Z) < d.Height.Value/2
}

// Rim is the edge of a hole on one face of its board, by the share of its
// thickness from the middle.
func (h Hole) Rim(side float64) []r3.Vec {
	across := pose.Direction(h.Heading-90, 0)
	middle := r3.Add(h.Centre, r3.Scale(side*h.Thickness, pose.Direction(h.Heading, 0)))
	out := make([]r3.Vec, RimCorners)
	for i := range out {
		s, c := math.Sincos(2 * math.Pi * float64(i) / RimCorners)
		out[i] = r3.Add(middle, r3.Scale(h.Diameter.Value/2, r3.Add(r3.Scale(c, across), r3.Vec{Z: s})))
	}
	return out
}
