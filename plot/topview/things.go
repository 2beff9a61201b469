package topview

import (
	"cmp"
	"image/color"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/plot/vg"

	"seamrail/motion/camera/picture"
	"seamrail/plot/internal/style"
)

// rays draws the two sides of a wedge from its point, and its middle as a
// chain line.
func (p *page) rays(i picture.Item, hue int, dash []vg.Length) {
	from, left, right := i.Points[0], i.Points[1], i.Points[2]
	for _, to := range []r2.Vec{left, right} {
		p.stroke(segment{p.at(from), p.at(to)}, 0.7, style.Hue(hue), dash...)
	}
	if i.Kind == picture.FieldItem {
		middle := segment{p.at(from), p.at(r2.Scale(0.5, r2.Add(left, right)))}
		p.stroke(middle, 0.6, style.Hue(hue), chain...)
		p.spines = append(p.spines, middle)
	}
}

// stroke draws a line as far as the drawing goes and keeps labels off it.
func (p *page) stroke(s segment, width vg.Length, c color.Color, dash ...vg.Length) {
	s, ok := within(s, p.area)
	if !ok {
		return
	}
	p.sheet.Line(s.p.X, s.p.Y, s.q.X, s.q.Y, width, c, dash...)
	p.lines = append(p.lines, s)
}

// within is the part of a segment in a box.
func within(s segment, b box) (segment, bool) {
	points := []vg.Point{s.p, s.q}
	for _, p := range points {
		if !b.has(p) {
			points = clipped([]vg.Point{s.p, s.q}, b)
			break
		}
	}
	if len(points) < 2 {
		return s, false
	}
	return segment{points[0], points[1]}, points[0] != points[1]
}

// loop draws a closed outline.
func (p *page) loop(points []vg.Point, width vg.Length, fill, line color.Color, dash ...vg.Length) {
	if fill != nil {
		p.sheet.FillPolygon(fill, points)
	}
	p.sheet.Polyline(append(points[:len(points):len(points)], points[0]), width, line, dash...)
	for k := range points {
		p.bodies = append(p.bodies, segment{points[k], points[(k+1)%len(points)]})
	}
}

// things draws what stands there.
func (p *page) things() {
	p.d.of(picture.BoardItem, func(i picture.Item) {
		points := p.all(i.Points)
		fill := style.Rule
		if p.d.inDark((i.Points[0].Y + i.Points[3].Y) / 2) {
			fill = darkInk
		}
		p.loop(points, 0.8, fill, style.Ink)
		p.spines = append(p.spines, segment{points[0], points[1]})
	})
	p.d.of(picture.DarkItem, p.dark)
	p.product()
	p.d.of(picture.RailItem, p.rail)
	p.d.of(picture.LensItem, p.lens)
	for k, at := range p.d.Above.Lenses {
		p.cross(p.at(flat(at)), 4, style.Hue(hueOf(k)))
	}
	p.d.of(picture.LampItem, p.lamp)
}

// dark draws the dark, open where there is a hole in it.
func (p *page) dark(i picture.Item) {
	from := i.Points[0]
	part := func(to r2.Vec) {
		if s := (segment{p.at(from), p.at(to)}); s.p.X < s.q.X {
			p.stroke(s, 3.5, darkInk)
			p.bodies = append(p.bodies, s)
		}
	}
	for _, h := range p.d.holesAt(from.Y) {
		part(h[0])
		from = h[1]
	}
	part(i.Points[1])
}

// darkSlack is how far off the dark, in mm, a board may be that is one with it.
const darkSlack = 1.0

// inDark tells whether the dark is at a depth.
func (d Data) inDark(y float64) (in bool) {
	d.of(picture.DarkItem, func(i picture.Item) { in = in || math.Abs(i.Points[0].Y-y) <= darkSlack })
	return in
}

// holesAt are the holes square to the view at a depth, from left to right.
func (d Data) holesAt(y float64) (out [][2]r2.Vec) {
	at := map[r2.Vec]bool{}
	d.of(picture.HoleItem, func(i picture.Item) { at[i.Points[0]] = math.Abs(i.Points[0].Y-y) <= darkSlack })
	d.of(picture.DistanceItem, func(i picture.Item) {
		a, b := i.Points[0], i.Points[1]
		if a.X > b.X {
			a, b = b, a
		}
		if at[r2.Scale(0.5, r2.Add(a, b))] && math.Abs(a.Y-b.Y) < onSide {
			out = append(out, [2]r2.Vec{a, b})
		}
	})
	slices.SortFunc(out, func(a, b [2]r2.Vec) int { return cmp.Compare(a[0].X, b[0].X) })
	return out
}

