package spinplot

import (
	"gonum.org/v1/plot/vg"

	"seamrail/plot/internal/style"
)

// phases draws where everything is over the best loop, one row a thing: all of
// them end where they began, or the loop does not close.
func (d Data) phases(s *style.Sheet, y vg.Length) {
	if len(d.Phases) == 0 {
		return
	}
	st := style.Style{Size: style.Large, Bold: true, Color: style.Ink, Align: -1}
	x := style.Edge + s.Text(style.Edge, y-style.Large, "over one loop", st)
	plain := style.Style{Size: style.Body, Color: style.Muted, Align: -1}
	s.Text(x+6, y-style.Large, style.Fit(d.Best, width-style.Edge-x-6, plain), plain)
	y -= phaseTitle
	for i, p := range d.Phases {
		y = d.phase(s, y, i, p, i == len(d.Phases)-1)
	}
}

func (d Data) phase(s *style.Sheet, y vg.Length, i int, p Phase, last bool) vg.Length {
	st := style.Style{Size: style.Body, Bold: true, Color: style.TextHue(i), Align: -1}
	x := left + s.Text(left, y-style.Body, style.Fit(p.Name, 130, st), st)
	small := style.Style{Size: style.Small, Color: style.Muted, Align: -1}
	x += 6 + s.Text(x+6, y-style.Body, p.Axis, small)
	small.Align = 1
	s.Text(width-right, y-style.Body, style.Fit(p.End, width-right-x-8, small), small)
	y -= phaseTitle
	pan := style.Panel{Sheet: s, Left: left, Right: width - right, Top: y, Bottom: y - phaseHeight, X1: d.Screen, Y0: -0.06, Y1: 1.06}
	pan.GridX(style.Ticks(0, d.Screen, 6, false), last)
	pan.GridY([]style.Tick{{Value: 0, Label: "0"}, {Value: 0.5, Label: "1/2"}, {Value: 1, Label: "1"}})
	for _, edge := range []vg.Length{pan.Left, pan.Right} {
		s.Line(edge, pan.Bottom, edge, pan.Top, 1, style.Rule)
	}
	pts := make([]vg.Point, len(p.Shape))
	for k, q := range p.Shape {
		pts[k] = pan.At(q.Screen, q.Share)
	}
	s.Polyline(pts, 2, style.Hue(i))
	if n := len(pts); n > 0 {
		s.Dot(pts[0], 3, style.Hue(i))
		s.Dot(pts[n-1], 3, style.Hue(i))
	}
	if last {
		s.Text((pan.Left+pan.Right)/2, pan.Bottom-18-style.Small, "seconds on screen", style.Style{Size: style.Small, Color: style.Muted})
	}
	return pan.Bottom - phaseGap
}
