package spinplot

import (
	"gonum.org/v1/plot/vg"

	"seamrail/plot/internal/look"
)

// phases draws where everything is over the best loop, one row a thing: all of
// them end where they began, or the loop does not close.
func (d Data) phases(s *look.Sheet, y vg.Length) {
	if len(d.Phases) == 0 {
		return
	}
	st := look.Style{Size: look.Large, Bold: true, Color: look.Ink, Align: -1}
	x := look.Edge + s.Text(look.Edge, y-look.Large, "over one loop", st)
	plain := look.Style{Size: look.Body, Color: look.Muted, Align: -1}
	s.Text(x+6, y-look.Large, look.Fit(d.Best, width-look.Edge-x-6, plain), plain)
	y -= phaseTitle
	for i, p := range d.Phases {
		y = d.phase(s, y, i, p, i == len(d.Phases)-1)
	}
}

func (d Data) phase(s *look.Sheet, y vg.Length, i int, p Phase, last bool) vg.Length {
	st := look.Style{Size: look.Body, Bold: true, Color: look.TextHue(i), Align: -1}
	x := left + s.Text(left, y-look.Body, look.Fit(p.Name, 130, st), st)
	small := look.Style{Size: look.Small, Color: look.Muted, Align: -1}
	x += 6 + s.Text(x+6, y-look.Body, p.Axis, small)
	small.Align = 1
	s.Text(width-right, y-look.Body, look.Fit(p.End, width-right-x-8, small), small)
	y -= phaseTitle
	pan := look.Panel{Sheet: s, Left: left, Right: width - right, Top: y, Bottom: y - phaseHeight, X1: d.Screen, Y0: -0.06, Y1: 1.06}
	pan.GridX(look.Ticks(0, d.Screen, 6, false), last)
	pan.GridY([]look.Tick{{Value: 0, Label: "0"}, {Value: 0.5, Label: "1/2"}, {Value: 1, Label: "1"}})
	for _, edge := range []vg.Length{pan.Left, pan.Right} {
		s.Line(edge, pan.Bottom, edge, pan.Top, 1, look.Rule)
	}
	pts := make([]vg.Point, len(p.Shape))
	for k, q := range p.Shape {
		pts[k] = pan.At(q.Screen, q.Share)
	}
	s.Polyline(pts, 2, look.Hue(i))
	if n := len(pts); n > 0 {
		s.Dot(pts[0], 3, look.Hue(i))
		s.Dot(pts[n-1], 3, look.Hue(i))
	}
	if last {
		s.Text((pan.Left+pan.Right)/2, pan.Bottom-18-look.Small, "seconds on screen", look.Style{Size: look.Small, Color: look.Muted})
	}
	return pan.Bottom - phaseGap
}
