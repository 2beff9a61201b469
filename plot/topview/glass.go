package topview

import (
	"image/color"

	"gonum.org/v1/plot/vg"

	"seamrail/motion/camera/picture"
	"seamrail/plot/internal/style"
)

// pane is a convex part of the drawing of one colour.
type pane struct {
	points []vg.Point
	ink    color.NRGBA
}

// maxPanes bounds the parts: as many as eight cones that all cross each other
// make. Beyond it the upper one hides what is below.
const maxPanes = 256

// grounds draws what is seen through: the cones of the lamps, the bodies of the
// lens, what the picture holds and what of it is sharp.
func (p *page) grounds() {
	var panes []pane
	for _, g := range []struct {
		kind     picture.ItemKind
		strength float64
	}{{picture.BeamItem, faint}, {picture.FieldItem, faint}, {picture.LensItem, strong}, {picture.SharpItem, strong}} {
		p.d.of(g.kind, func(i picture.Item) {
			panes = p.glass(panes, i, g.strength)
		})
	}
	p.d.of(picture.BeamItem, func(i picture.Item) { p.rays(i, lampHue, nil) })
	p.d.of(picture.FieldItem, func(i picture.Item) { p.rays(i, hueOf(i.End), dashOf(i.End)) })
	p.d.of(picture.SharpItem, p.limits)
}

// glass lays an item over what is there and paints it, and every part of it
// that lies over another anew.
func (p *page) glass(below []pane, i picture.Item, strength float64) []pane {
	points := clipped(p.all(i.Points), p.area)
	if len(points) < 3 {
		return below
	}
	hue := hueOf(i.End)
	if i.Kind == picture.BeamItem {
		hue = lampHue
	}
	out := append(below, pane{points, tinted(style.Paper, hue, strength)})
	for _, b := range below {
		if part := common(points, b.points); len(part) > 2 && len(out) < maxPanes {
			out = append(out, pane{part, tinted(b.ink, hue, strength)})
		}
	}
	for _, b := range out[len(below):] {
		p.sheet.Keep(b.ink)
		p.sheet.FillPolygon(b.ink, b.points)
	}
	return out
}

// limits draws the near and the far limit of what is sharp.
func (p *page) limits(i picture.Item) {
	for _, side := range [2][2]int{{0, 1}, {2, 3}} {
		s := segment{p.at(i.Points[side[0]]), p.at(i.Points[side[1]])}
		p.stroke(s, 0.7, style.Hue(hueOf(i.End)), dashOf(i.End)...)
	}
}
