package look

import (
	"image/color"

	gplot "gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
)

// Panel maps values to a rectangle of the sheet.
type Panel struct {
	Sheet                    *Sheet
	Left, Bottom, Right, Top vg.Length
	X0, X1, Y0, Y1           float64
}

// X returns where value x lies.
func (p Panel) X(x float64) vg.Length {
	return p.Left + (p.Right-p.Left)*vg.Length((x-p.X0)/(p.X1-p.X0))
}

// Y returns where value y lies.
func (p Panel) Y(y float64) vg.Length {
	return p.Bottom + (p.Top-p.Bottom)*vg.Length((y-p.Y0)/(p.Y1-p.Y0))
}

// At returns where the point (x, y) lies.
func (p Panel) At(x, y float64) vg.Point { return vg.Point{X: p.X(x), Y: p.Y(y)} }

// GridY draws a hairline and a label for each tick; the zero line is darker.
func (p Panel) GridY(ticks []gplot.Tick) {
	for _, t := range ticks {
		y, c := p.Y(t.Value), color.Color(Faint)
		if t.Value == 0 {
			c = Rule
		}
		p.Sheet.Line(p.Left, y, p.Right, y, 0.7, c)
		p.Sheet.Text(p.Left-6, y-Small*0.35, t.Label, Style{Size: Small, Color: Muted, Align: 1})
	}
}

// GridX draws a hairline for each tick, and its label below the panel when
// labels is set.
func (p Panel) GridX(ticks []gplot.Tick, labels bool) {
	for _, t := range ticks {
		x := p.X(t.Value)
		p.Sheet.Line(x, p.Bottom, x, p.Top, 0.7, Faint)
		if labels {
			p.Sheet.Text(x, p.Bottom-Small-3, t.Label, Style{Size: Small, Color: Muted})
		}
	}
}

// Curve draws the values as a line of curve style i.
func (p Panel) Curve(xs, ys []float64, i int) {
	pts := make([]vg.Point, len(xs))
	for k := range xs {
		pts[k] = p.At(xs[k], ys[k])
	}
	p.Sheet.Polyline(pts, 2.2, Hue(i), Dash(i)...)
}

// Limit draws a dashed level and its label, which sits above the line at the
// right end, or below it when below is set.
func (p Panel) Limit(y float64, label string, below bool) {
	at := p.Y(y)
	p.Sheet.Line(p.Left, at, p.Right, at, 1, Ink, 3, 3)
	dy := vg.Length(3)
	if below {
		dy = -Small + 1
	}
	p.Sheet.Text(p.Right-3, at+dy, label, Style{Size: Small, Color: Ink, Align: 1})
}

// Band shades [x0, x1] over the whole height.
func (p Panel) Band(x0, x1 float64) {
	p.Sheet.Fill(p.X(x0), p.Bottom, p.X(x1), p.Top, Shade)
}
