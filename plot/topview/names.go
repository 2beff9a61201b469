package topview

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/plot/vg"

	"seamrail/motion/camera/picture"
	"seamrail/plot/internal/style"
)

// labels names what is drawn, where there is room.
func (p *page) labels() {
	p.d.of(picture.RailItem, func(i picture.Item) {
		way := segment{p.at(i.Points[0]), p.at(i.Points[1])}
		p.name(way.middle(), i.Label, way.length(), style.Muted, math.Atan2(float64(-way.left().Y), float64(-way.left().X)))
	})
	p.d.of(picture.SweptItem, func(i picture.Item) {
		rim := r2.Add(i.Points[0], r2.Rotate(r2.Vec{X: i.Radius}, pi/4, r2.Vec{}))
		p.name(p.at(rim), i.Label, 2*p.scale.Length(i.Radius), style.TextHue(productHue), pi/4)
	})
	p.d.of(picture.DarkItem, func(i picture.Item) {
		face := segment{p.at(i.Points[0]), p.at(i.Points[1])}
		p.name(face.q, i.Label, face.length(), darkInk, 0)
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

// severalLabels is how many go with one picture: it has to be so much larger.
const severalLabels = 2

// sharp names what is sharp, beside it.
func (p *page) sharp(i picture.Item) {
	near, far, wanted := i.Points[0], i.Points[3], pi // its left side
	if p.rightOf(i.End) {
		near, far, wanted = i.Points[1], i.Points[2], 0
	}
	side := segment{p.at(near), p.at(far)}
	p.seen(i, side.middle(), segment{p.at(i.Points[0]), p.at(i.Points[1])}.length(), wanted)
}

// seen names what belongs to the picture at an end, which the list tells of only where
// the drawing cannot.
func (p *page) seen(i picture.Item, at vg.Point, wide vg.Length, wanted float64) {
	if text := p.ended(i); !p.name(at, text, wide/severalLabels, style.TextHue(hueOf(i.End)), wanted) {
		p.unnamed = append(p.unnamed, text)
	}
}

// field names what the picture holds, at the far end of its wedge.
func (p *page) field(i picture.Item) {
	corner := i.Points[2]
	if p.rightOf(i.End) {
		corner = i.Points[1]
	}
	at, from := p.at(corner), p.at(i.Points[0])
	way := at.Sub(from)
	p.seen(i, at, segment{p.at(i.Points[1]), p.at(i.Points[2])}.length(), math.Atan2(float64(way.Y), float64(way.X)))
}
