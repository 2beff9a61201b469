package clearance

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Distance returns how far apart two outlines are in plan, in mm. Below 0 they
// overlap, and one must move that far to get free. It is the signed distance
// of the origin from the Minkowski difference of the two (C. Ericson,
// Real-Time Collision Detection, Morgan Kaufmann 2005, chapter 9,
// ISBN 978-1-55860-732-3), so it is the same both ways round and changes no
// faster than the outlines move.
func Distance(a, b Outline) float64 {
	var room [32]r2.Vec // a prism of eight against a bar: gaps are asked for by the thousand
	between := room[:0]
	for _, p := range a.Points {
		for _, q := range b.Points {
			between = append(between, r2.Sub(p, q))
		}
	}
	return fromOrigin(Hull(between)) - a.Round - b.Round
}

// fromOrigin is the distance of the origin from a convex polygon, negative
// inside. With two corners it is a line, with one a point.
func fromOrigin(corners []r2.Vec) float64 {
	if len(corners) == 1 {
		return r2.Norm(corners[0])
	}
	least, inside := math.Inf(1), len(corners) > 2
	for i, p := range corners {
		q := corners[(i+1)%len(corners)]
		least = math.Min(least, toSegment(p, q))
		inside = inside && r2.Cross(p, q) >= 0
	}
	if inside {
		return -least
	}
	return least
}

// toSegment is the distance of the origin from the line from p to q.
func toSegment(p, q r2.Vec) float64 {
	along := r2.Sub(q, p)
	length2 := r2.Norm2(along)
	if length2 == 0 { // a point, or too short for its square to be a number
		return r2.Norm(p)
	}
	u := -r2.Dot(p, along) / length2
	return r2.Norm(r2.Add(p, r2.Scale(math.Min(1, math.Max(0, u)), along)))
}

// Gap returns how far apart two bodies are, in mm; below 0 they overlap, and
// the least way out, sideways or up and down, is as long as that.
func Gap(a, b Body) float64 {
	flat := Distance(a.Outline, b.Outline)
	upright := math.Max(a.Low-b.High, b.Low-a.High)
	if flat > 0 && upright > 0 {
		return math.Hypot(flat, upright)
	}
	return math.Max(flat, upright)
}
