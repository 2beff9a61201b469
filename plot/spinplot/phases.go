package spinplot

import (
	gplot "gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"

	"seamrail/motion/list"
	"seamrail/plot/internal/look"
)

// phases draws where everything is over the best loop, one row a thing: all of
// them end where they began, or the loop does not close.
func (d Data) phases(s *look.Sheet, y vg.Length) {
	if len(d.Phases) == 0 {
		return
	}
	s.Heading(look.Edge, y, "over one loop", d.Best)
	y -= phaseTitle
	for i, p := range d.Phases {
		y = d.phase(s, y, i, p, i == len(d.Phases)-1)
	}
}

func (d Data) phase(s *look.Sheet, y vg.Length, i int, p Phase, last bool) vg.Length {
	st := look.Style{Size: look.Body, Bold: true, Color: look.TextHue(i), Align: -1}
	x := frame.Left + s.Text(frame.Left, y-look.Body, look.Fit(p.Name, 130, st), st)
	small := look.Style{Size: look.Small, Color: look.Muted, Align: -1}
	x += 6 + s.Text(x+6, y-look.Body, p.Axis, small)
	small.Align = 1
	end := frame.Width - frame.Right
	s.Text(end, y-look.Body, look.Fit(p.End, end-x-8, small), small)
	y -= phaseTitle
	pan := frame.Panel(s, y, phaseHeight)
	pan.X1, pan.Y0, pan.Y1 = d.Screen, -0.06, 1.06
	pan.GridX(look.Ticks(0, d.Screen, 6, false), last)
	pan.GridY([]gplot.Tick{{Value: 0, Label: "0"}, {Value: 0.5, Label: "1/2"}, {Value: 1, Label: "1"}})
	for _, edge := range []vg.Length{pan.Left, pan.Right} {
		s.Line(edge, pan.Bottom, edge, pan.Top, 1, look.Rule)
	}
	pts := list.Map(p.Shape, func(q Point) vg.Point { return pan.At(q.Screen, q.Share) })
	s.Polyline(pts, 2, look.Hue(i))
	if n := len(pts); n > 0 {
		s.Dot(pts[0], 3, look.Hue(i))
		s.Dot(pts[n-1], 3, look.Hue(i))
	}
	if last {
		pan.Along("seconds on screen")
	}
	return pan.Bottom - phaseGap
}
