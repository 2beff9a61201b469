package spinplot

import (
	"errors"
	"io"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"

	"seamrail/plot/internal/style"
)

// The layout, in points.
const (
	width       vg.Length = 432
	left        vg.Length = 56
	right       vg.Length = 22
	titleRoom   vg.Length = 24
	plotHeight  vg.Length = 216
	axisRoom    vg.Length = 46
	keyRow      vg.Length = 16
	keyGap      vg.Length = 20
	sampleLine  vg.Length = 24 // of a curve, beside its name
	phaseTitle  vg.Length = 24
	phaseHeight vg.Length = 66
	phaseGap    vg.Length = 12
	foot        vg.Length = 20
)

// Draw draws d and writes it to w as "png", "svg" or "pdf". It returns an error
// for another format, when there is no curve, and when w fails.
func Draw(w io.Writer, format string, d Data) error {
	if err := style.CheckFormat(format); err != nil {
		return err
	}
	if !slices.ContainsFunc(d.Curves, func(c Curve) bool { return len(c.Screen) > 0 }) {
		return errors.New("nothing to draw: there is no loop in the range")
	}
	head := style.NewHead(width, d.Title, d.Lines...)
	s, err := style.NewSheet(format, width, head.Height()+d.height())
	if err != nil {
		return err
	}
	y := d.errors(s, head.Draw(s))
	d.phases(s, y)
	_, err = s.WriteTo(w)
	return err
}

func (d Data) height() vg.Length {
	h := titleRoom + plotHeight + axisRoom + d.keyHeight() + foot
	if len(d.Phases) > 0 {
		h += phaseTitle + vg.Length(len(d.Phases))*(phaseTitle+phaseHeight+phaseGap) - phaseGap + axisRoom
	}
	return h
}

// keyHeight is what the names of the curves take, where there are several.
func (d Data) keyHeight() vg.Length {
	if len(d.Curves) < 2 {
		return 0
	}
	return keyRow*vg.Length(len(d.Curves)) + keyGap
}

// errors draws the panel of closing errors and returns the y below it.
func (d Data) errors(s *style.Sheet, y vg.Length) vg.Length {
	st := style.Style{Size: style.Large, Bold: true, Color: style.Ink, Align: -1}
	x := style.Edge + s.Text(style.Edge, y-style.Large, "closing error", st)
	s.Text(x+6, y-style.Large, d.Unit+", by the length of the loop", style.Style{Size: style.Body, Color: style.Muted, Align: -1})
	pan := d.panel(s, y-titleRoom)
	d.ground(pan)
	for i, line := range d.lines(pan) {
		s.Polyline(line, 1.2, style.Hue(i), style.Dash(i)...)
	}
	d.dots(pan)
	y = pan.Bottom - axisRoom
	for i, c := range d.Curves {
		if len(d.Curves) < 2 {
			break
		}
		y -= keyRow
		if d.lined() {
			s.Line(style.Edge, y+4, style.Edge+sampleLine, y+4, 1.6, style.Hue(i), style.Dash(i)...)
		} else {
			s.Dot(vg.Point{X: style.Edge + sampleLine/2, Y: y + 4}, 4, style.Hue(i))
		}
		x := style.Edge + sampleLine + 8
		s.Text(x, y, style.Fit(c.Name, width-style.Edge-x, style.Style{Size: style.Body}), style.Style{Size: style.Body, Color: style.Ink, Align: -1})
	}
	return y - keyGap
}

// teeth is up to how many matches several curves are drawn as lines: more are a
// thicket, and their dots alone tell.
const teeth = 30

// lined tells whether curves are drawn as lines too.
func (d Data) lined() bool {
	dots := 0
	for _, c := range d.Curves {
		dots += len(c.Dots)
	}
	return len(d.Curves) == 1 || dots <= teeth
}

// panel spans every curve; heights are logarithms, since errors differ by
// powers of ten.
func (d Data) panel(s *style.Sheet, y vg.Length) style.Panel {
	p := style.Panel{Sheet: s, Left: left, Right: width - right, Top: y, Bottom: y - plotHeight, X0: math.Inf(1), X1: math.Inf(-1)}
	lo, hi := math.Inf(1), math.Inf(-1)
	take := func(v float64) {
		if v > 0 {
			lo, hi = min(lo, v), max(hi, v)
		}
	}
	for _, c := range d.Curves {
		for i, x := range c.Screen {
			p.X0, p.X1 = min(p.X0, x), max(p.X1, x)
			take(c.Off[i])
		}
	}
	take(d.Bound)
	if lo > hi {
		lo, hi = 1, 1
	}
	if style.Level(p.X0, p.X1) {
		p.X0, p.X1 = style.Pad(p.X0, p.X1)
	}
	if !d.lined() {
		hi = lo // only dots are drawn
		for _, c := range d.Curves {
			for _, dot := range c.Dots {
				take(dot.Off)
			}
		}
		take(d.Bound)
	}
	const decades = 5 // below that an error is none
	lo = max(lo, hi/math.Pow(10, decades))
	p.Y0, p.Y1 = math.Log10(lo)-cellar, math.Log10(hi)+0.15
	return p
}

// cellar is the room below the least error, in powers of ten; none at all lies
// in the middle of it.
const cellar = 0.5

// lift is how high an error lies.
func lift(pan style.Panel, off float64) float64 {
	floor := pan.Y0 + cellar/2
	if off <= 0 {
		return floor
	}
	return max(math.Log10(off), floor)
}

// exact tells whether a loop closes exactly.
func (d Data) exact() bool {
	return slices.ContainsFunc(d.Curves, func(c Curve) bool { return slices.Contains(c.Off, 0) })
}

// lines are the curves that are drawn as lines, on the panel.
func (d Data) lines(pan style.Panel) [][]vg.Point {
	if !d.lined() {
		return nil
	}
	out := make([][]vg.Point, len(d.Curves))
	for i, c := range d.Curves {
		for k := range c.Screen {
			out[i] = append(out[i], pan.At(c.Screen[k], lift(pan, c.Off[k])))
		}
	}
	return out
}
