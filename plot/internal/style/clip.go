package style

import (
	"image/color"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Values may lie anywhere, and the back ends walk a line, a disc or the dashes of
// a line from end to end, however far off the paper these are. So everything is
// cut to the paper before it is drawn: then what a figure costs is bounded by its
// size. What is on the paper is drawn as it is, to the byte.

// rim is how far beyond the paper is still drawn, in points: wider than any line
// and any dot, so that no cut end shows.
const rim = vg.Length(36)

// farthest stands for what is endless, in points. Far less is off every paper, and
// far more loses the digits that tell where a line enters it.
const farthest = 1e9

// shows tells whether a disc of radius r may show.
func (s *Sheet) shows(p vg.Point, r vg.Length) bool {
	return math.Abs(float64(p.X-s.Width/2)) <= float64(s.Width/2+r+rim) && math.Abs(float64(p.Y-s.Height/2)) <= float64(s.Height/2+r+rim)
}

// around is the paper with its rim.
func (s *Sheet) around() draw.Canvas {
	return draw.Canvas{Rectangle: vg.Rectangle{Min: vg.Point{X: -rim, Y: -rim}, Max: vg.Point{X: s.Width + rim, Y: s.Height + rim}}}
}

// onPaper cuts a line to the paper. Points that are nowhere part it.
func (s *Sheet) onPaper(pts []vg.Point) [][]vg.Point {
	if !slices.ContainsFunc(pts, func(p vg.Point) bool { return !s.shows(p, 0) }) {
		return [][]vg.Point{pts}
	}
	var lines [][]vg.Point
	var line []vg.Point
	for _, p := range pts {
		if !nowhere(p) {
			line = append(line, near(p))
			continue
		}
		lines, line = append(lines, line), nil
	}
	c := s.around()
	cut := c.ClipLinesXY(slices.DeleteFunc(append(lines, line), func(l []vg.Point) bool { return len(l) < 2 })...)
	return slices.DeleteFunc(cut, func(l []vg.Point) bool { return len(l) < 2 })
}

// FillPolygon paints what is on the paper of a polygon.
func (s *Sheet) FillPolygon(c color.Color, pts []vg.Point) {
	if slices.ContainsFunc(pts, func(p vg.Point) bool { return !s.shows(p, 0) }) {
		if slices.ContainsFunc(pts, nowhere) {
			return
		}
		around := s.around()
		pts = around.ClipPolygonXY(nearAll(pts))
	}
	if len(pts) > 2 {
		s.Canvas.FillPolygon(c, pts)
	}
}

func nowhere(p vg.Point) bool { return math.IsNaN(float64(p.X)) || math.IsNaN(float64(p.Y)) }

func near(p vg.Point) vg.Point {
	return vg.Point{X: max(-farthest, min(farthest, p.X)), Y: max(-farthest, min(farthest, p.Y))}
}

func nearAll(pts []vg.Point) []vg.Point {
	out := make([]vg.Point, len(pts))
	for i, p := range pts {
		out[i] = near(p)
	}
	return out
}
