// Package reachplot draws how long a loop must be for a travel, law by law.
package reachplot

import (
	"errors"
	"io"
	"slices"

	"gonum.org/v1/plot/vg"

	"seamrail/plot/internal/style"
)

// Curve is one law's shortest loop, in on-screen seconds, at each travel.
// Travel is in rising order and the two are equally long.
type Curve struct {
	Name           string
	Travel, Screen []float64
}

// Point is a shot as it stands.
type Point struct {
	Name           string
	Travel, Screen float64
}

// Data is what a figure shows.
type Data struct {
	Title  string
	Lines  []string // small print below the title
	Unit   string   // "mm" or "deg"
	Whole  float64  // the axis' whole travel in units, 0 for none
	Curves []Curve
	Shot   *Point // nil: none is marked
}

// The layout, in points.
const (
	width      vg.Length = 432
	left       vg.Length = 56
	right      vg.Length = 122
	plotHeight vg.Length = 300
	titleRoom  vg.Length = 24
	below      vg.Length = 62
	labelGap             = 14.0
)

// Draw draws d and writes it to w as "png", "svg" or "pdf". It returns an
// error for another format, when no curve has two points, and when w fails.
func Draw(w io.Writer, format string, d Data) error {
	if err := style.CheckFormat(format); err != nil {
		return err
	}
	if !slices.ContainsFunc(d.Curves, func(c Curve) bool { return len(c.Travel) > 1 }) {
		return errors.New("nothing to draw: no law has a loop at two travels or more")
	}
	head := style.NewHead(width, d.Title, d.Lines...)
	s, err := style.NewSheet(format, width, head.Height()+titleRoom+plotHeight+below)
	if err != nil {
		return err
	}
	y := head.Draw(s) - titleRoom
	s.Text(style.Edge, y+8, "shortest loop, seconds on screen", style.Style{Size: style.Body, Color: style.Ink, Align: -1})
	pan := d.panel(s, y)
	d.ground(pan)
	for i, c := range d.Curves {
		pan.Curve(c.Travel, c.Screen, i)
	}
	d.labels(pan)
	d.mark(pan)
	_, err = s.WriteTo(w)
	return err
}

// panel spans every curve and the shot, from nothing.
func (d Data) panel(s *style.Sheet, y vg.Length) style.Panel {
	p := style.Panel{Sheet: s, Left: left, Right: width - right, Top: y, Bottom: y - plotHeight, Y1: 1e-9}
	for _, c := range d.Curves {
		_, x := style.Extent(c.Travel)
		_, t := style.Extent(c.Screen)
		p.X1, p.Y1 = max(p.X1, x), max(p.Y1, t)
	}
	if d.Shot != nil {
		p.X1, p.Y1 = max(p.X1, d.Shot.Travel), max(p.Y1, d.Shot.Screen)
	}
	p.Y1 *= 1.08
	return p
}
