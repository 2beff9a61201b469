// Package clearance tells how far apart two bodies are. A body is an upright
// block: a convex outline seen from above, with rounded corners if it has any,
// between two heights. Lengths are mm.
package clearance

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// Outline is the hull of Points grown by Round: a disc is one point, a capsule
// two. Points may be in any order; at least one.
type Outline struct {
	Points []r2.Vec
	Round  float64 // 0 or more
}

// Body is an outline from Low to High above the table.
type Body struct {
	Outline   Outline
	Low, High float64 // Low <= High
}

// Disc is a circle.
func Disc(centre r2.Vec, radius float64) Outline {
	return Outline{Points: []r2.Vec{centre}, Round: radius}
}

// Bar is the rectangle of the given half width about the line from a to b, its
// ends square. Where a and b are the same it is a point: a bar needs length.
func Bar(a, b r2.Vec, half float64) Outline {
	along := r2.Sub(b, a)
	length := r2.Norm(along)
	if length == 0 {
		return Outline{Points: []r2.Vec{a}}
	}
	side := r2.Scale(half/length, r2.Vec{X: -along.Y, Y: along.X})
	return Outline{Points: []r2.Vec{r2.Sub(a, side), r2.Sub(b, side), r2.Add(b, side), r2.Add(a, side)}}
}

// Regular is the outline of an upright prism with k >= 3 sides and corners at
// radius from the centre, one of them at the given angle in degrees,
// counter-clockwise from x.
func Regular(centre r2.Vec, radius float64, k int, angle float64) Outline {
	o := Outline{Points: make([]r2.Vec, k)}
	for i := range o.Points {
		s, c := math.Sincos((angle + 360*float64(i)/float64(k)) * math.Pi / 180)
		o.Points[i] = r2.Vec{X: centre.X + radius*c, Y: centre.Y + radius*s}
	}
	return o
}

// Turned returns the outline turned by degrees about the origin.
func (o Outline) Turned(degrees float64) Outline {
	s, c := math.Sincos(degrees * math.Pi / 180)
	out := Outline{Points: make([]r2.Vec, len(o.Points)), Round: o.Round}
	for i, p := range o.Points {
		out.Points[i] = r2.Vec{X: c*p.X - s*p.Y, Y: s*p.X + c*p.Y}
	}
	return out
}

// Reach returns the distance from the origin to the farthest part.
func (o Outline) Reach() float64 {
	most := 0.0
	for _, p := range o.Points {
		most = math.Max(most, r2.Norm(p))
	}
	return most + o.Round
}

// Hull returns the corners of the convex hull of points, counter-clockwise, by
// the monotone chain (A. M. Andrew, Inf. Proc. Letters 9:216-219, 1979,
// DOI 10.1016/0020-0190(79)90072-3). It sorts points.
func Hull(points []r2.Vec) []r2.Vec {
	slices.SortFunc(points, func(a, b r2.Vec) int {
		if a.X != b.X {
			return cmp.Compare(a.X, b.X)
		}
		return cmp.Compare(a.Y, b.Y)
	})
	points = slices.Compact(points)
	if len(points) < 3 {
		return points
	}
	out := make([]r2.Vec, 0, len(points)+1)
	out = chain(out, points)
	slices.Reverse(points)
	return chain(out, points)
}

// chain appends the turn-left side of points to out, without its last point.
func chain(out, points []r2.Vec) []r2.Vec {
	first := len(out)
	for _, p := range points {
		for len(out) >= first+2 && cross(out[len(out)-2], out[len(out)-1], p) <= 0 {
			out = out[:len(out)-1]
		}
		out = append(out, p)
	}
	return out[:len(out)-1]
}

func cross(o, a, b r2.Vec) float64 { return r2.Cross(r2.Sub(a, o), r2.Sub(b, o)) }
