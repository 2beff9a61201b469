package topview

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/plot/vg"

	"seamrail/motion/camera/picture"
)

// box is an upright rectangle on the sheet.
type box struct{ x0, y0, x1, y1 vg.Length }

func (b box) meets(o box) bool { return b.x0 < o.x1 && o.x0 < b.x1 && b.y0 < o.y1 && o.y0 < b.y1 }

func (b box) holds(o box) bool { return b.x0 <= o.x0 && o.x1 <= b.x1 && b.y0 <= o.y0 && o.y1 <= b.y1 }

func (b box) has(p vg.Point) bool { return b.holds(box{p.X, p.Y, p.X, p.Y}) }

func (b box) grown(by vg.Length) box { return box{b.x0 - by, b.y0 - by, b.x1 + by, b.y1 + by} }

func (b box) middle() vg.Point { return vg.Point{X: (b.x0 + b.x1) / 2, Y: (b.y0 + b.y1) / 2} }

// nearest is the point of the box nearest to p.
func (b box) nearest(p vg.Point) vg.Point {
	return vg.Point{X: min(max(p.X, b.x0), b.x1), Y: min(max(p.Y, b.y0), b.y1)}
}

// segment is a straight line on the sheet.
type segment struct{ p, q vg.Point }

// cuts tells whether a segment comes into the box: the part of it within the
// box is cut out side by side (Y.-D. Liang and B. A. Barsky, ACM Trans.
// Graphics 3:1-22, 1984, DOI 10.1145/357332.357333).
func (s segment) cuts(b box) bool {
	if max(s.p.X, s.q.X) < b.x0 || min(s.p.X, s.q.X) > b.x1 || max(s.p.Y, s.q.Y) < b.y0 || min(s.p.Y, s.q.Y) > b.y1 {
		return false
	}
	from, to := 0.0, 1.0
	d := s.q.Sub(s.p)
	for _, side := range [4][2]vg.Length{{-d.X, s.p.X - b.x0}, {d.X, b.x1 - s.p.X}, {-d.Y, s.p.Y - b.y0}, {d.Y, b.y1 - s.p.Y}} {
		out, room := float64(side[0]), float64(side[1])
		switch {
		case out == 0 && room < 0:
			return false
		case out < 0:
			from = max(from, room/out)
		case out > 0:
			to = min(to, room/out)
		}
	}
	return from < to
}

// crosses tells whether two segments cross, neither of them ending on the other.
func (s segment) crosses(o segment) bool {
	side := func(s segment, p vg.Point) vg.Length {
		a, b := s.q.Sub(s.p), p.Sub(s.p)
		return a.X*b.Y - a.Y*b.X
	}
	return side(s, o.p)*side(s, o.q) < 0 && side(o, s.p)*side(o, s.q) < 0
}

func (s segment) length() vg.Length { return span(s.p, s.q) }

func (s segment) middle() vg.Point { return s.along(0.5) }

func (s segment) along(t vg.Length) vg.Point { return s.p.Add(s.q.Sub(s.p).Scale(t)) }

// moved is the segment moved to its left by so much.
func (s segment) moved(by vg.Length) segment {
	n := s.left().Scale(by)
	return segment{s.p.Add(n), s.q.Add(n)}
}

// left is the unit vector to the left of the way from p to q.
func (s segment) left() vg.Point {
	d := s.q.Sub(s.p).Scale(1 / s.length())
	return vg.Point{X: -d.Y, Y: d.X}
}

func span(p, q vg.Point) vg.Length {
	return vg.Length(math.Hypot(float64(q.X-p.X), float64(q.Y-p.Y)))
}

// extent is what of the scene the sheet must hold: all but the cones of lamps,
// which are cut off at its edge, and lamps far off.
func extent(a picture.TopView) r2.Box {
	inf := math.Inf(1)
	b := r2.Box{Min: r2.Vec{X: inf, Y: inf}, Max: r2.Vec{X: -inf, Y: -inf}}
	out := outlying(a)
	for _, i := range a.Items {
		if i.Kind == picture.BeamItem || len(i.Points) > 0 && out[i.Points[0]] {
			continue
		}
		for _, p := range i.Points {
			b.Min.X, b.Min.Y = min(b.Min.X, p.X-i.Radius), min(b.Min.Y, p.Y-i.Radius)
			b.Max.X, b.Max.Y = max(b.Max.X, p.X+i.Radius), max(b.Max.Y, p.Y+i.Radius)
		}
	}
	return b
}

// clipped is the part of a convex polygon within the box (Sutherland and
// Hodgman 1974).
func clipped(points []vg.Point, b box) []vg.Point {
	for _, inside := range []func(vg.Point) vg.Length{
		func(p vg.Point) vg.Length { return p.X - b.x0 },
		func(p vg.Point) vg.Length { return b.x1 - p.X },
		func(p vg.Point) vg.Length { return p.Y - b.y0 },
		func(p vg.Point) vg.Length { return b.y1 - p.Y },
	} {
		points = cut(points, inside)
	}
	return points
}

// cut is the part of a polygon where inside is not below 0.
func cut(points []vg.Point, inside func(vg.Point) vg.Length) []vg.Point {
	var out []vg.Point
	for i, p := range points {
		q := points[(i+1)%len(points)]
		a, b := inside(p), inside(q)
		if a >= 0 {
			out = append(out, p)
		}
		if (a < 0) != (b < 0) {
			out = append(out, segment{p, q}.along(a/(a-b)))
		}
	}
	return out
}

// common is what two convex polygons share.
func common(a, b []vg.Point) []vg.Point {
	turn := vg.Length(1) // of b: counter-clockwise
	if doubleArea(b) < 0 {
		turn = -1
	}
	for k, p := range b {
		side := b[(k+1)%len(b)].Sub(p)
		a = cut(a, func(q vg.Point) vg.Length {
			d := q.Sub(p)
			return turn * (side.X*d.Y - side.Y*d.X)
		})
	}
	return a
}

// doubleArea is twice the area of a polygon, below 0 where it runs clockwise.
func doubleArea(points []vg.Point) vg.Length {
	sum := vg.Length(0)
	for k, p := range points {
		q := points[(k+1)%len(points)]
		sum += p.X*q.Y - p.Y*q.X
	}
	return sum
}

// flat is a place as seen from above.
func flat(v r3.Vec) r2.Vec { return r2.Vec{X: v.X, Y: v.Y} }
