package preview

import (
	"math"

	"seamrail/motion/base/list"

	"gonum.org/v1/gonum/spatial/r3"
)

// shadow is a convex part of the table's top that is darker by so much.
type shadow struct {
	rim  []r3.Vec
	dark float32
}

// A lamp's shadow is as dark as its share of the light. It is laid in so many
// parts, each a little longer, so that its end is soft; so is the shade at the
// foot of the product, which no lamp reaches.
const (
	shadowDark  = 0.5
	shadowParts = 3
	shadowGrows = 0.04
	footDark    = 0.3
	lowLamp     = 0.15 // a lamp lower than this sine throws a shadow without end
)

// shadows finds the shadows of a frame, with the table as it stands halfway
// through the exposure: their edges are softer than what it turns meanwhile.
func (s *stage) shadows(e *eye) []shadow {
	var out []shadow
	foot := list.Map(s.outline, e.turned)
	all := list.Sum(s.lamps, func(l lamp) float64 { return l.share })
	for _, l := range s.lamps {
		if l.way.Z > lowLamp {
			out = append(out, s.cast(foot, l.way, shadowDark*l.share/all)...)
		}
	}
	if s.low <= 0 {
		out = append(out, s.shaded(foot)...)
	}
	return out
}

// cast is the shadow that a lamp throws.
func (s *stage) cast(foot []r3.Vec, way r3.Vec, dark float64) []shadow {
	out := make([]shadow, 0, shadowParts)
	shift := r3.Vec{X: -way.X / way.Z, Y: -way.Y / way.Z}
	begin := moved(foot, r3.Scale(s.low, shift))
	for part := range shadowParts {
		tall := (s.high - s.low) * (1 + shadowGrows*(float64(part)-1))
		out = append(out, shadow{s.table.within(swept(begin, r3.Scale(tall, shift))), float32(dark / shadowParts)})
	}
	return out
}

// shaded is what the product's foot shades around itself.
func (s *stage) shaded(foot []r3.Vec) []shadow {
	out := make([]shadow, 0, shadowParts)
	middle := r3.Vec{}
	for _, p := range foot {
		middle = r3.Add(middle, r3.Scale(1/float64(len(foot)), p))
	}
	for part := range shadowParts {
		grown := make([]r3.Vec, len(foot))
		for i, p := range foot {
			grown[i] = r3.Add(p, r3.Scale(shadowGrows*float64(part+1), r3.Sub(p, middle)))
		}
		out = append(out, shadow{s.table.within(moved(grown, r3.Vec{})), footDark / shadowParts})
	}
	return out
}

// moved is a polygon moved by so much, in the plane of the table's top.
func moved(polygon []r3.Vec, by r3.Vec) []r3.Vec {
	return list.Map(polygon, func(p r3.Vec) r3.Vec { return r3.Vec{X: p.X + by.X, Y: p.Y + by.Y} })
}

// swept is all that a convex polygon, counter-clockwise, passes over on its way
// along a vector: the sides that look that way go along, the others stay.
func swept(polygon []r3.Vec, way r3.Vec) []r3.Vec {
	goes := func(i int) bool {
		a, b := polygon[i], polygon[(i+1)%len(polygon)]
		return (b.Y-a.Y)*way.X-(b.X-a.X)*way.Y > 0
	}
	out := make([]r3.Vec, 0, len(polygon)+2)
	for i, p := range polygon {
		before, after := goes((i+len(polygon)-1)%len(polygon)), goes(i)
		gone := r3.Add(p, way)
		switch {
		case before && after:
			out = append(out, gone)
		case before:
			out = append(out, gone, p)
		case after:
			out = append(out, p, gone)
		default:
			out = append(out, p)
		}
	}
	return out
}

// cutSides is in how many sides the disc is cut out of a shadow.
const cutSides = 48

// within is the part of a convex polygon that lies on the disc.
func (d disc) within(polygon []r3.Vec) []r3.Vec {
	for i := range cutSides {
		s, c := math.Sincos(2 * math.Pi * (float64(i) + 0.5) / cutSides)
		polygon = halved(polygon, r3.Vec{X: c, Y: s}, d.radius*math.Cos(math.Pi/cutSides))
	}
	return polygon
}

// halved is the part of a polygon that lies no farther than so far along a
// direction.
func halved(polygon []r3.Vec, way r3.Vec, far float64) []r3.Vec {
	crosses := false
	for _, p := range polygon {
		crosses = crosses || r3.Dot(p, way) > far
	}
	if !crosses {
		return polygon
	}
	var out []r3.Vec
	for i, q := range polygon {
		p := polygon[(i+len(polygon)-1)%len(polygon)]
		a, b := r3.Dot(p, way)-far, r3.Dot(q, way)-far
		if (a > 0) != (b > 0) {
			out = append(out, r3.Add(p, r3.Scale(a/(a-b), r3.Sub(q, p))))
		}
		if b <= 0 {
			out = append(out, q)
		}
	}
	return out
}

// shade darkens the table where shadows fall.
func (m *room) shade() {
	if m.eye.Pose.At.Z <= 0 {
		return
	}
	for _, s := range m.dark {
		m.begin()
		m.add(s.rim)
		m.fill(m.dim(shade), s.dark)
	}
}
