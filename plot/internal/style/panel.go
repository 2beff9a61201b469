package style

import (
	"image/color"
	"math"

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
func (p Panel) GridY(ticks []Tick) {
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
func (p Panel) GridX(ticks []Tick, labels bool) {
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

// Limit draws a dashed level and its label, where there is one. The label goes
// below or above the line, right, left or in the middle, wherever the curve
// through xs, ys stays furthest from it.
func (p Panel) Limit(y float64, label string, xs, ys []float64) {
	at := p.Y(y)
	p.Sheet.Line(p.Left, at, p.Right, at, 1, Ink, 3, 3)
	if label != "" {
		st := Style{Size: Small, Color: Ink, Align: -1}
		place := p.calm(TextWidth(label, st), at, xs, ys)
		p.Sheet.Text(place.X, place.Y, label, st)
	}
}

// calm returns where a label of width w by a line at height at is best begun.
func (p Panel) calm(w, at vg.Length, xs, ys []float64) vg.Point {
	best, bestGap := vg.Point{X: p.Right - 4 - w, Y: at + 3}, vg.Length(-1)
	for _, y := range []vg.Length{at - Small + 1, at + 3} {
		if y < p.Bottom || y+Small*0.75 > p.Top {
			continue
		}
		for _, x := range []vg.Length{p.Right - 4 - w, p.Left + 4, (p.Left + p.Right - w) / 2} {
			// A point of room decides; else the first place stands.
			if gap := p.Clearance(x, w, y+Small*0.35, xs, ys); gap > bestGap+1 {
				best, bestGap = vg.Point{X: x, Y: y}, gap
			}
		}
	}
	return best
}

// Clearance is how far the curve stays from the level y over [x, x+w].
func (p Panel) Clearance(x, w, y vg.Length, xs, ys []float64) vg.Length {
	gap := 1.2 * Small // beyond that, further is no better
	for i := range xs {
		if at := p.X(xs[i]); at > x-4 && at < x+w+4 {
			gap = min(gap, math.Abs(float64(p.Y(ys[i])-y)))
		}
	}
	return vg.Length(gap)
}

// Band shades [x0, x1] over the whole height.
func (p Panel) Band(x0, x1 float64) {
	p.Sheet.Fill(p.X(x0), p.Bottom, p.X(x1), p.Top, Shade)
}
