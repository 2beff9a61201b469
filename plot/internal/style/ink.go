package style

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Fill paints the rectangle from (x0, y0) to (x1, y1).
func (s *Sheet) Fill(x0, y0, x1, y1 vg.Length, c color.Color) {
	s.FillPolygon(c, []vg.Point{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}})
}

// Line draws a straight line.
func (s *Sheet) Line(x0, y0, x1, y1 vg.Length, width vg.Length, c color.Color, dash ...vg.Length) {
	s.Polyline([]vg.Point{{X: x0, Y: y0}, {X: x1, Y: y1}}, width, c, dash...)
}

// Polyline draws a line through the points.
func (s *Sheet) Polyline(pts []vg.Point, width vg.Length, c color.Color, dash ...vg.Length) {
	if len(pts) < 2 {
		return
	}
	for _, line := range s.onPaper(pts) {
		s.StrokeLines(draw.LineStyle{Color: c, Width: width, Dashes: dash}, line)
	}
}

// Dot paints a disc of radius r with a rim of paper, so that it stands clear
// of the line it sits on.
func (s *Sheet) Dot(p vg.Point, r vg.Length, c color.Color) {
	s.disc(p, r+0.8, Paper)
	s.disc(p, r, c)
}

// Ring draws a hollow dot of radius r.
func (s *Sheet) Ring(p vg.Point, r, width vg.Length, c color.Color) {
	if !s.shows(p, r) {
		return
	}
	s.disc(p, r, Paper)
	s.SetLineStyle(draw.LineStyle{Color: c, Width: width})
	s.Stroke(circle(p, r))
}

func (s *Sheet) disc(p vg.Point, r vg.Length, c color.Color) {
	if !s.shows(p, r) {
		return
	}
	s.SetColor(c)
	s.Canvas.Fill(circle(p, r))
}

func circle(p vg.Point, r vg.Length) vg.Path {
	var path vg.Path
	path.Move(vg.Point{X: p.X + r, Y: p.Y})
	path.Arc(p, r, 0, 2*math.Pi)
	path.Close()
	return path
}
