package scene

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/camera/clearance"
	"seamrail/motion/camera/pose"
)

// Outline returns the product from above with the table at 0 degrees, and
// whether its size is known.
func (p Product) Outline() (clearance.Outline, bool) {
	var o clearance.Outline
	switch {
	case p.Shape == Cylinder && p.Radius.Given:
		o = clearance.Disc(r2.Vec{}, p.Radius.Value)
	case p.Shape == Prism && p.Radius.Given && p.Sides >= 3:
		// A face towards the camera, at -y: its corners lie half a side off.
		o = clearance.Regular(r2.Vec{}, p.Radius.Value, p.Sides, -90+180/float64(p.Sides))
	case p.Shape == Box && p.Width.Given && p.Depth.Given:
		half := r2.Vec{X: p.Width.Value / 2}
		o = clearance.Bar(r2.Scale(-1, half), half, p.Depth.Value/2)
	default:
		return o, false
	}
	o = o.Turned(p.Facing)
	for i := range o.Points {
		o.Points[i] = r2.Add(o.Points[i], p.Offset)
	}
	return o, true
}

// Symmetry returns how many times in a turn the product looks the same.
func (p Product) Symmetry() int {
	switch {
	case p.Alike > 0:
		return p.Alike
	case p.Offset != r2.Vec{}:
		return 1
	case p.Shape == Prism && p.Sides > 0:
		return p.Sides
	case p.Shape == Box && p.Width == p.Depth:
		return 4
	case p.Shape == Box:
		return 2
	}
	return 1
}

// Middle is the product's middle with the table at so many degrees.
func (p Product) Middle(table float64) r3.Vec {
	c := r3.Vec{X: p.Offset.X, Y: p.Offset.Y, Z: p.Base + p.Height.Or(0)/2}
	return pose.Turned(c, table)
}

// Face is the point of the product's side that the level line from its middle
// to a point leaves through: what a lens there sees nearest.
func (p Product) Face(table float64, to r3.Vec) (r3.Vec, bool) {
	o, ok := p.Outline()
	if !ok {
		return r3.Vec{}, false
	}
	c := p.Middle(table)
	d := r2.Vec{X: to.X - c.X, Y: to.Y - c.Y}
	if r2.Norm(d) == 0 {
		return c, true
	}
	d = r2.Unit(d)
	way := o.Round
	if len(o.Points) > 1 {
		way = outTo(o.Turned(table).Points, r2.Vec{X: c.X, Y: c.Y}, d)
	}
	return r3.Add(c, r3.Vec{X: way * d.X, Y: way * d.Y}), true
}

// outTo is how far it is from c inside a convex polygon, counter-clockwise, to
// its side along the unit vector d.
func outTo(corners []r2.Vec, c, d r2.Vec) float64 {
	way := math.Inf(1)
	for i, a := range corners {
		side := r2.Sub(corners[(i+1)%len(corners)], a)
		normal := r2.Vec{X: side.Y, Y: -side.X}
		if toward := r2.Dot(normal, d); toward > 0 {
			way = math.Min(way, r2.Dot(normal, r2.Sub(a, c))/toward)
		}
	}
	return way
}

// Girth is the radius of the circle that the turning product sweeps about its
// own middle.
func (p Product) Girth() float64 {
	o, ok := p.Outline()
	if !ok {
		return 0
	}
	most := 0.0
	for _, q := range o.Points {
		most = math.Max(most, r2.Norm(r2.Sub(q, p.Offset)))
	}
	return most + o.Round
}

// productBody is the product as it stands with the table at so many degrees.
func (p Product) Body(table float64) (clearance.Body, bool) {
	o, ok := p.Outline()
	b := clearance.Body{Outline: o.Turned(table), Low: p.Base, High: math.Inf(1)}
	if p.Height.Given {
		b.High = p.Base + p.Height.Value
	}
	return b, ok
}

// Swept is all that the turning product passes through: a disc about the
// table's axis.
func (p Product) Swept() (clearance.Body, bool) {
	b, ok := p.Body(0)
	b.Outline = clearance.Disc(r2.Vec{}, b.Outline.Reach())
	return b, ok
}