// rail draws the travel of the lens: a bar with a stop at either end.
func (p *page) rail(i picture.Item) {
	way := segment{p.at(i.Points[0]), p.at(i.Points[1])}
	p.sheet.Line(way.p.X, way.p.Y, way.q.X, way.q.Y, 6, style.Rule)
	p.sheet.Line(way.p.X, way.p.Y, way.q.X, way.q.Y, 4.6, style.Faint)
	for _, end := range []vg.Point{way.p, way.q} {
		n := way.left().Scale(7)
		p.sheet.Line(end.X-n.X, end.Y-n.Y, end.X+n.X, end.Y+n.Y, 1.2, style.Muted)
	}
	p.bodies, p.spines = append(p.bodies, way), append(p.spines, way)
}

// lens draws a part of the lens, solid at one end and dashed at the other.
func (p *page) lens(i picture.Item) {
	if len(i.Points) > 2 {
		p.loop(p.all(i.Points), 1.3, nil, style.Hue(hueOf(i.End)), dashOf(i.End)...)
	}
}

// product draws what is turned, the circle it sweeps, the side that looks at
// the lens, and the axis.
func (p *page) product() {
	p.d.of(picture.ProductItem, func(i picture.Item) {
		if i.Radius > 0 {
			p.loop(p.round(i), 1.4, style.Shade, style.Ink)
			return
		}
		p.loop(p.all(i.Points), 1.4, style.Shade, style.Ink)
		p.d.of(picture.FaceItem, func(face picture.Item) { p.side(i.Points, face.Points[0]) })
	})
	p.d.of(picture.SweptItem, func(i picture.Item) {
		p.loop(p.round(i), 1, nil, style.TextHue(productHue), 5, 3)
	})
	p.d.of(picture.FaceItem, func(i picture.Item) {
		p.sheet.Dot(p.at(i.Points[0]), 2.6, style.TextHue(productHue))
	})
	p.d.of(picture.AxisItem, func(i picture.Item) { p.cross(p.at(i.Points[0]), 9, style.Ink) })
}

// onSide is how far off a side, in mm, a point may be that was found on it.
const onSide = 1e-6

// side draws the sides of an outline that a point is on heavily.
func (p *page) side(corners []r2.Vec, at r2.Vec) {
	for k, a := range corners {
		b := corners[(k+1)%len(corners)]
		if r2.Norm(r2.Sub(a, at))+r2.Norm(r2.Sub(at, b))-r2.Norm(r2.Sub(a, b)) < onSide {
			f, g := p.at(a), p.at(b)
			p.sheet.Line(f.X, f.Y, g.X, g.Y, 3, style.TextHue(productHue))
		}
	}
}

// roundness is how many sides a circle is drawn with: at a radius of a hand's
// breadth on paper it strays by a twentieth of a line's width.
const roundness = 180

func (p *page) round(i picture.Item) []vg.Point {
	points := make([]r2.Vec, roundness)
	for k := range points {
		arm := r2.Rotate(r2.Vec{X: i.Radius}, 2*pi*float64(k)/roundness, r2.Vec{})
		points[k] = r2.Add(i.Points[0], arm)
	}
	return p.all(points)
}

// cross marks a point with arms so long.
func (p *page) cross(at vg.Point, arm vg.Length, c color.Color) {
	for _, s := range []segment{{vg.Point{X: at.X - arm, Y: at.Y}, vg.Point{X: at.X + arm, Y: at.Y}}, {vg.Point{X: at.X, Y: at.Y - arm}, vg.Point{X: at.X, Y: at.Y + arm}}} {
		p.sheet.Line(s.p.X, s.p.Y, s.q.X, s.q.Y, 0.9, c)
		p.bodies = append(p.bodies, s)
	}
}

func (p *page) lamp(i picture.Item) {
	at := p.shown(i.Points[0])
	if outlying(p.d.Above)[i.Points[0]] {
		p.beyond(i.Points[0])
	}
	p.sheet.Ring(at, 5.5, 1.2, style.TextHue(lampHue))
	p.sheet.Dot(at, 2.6, style.Hue(lampHue))
	p.taken = append(p.taken, box{at.X - 6, at.Y - 6, at.X + 6, at.Y + 6})
}
