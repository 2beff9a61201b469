package topview

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/plot/vg"

	"seamrail/motion/camera/picture"
	"seamrail/plot/internal/style"
)

// farOff is how many times as far from the table's axis as anything else a lamp
// may stand and still be drawn in its place. Beyond it, such as a window across
// the room, it would leave the rest too small to build from.
const farOff = 2.5

// outlying are the places of the lamps that are far off.
func outlying(a picture.TopView) map[r2.Vec]bool {
	reach := 0.0
	lamps := map[r2.Vec]bool{}
	for _, i := range a.Items {
		if i.Kind == picture.LampItem {
			lamps[i.Points[0]] = true
		}
	}
	for _, i := range a.Items {
		if i.Kind == picture.BeamItem || len(i.Points) > 0 && lamps[i.Points[0]] {
			continue
		}
		for _, p := range i.Points {
			reach = max(reach, r2.Norm(p)+i.Radius)
		}
	}
	out := map[r2.Vec]bool{}
	for at := range lamps {
		if reach > 0 && r2.Norm(at) > farOff*reach {
			out[at] = true
		}
	}
	return out
}

// inset is how far within the drawing a lamp is marked that stands beyond it,
// in points.
const inset vg.Length = 34

// shown is where a place is marked on the sheet: in its place, or where the way
// to it from the table's axis leaves the drawing.
func (p *page) shown(at r2.Vec) vg.Point {
	if !outlying(p.d.Above)[at] {
		return p.at(at)
	}
	way, ok := within(segment{p.axis, p.at(at)}, p.area.grown(-inset))
	if !ok {
		return p.axis
	}
	if span(way.p, p.axis) > span(way.q, p.axis) {
		return way.p
	}
	return way.q
}

// beyond draws the arrow that tells that a lamp stands farther on.
func (p *page) beyond(at r2.Vec) {
	from := p.shown(at)
	turn := math.Atan2(at.Y, at.X)
	d := vg.Point{X: vg.Length(math.Cos(turn)), Y: vg.Length(math.Sin(turn))}
	tip := from.Add(d.Scale(inset * 0.7))
	p.sheet.Line(from.X, from.Y, tip.X, tip.Y, 1.2, style.TextHue(lampHue))
	p.arrowhead(tip, d.Scale(-1), style.TextHue(lampHue))
}
