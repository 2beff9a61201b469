package shakeplot

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
	width      vg.Length = 432
	left       vg.Length = 56
	right      vg.Length = 22
	titleRoom  vg.Length = 24
	leftHeight vg.Length = 220
	loopHeight vg.Length = 150
	axisRoom   vg.Length = 40
	keyRow     vg.Length = 16
	keyColumn  vg.Length = 177
	foot       vg.Length = 16
)

// Draw draws d and writes it to w as "png", "svg" or "pdf". It returns an error
// for another format, when no curve has two points, and when w fails.
func Draw(w io.Writer, format string, d Data) error {
	if err := style.CheckFormat(format); err != nil {
		return err
	}
	if !slices.ContainsFunc(d.Curves, func(c Curve) bool { return len(c.Seconds) > 1 }) || !(d.Period > 0) {
		return errors.New("nothing to draw: no law leaves anything at two durations or more")
	}
	head := style.NewHead(width, d.Title, d.Notes...)
	s, err := style.NewSheet(format, width, head.Height()+d.height())
	if err != nil {
		return err
	}
	y := d.durations(s, head.Draw(s))
	d.loop(s, y)
	_, err = s.WriteTo(w)
	return err
}

func (d Data) height() vg.Length {
	h := titleRoom + leftHeight + axisRoom + keyHeight(len(d.Curves)) + foot
	if len(d.Lines) > 0 {
		h += titleRoom + loopHeight + axisRoom + keyHeight(len(d.Lines))
	}
	return h
}

// perRow is how many names of curves fit beside each other.
const perRow = int((width - left - right) / keyColumn)

func keyHeight(n int) vg.Length { return keyRow * vg.Length((n+perRow-1)/perRow) }

// heading writes what a panel shows and returns the y below it.
func (d Data) heading(s *style.Sheet, y vg.Length, text string) vg.Length {
	s.Text(style.Edge, y-style.Body-2, text, style.Style{Size: style.Body, Color: style.Ink, Align: -1})
	return y - titleRoom
}

// key names curves below a panel, each beside a piece of its line.
func key(s *style.Sheet, y vg.Length, names []string) vg.Length {
	for i, name := range names {
		x := left + keyColumn*vg.Length(i%perRow)
		at := y - keyRow*vg.Length(i/perRow) - style.Small
		s.Line(x, at+style.Small*0.35, x+20, at+style.Small*0.35, 2.2, style.Hue(i), style.Dash(i)...)
		st := style.Style{Size: style.Small, Color: style.TextHue(i), Align: -1}
		s.Text(x+24, at, style.Fit(name, keyColumn-28, st), st)
	}
	return y - keyHeight(len(names))
}

// decades is how many powers of ten are drawn below the greatest swing: four
// are from the width of the picture to a pixel.
const decades = 4

// durations draws what one way leaves against how long it takes, the swing by
// its logarithm.
func (d Data) durations(s *style.Sheet, y vg.Length) vg.Length {
	y = d.heading(s, y, "what one way leaves swinging, "+d.Unit)
	pan := style.Panel{Sheet: s, Left: left, Right: width - right, Top: y, Bottom: y - leftHeight}
	most, names := 1e-9, []string{}
	for _, c := range d.Curves {
		_, x := style.Extent(c.Seconds)
		_, t := style.Extent(c.Swing)
		pan.X1, most = max(pan.X1, x), max(most, t)
		names = append(names, c.Name)
	}
	pan.Y1 = math.Ceil(math.Log10(most))
	pan.Y0 = pan.Y1 - decades
	pan.GridX(style.Ticks(0, pan.X1, 6, false), true)
	pan.GridY(powers(pan.Y0, pan.Y1))
	d.swings(pan)
	for i, c := range d.Curves {
		pan.Curve(c.Seconds, logarithms(c.Swing, pan.Y0), i)
	}
	d.mark(pan)
	s.Text((pan.Left+pan.Right)/2, pan.Bottom-18-style.Small, "real seconds one way takes", style.Style{Size: style.Small, Color: style.Muted})
	return key(s, pan.Bottom-axisRoom, names)
}

// logarithms are those of the swings, none below low.
func logarithms(swings []float64, low float64) []float64 {
	out := make([]float64, len(swings))
	for i, v := range swings {
		out[i] = max(low, math.Log10(v))
	}
	return out
}

// powers are ticks at powers of ten.
func powers(lo, hi float64) []style.Tick {
	var out []style.Tick
	for k := lo; k <= hi; k++ {
		out = append(out, style.Tick{Value: k, Label: style.Number(math.Pow(10, k))})
	}
	return out
}

// swings marks the durations of whole swings of the rig.
func (d Data) swings(pan style.Panel) {
	for n := 1.0; n*d.Period <= pan.X1 && n <= 12; n++ {
		x := pan.X(n * d.Period)
		pan.Sheet.Line(x, pan.Bottom, x, pan.Top, 1, style.Rule, 3, 3)
		name := style.Number(n) + " swings"
		if n == 1 {
			name = "1 swing"
		}
		st := style.Style{Size: style.Small, Color: style.Muted, Align: -1}
		if w := style.TextWidth(name, st) + 6; (d.Period/pan.X1 > 0.12 || n == 1) && x+w < pan.Right {
			pan.Sheet.Text(x+3, pan.Top-style.Small, name, st)
		}
	}
}

func (d Data) mark(pan style.Panel) {
	if d.Shot == nil || d.Shot.Seconds > pan.X1 {
		return
	}
	at := pan.At(d.Shot.Seconds, min(max(math.Log10(d.Shot.Swing), pan.Y0), pan.Y1))
	pan.Sheet.Dot(at, 4, style.Ink)
	st := style.Style{Size: style.Small, Bold: true, Color: style.Ink}
	name := style.Fit(d.Shot.Name, 150, st)
	half := style.TextWidth(name, st) / 2
	pan.Sheet.Text(min(max(at.X, pan.Left+half+4), pan.Right-half-4), at.Y+9, name, st)
}

// loop draws how the load swings over the loop.
func (d Data) loop(s *style.Sheet, y vg.Length) {
	if len(d.Lines) == 0 {
		return
	}
	y = d.heading(s, y, "how far the load is from the carriage, "+d.Unit)
	pan := style.Panel{Sheet: s, Left: left, Right: width - right, Top: y, Bottom: y - loopHeight}
	var every []float64
	var names []string
	for _, l := range d.Lines {
		_, x := style.Extent(l.Screen)
		pan.X1 = max(pan.X1, x)
		every, names = append(every, l.Units...), append(names, l.Name)
	}
	lo, hi := style.Extent(every)
	if style.Level(lo, hi) {
		lo, hi = -1, 1
	}
	pan.Y0, pan.Y1 = style.Pad(lo, hi)
	if d.Pixel > 0 && 2*d.Pixel < hi-lo {
		s.Fill(pan.Left, pan.Y(max(-d.Pixel/2, pan.Y0)), pan.Right, pan.Y(min(d.Pixel/2, pan.Y1)), style.Shade)
	}
	pan.GridX(style.Ticks(0, pan.X1, 6, false), true)
	pan.GridY(style.Ticks(pan.Y0, pan.Y1, 5, false))
	for i, l := range d.Lines {
		pan.Curve(l.Screen, l.Units, i)
	}
	s.Text((pan.Left+pan.Right)/2, pan.Bottom-18-style.Small, "seconds on screen", style.Style{Size: style.Small, Color: style.Muted})
	key(s, pan.Bottom-axisRoom, names)
}
