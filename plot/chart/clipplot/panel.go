package clipplot

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"

	"seamrail/plot/internal/style"
)

const keyColumn vg.Length = 150

// perRow is how many names of curves fit beside each other.
const perRow = 4

func keyHeight(n int) vg.Length { return row * vg.Length((n+perRow-1)/perRow) }

// panel draws what moves over the clip, and the cuts through it.
func (d Data) panel(s *style.Sheet, y vg.Length, p Panel) vg.Length {
	s.Text(style.Edge, y-style.Body-2, p.Title, style.Style{Size: style.Body, Color: style.Ink, Align: -1})
	pan := d.ground(s, y-titleRoom, y-titleRoom-panelHeight)
	pan.Y0, pan.Y1 = p.extent()
	for i, b := range d.Blocks {
		if i%2 == 1 {
			pan.Band(b.Start, b.End)
		}
	}
	pan.GridX(style.Ticks(0, pan.X1, 12, false), true)
	pan.GridY(style.Ticks(pan.Y0, pan.Y1, 5, false))
	for i, c := range p.Curves {
		if c.still() && len(p.Curves) > 1 {
			continue // the zero line says it
		}
		for _, part := range c.Parts {
			pan.Curve(part.Seconds, part.Values, i)
		}
	}
	for i, b := range d.Blocks {
		d.mark(pan, pan.X(b.End), d.Cuts[i].Mark)
	}
	s.Text((pan.Left+pan.Right)/2, pan.Bottom-18-style.Small, "seconds on screen", style.Style{Size: style.Small, Color: style.Muted})
	return key(s, pan.Bottom-axisRoom, p.Curves)
}

// still tells whether a curve is nothing but zero.
func (c Curve) still() bool {
	for _, part := range c.Parts {
		if lo, hi := style.Extent(part.Values); !style.Level(lo, 0) || !style.Level(0, hi) {
			return false
		}
	}
	return true
}

// extent is the range of the panel, zero in it.
func (p Panel) extent() (lo, hi float64) {
	var all []float64
	for _, c := range p.Curves {
		for _, part := range c.Parts {
			all = append(all, part.Values...)
		}
	}
	lo, hi = style.Extent(all)
	lo, hi = math.Min(lo, 0), math.Max(hi, 0)
	if style.Level(lo, hi) {
		return -1, 1
	}
	return style.Pad(lo, hi)
}

// key names the curves, each beside a piece of its line.
func key(s *style.Sheet, y vg.Length, curves []Curve) vg.Length {
	for i, c := range curves {
		x := left + keyColumn*vg.Length(i%perRow)
		at := y - row*vg.Length(i/perRow) - style.Small
		s.Line(x, at+style.Small*0.35, x+20, at+style.Small*0.35, 2.2, style.Hue(i), style.Dash(i)...)
		st := style.Style{Size: style.Small, Color: style.TextHue(i), Align: -1}
		if c.still() {
			c.Name += ": none"
		}
		s.Text(x+24, at, style.Fit(c.Name, keyColumn-28, st), st)
	}
	return y - keyHeight(len(curves))
}

// The hues of the marks: bluish green, orange and vermillion; shape tells them
// apart too.
func (m Mark) hue() color.NRGBA {
	switch m {
	case Easy, Whole:
		return style.Hue(2)
	case Change:
		return style.Hue(4)
	case Break:
		return style.Hue(1)
	}
	return style.Rule
}

// mark draws a cut as a line with its mark on top; where nothing is cut the line
// is broken.
func (d Data) mark(pan style.Panel, x vg.Length, m Mark) {
	if m == Whole {
		pan.Sheet.Line(x, pan.Bottom, x, pan.Top, 0.8, style.Rule, 2, 3)
	} else {
		pan.Sheet.Line(x, pan.Bottom, x, pan.Top, 0.8, style.Ink)
	}
	sign(pan.Sheet, vg.Point{X: x, Y: pan.Top + 5}, m)
}

// sign is a mark alone: a dot, a ring, or a cross.
func sign(s *style.Sheet, at vg.Point, m Mark) {
	const r vg.Length = 4
	switch m {
	case Easy, Whole:
		s.Dot(at, r, m.hue())
	case Break:
		s.Line(at.X-r, at.Y-r, at.X+r, at.Y+r, 2.2, m.hue())
		s.Line(at.X-r, at.Y+r, at.X+r, at.Y-r, 2.2, m.hue())
	default:
		s.Ring(at, r, 2, m.hue())
	}
}
