package planview

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"seamrail/motion/picture"
	"seamrail/plot/internal/look"
)

// labels names what is drawn, where there is room.
func (p *page) labels() {
	p.d.of(picture.RailItem, func(i picture.Item) {
		way := segment{p.at(i.Points[0]), p.at(i.Points[1])}
		p.name(way.middle(), i.Label, look.Muted, math.Atan2(float64(-way.left().Y), float64(-way.left().X)))
	})
	p.d.of(picture.SweptItem, func(i picture.Item) {
		rim := r2.Add(i.Points[0], r2.Rotate(r2.Vec{X: i.Radius}, pi/4, r2.Vec{}))
		p.name(p.at(rim), i.Label, look.TextHue(productHue), pi/4)
	})
	p.d.of(picture.DarkItem, func(i picture.Item) {
		p.name(p.at(i.Points[1]), i.Label, look.Ink, 0)
	})
	p.d.of(picture.SharpItem, p.sharp)
	p.d.of(picture.FieldItem, p.field)
}

// ended is a label with the letter of the lens it belongs to, where there are
// two.
func (p *page) ended(i picture.Item) string {
	if len(p.d.Above.Lenses) < 2 {
		return i.Label
	}
	return letter(i.End) + ": " + i.Label
}

// rightOf tells whether what belongs to an end is named on its right: the
// names of the two ends go apart.
func (p *page) rightOf(end int) bool {
	first := true
	if eyes := p.d.Above.Lenses; len(eyes) > 1 {
		first = eyes[0].X >= eyes[1].X
	}
	return first == (end == 0)
}

// sharp names what is sharp, beside it.
func (p *page) sharp(i picture.Item) {
	near, far, wanted := i.Points[0], i.Points[3], pi // its left side
	if p.rightOf(i.End) {
		near, far, wanted = i.Points[1], i.Points[2], 0
	}
	side := segment{p.at(near), p.at(far)}
	p.name(side.middle(), p.ended(i), look.TextHue(hueOf(i.End)), wanted)
}

// field names what the picture holds, at the far end of its wedge.
func (p *page) field(i picture.Item) {
	corner := i.Points[2]
	if p.rightOf(i.End) {
		corner = i.Points[1]
	}
	at, from := p.at(corner), p.at(i.Points[0])
	way := at.Sub(from)
	p.name(at, p.ended(i), look.TextHue(hueOf(i.End)), math.Atan2(float64(way.Y), float64(way.X)))
}
