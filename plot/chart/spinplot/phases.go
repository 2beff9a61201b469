package spinplot

import (
	"gonum.org/v1/plot/vg"

	"seamrail/motion/base/list"
	"seamrail/plot/internal/style"
)

// phases draws where everything is over the best loop, one row a thing: all of
// them end where they began, or the loop does not close.
func (d Data) phases(s *style.Sheet, y vg.Length) {
	if len(d.Phases) == 0 {
		return
	}
	s.Heading(style.Edge, y, "over one loop", d.Best)
	y -= phaseTitle
	for i, p := range d.Phases {
		y = d.phase(s, y, i, p, i == len(d.Phases)-1)
	}
}

func (d Data) phase(s *style.Sheet, y vg.Length, i int, p Phase, last bool) vg.Length {
	st := style.Style{Size: style.Body, Bold: true, Color: style.TextHue(i), Align: -1}
	x := frame.Left + s.Text(frame.Left, y-style.Body, style.Fit(p.Name, 130, st), st)
	small := style.Style{Size: style.Small, Color: style.Muted, Align: -1}
	x += 6 + s.Text(x+6, y-style.Body, p.Axis, small)
	small.Align = 1
	end := frame.Width - frame.Right
	s.Text(end, y-style.Body, style.Fit(p.End, end-x-8, small), small)
	y -= phaseTitle
	pan := frame.Panel(s, y, phaseHeight)
	pan.X1, pan.Y0, pan.Y1 = d.Screen, -0.06, 1.06
	pan.GridX(style.Ticks(0, d.Screen, 6, false), last)
	pan.GridY([]style.Tick{{Value: 0, Label: "0"}, {Value: 0.5, Label: "1/2"}, {Value: 1, Label: "1"}})
	for _, edge := range []vg.Length{pan.Left, pan.Right} {
		s.Line(edge, pan.Bottom, edge, pan.Top, 1, style.Rule)
	}
	pts := list.Map(p.Shape, func(q Point) vg.Point { return pan.At(q.Screen, q.Share) })
	s.Polyline(pts, 2, style.Hue(i))
	if n := len(pts); n > 0 {
		s.Dot(pts[0], 3, style.Hue(i))
		s.Dot(pts[n-1], 3, style.Hue(i))
	}
	if last {
		pan.Along("seconds on screen")
	}
	return pan.Bottom - phaseGap
}
