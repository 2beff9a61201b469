// Package sweepplot draws how far what an axis carries goes beside its foot, frequency by
// frequency.
package sweepplot

import (
	"io"
	"math"

	"gonum.org/v1/plot/vg"

	"seamrail/plot/internal/style"
)

// Line is a response over frequencies: Times has how many times as far as its foot the
// load goes, above 0.
type Line struct{ Hertz, Times []float64 }

// Mark is a resonance, by what it is called.
type Mark struct {
	Hertz, Times float64
	Name         string
}

// Data is what a figure shows.
type Data struct {
	Title string
	Notes []string // small print below the title
	Read  Line     // what was read, as dots
	Bound []float64
	Model Line // what was fitted, as a line
	Marks []Mark
}

// The layout, in points.
const (
	titleRoom vg.Length = 24
	height    vg.Length = 240
	axisRoom  vg.Length = 40
	keyColumn vg.Length = 177
	foot      vg.Length = 16
	dot       vg.Length = 1.5
)

var frame = style.Frame{Width: 432, Left: 56, Right: 22}

// names are those of the two kinds of marks.
var names = []string{"springs that would do so"}

// Draw draws d and writes it to w as "png", "svg" or "pdf". It returns an error for
// another format, when fewer than two frequencies were read, and when w fails.
func Draw(w io.Writer, format string, d Data) error {
	f := style.Figure{Frame: frame, Title: d.Title, Lines: d.Notes, Height: titleRoom + height + axisRoom + frame.KeyHeight(keyColumn, len(names)) + foot}
	if len(d.Read.Hertz) < 2 {
		f.Lacks = "nothing to draw: fewer than two frequencies were read"
	}
	f.Body = d.body
	return f.Write(w, format)
}

func (d Data) body(s *style.Sheet, y vg.Length) {
	s.Text(style.Edge, y-style.Body-2, "how many times as far as its foot the load goes", style.Style{Size: style.Body, Color: style.Ink, Align: -1})
	pan := frame.Panel(s, y-titleRoom, height)
	pan.X0, pan.X1 = style.Extent(d.Read.Hertz)
	lo, hi := style.Extent(logs(append(append([]float64{1}, d.Read.Times...), d.Model.Times...)))
	pan.Y0, pan.Y1 = style.Pad(lo, hi)
	pan.GridX(style.Ticks(pan.X0, pan.X1, 8, false), true)
	pan.GridY(ticks(pan.Y0, pan.Y1))
	for _, m := range d.Marks {
		x := pan.X(m.Hertz)
		s.Line(x, pan.Bottom, x, pan.Y(math.Log10(m.Times)), 1, style.Rule, 3, 3)
	}
	pan.Curve(d.Model.Hertz, logs(d.Model.Times), 0)
	d.dots(pan)
	for _, m := range d.Marks {
		pan.Mark(m.Hertz, math.Log10(m.Times), m.Name)
	}
	pan.Along("Hz")
	frame.Key(s, pan.Bottom-axisRoom, keyColumn, names)
	x := frame.Left + keyColumn
	at := pan.Bottom - axisRoom - style.Small
	s.Dot(vg.Point{X: x + 10, Y: at + style.Small*0.35}, dot, style.Ink)
	s.Text(x+24, at, "read off the record, 95 %", style.Style{Size: style.Small, Color: style.Ink, Align: -1})
}

// dots are what was read, each with how far it may be out.
func (d Data) dots(pan style.Panel) {
	for i, f := range d.Read.Hertz {
		v := d.Read.Times[i]
		at := pan.At(f, math.Log10(v))
		if i < len(d.Bound) {
			low, high := math.Log10(max(v-d.Bound[i], math.Pow(10, pan.Y0))), math.Log10(v+d.Bound[i])
			pan.Sheet.Line(at.X, pan.Y(low), at.X, pan.Y(min(high, pan.Y1)), 0.8, style.Ink)
		}
		pan.Sheet.Dot(at, dot, style.Ink)
	}
}

func logs(of []float64) []float64 {
	out := make([]float64, len(of))
	for i, v := range of {
		out[i] = math.Log10(max(v, tiny))
	}
	return out
}

// tiny is what is drawn at the least: a load that stays where it is has no logarithm.
const tiny = 1e-3

// ticks are ones, twos and fives.
func ticks(lo, hi float64) (out []style.Tick) {
	for k := math.Floor(lo); k <= hi; k++ {
		for _, n := range []float64{1, 2, 5} {
			if v := k + math.Log10(n); v >= lo && v <= hi {
				out = append(out, style.Tick{Value: v, Label: style.Number(n * math.Pow(10, k))})
			}
		}
	}
	return out
}
