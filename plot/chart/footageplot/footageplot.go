// Package footageplot draws what was filmed: what was measured of each frame laid over what was
// planned of it, and how alike each frame is to each other.
package footageplot

import (
	"io"
	"math"

	"gonum.org/v1/plot/vg"

	"seamrail/plot/internal/style"
)

// Series are values over frames of the recording, as many of both, frames rising. A value that is
// not a number is not drawn.
type Series struct{ Frames, Values []float64 }

// Panel is one thing over the recording.
type Panel struct {
	Name, Unit string
	Planned    Series  // as a line; empty where nothing was planned
	Measured   Series  // as dots
	Least      float64 // in Unit, what the panel shows at least: grain is not to look like motion
}

// Mark is a frame that has a name.
type Mark struct {
	Frame float64
	Name  string
}

// Data is what a figure shows.
type Data struct {
	Title  string
	Lines  []string // small print below the title
	Panels []Panel
	Marks  []Mark
}

// The layout, in points.
const (
	panelTitle vg.Length = 24
	panelRoom  vg.Length = 132
	axisRoom   vg.Length = 40
	keyColumn  vg.Length = 177
	markRoom   vg.Length = 14
	foot       vg.Length = 16
	air        vg.Length = 10 // between the head and the first panel
	dot        vg.Length = 1.3
	// most dots are drawn of a panel: more are a band, and make a file that nothing opens.
	most = 1500
)

var frame = style.Frame{Width: 540, Left: 60, Right: 22}

// Draw draws d and writes it to w as "png", "svg" or "pdf". It returns an error for another
// format, where nothing was measured, and when w fails.
func Draw(w io.Writer, format string, d Data) error {
	f := style.Figure{Frame: frame, Title: d.Title, Lines: d.Lines, Height: d.height(), Body: d.body}
	if len(d.Panels) == 0 {
		f.Lacks = "nothing to draw: nothing was measured"
	}
	return f.Write(w, format)
}

func (d Data) height() vg.Length {
	return air + markRoom + vg.Length(len(d.Panels))*(panelTitle+panelRoom+axisRoom) + frame.KeyHeight(keyColumn, 1) + foot
}

func (d Data) body(s *style.Sheet, y vg.Length) {
	y -= air
	from, to := d.extent()
	for n, p := range d.Panels {
		s.Heading(style.Edge, y, p.Name, p.Unit)
		if n == 0 {
			y -= markRoom
		}
		pan := frame.Panel(s, y-panelTitle, panelRoom)
		pan.X0, pan.X1 = from, to
		p.draw(pan)
		for _, m := range d.Marks {
			if m.Frame < from || m.Frame > to {
				continue
			}
			x := pan.X(m.Frame)
			s.Line(x, pan.Bottom, x, pan.Top, 0.8, style.Rule, 3, 3)
			if n == 0 {
				s.Text(x, pan.Top+3, m.Name, style.Style{Size: style.Small, Color: style.Ink})
			}
		}
		if y = pan.Bottom - axisRoom; n == len(d.Panels)-1 {
			pan.Along("frame of the recording")
		}
	}
	d.key(s, y)
}

// extent is from the first frame to the last.
func (d Data) extent() (from, to float64) {
	from, to = math.Inf(1), math.Inf(-1)
	for _, p := range d.Panels {
		for _, s := range []Series{p.Planned, p.Measured} {
			if n := len(s.Frames); n > 0 {
				from, to = math.Min(from, s.Frames[0]), math.Max(to, s.Frames[n-1])
			}
		}
	}
	if !(from < to) {
		return from - 1, from + 1
	}
	return from, to
}

func (p Panel) draw(pan style.Panel) {
	lo, hi := style.Extent(finite(append(append([]float64{}, p.Planned.Values...), p.Measured.Values...)))
	if more := (p.Least - (hi - lo)) / 2; more > 0 {
		lo, hi = lo-more, hi+more
	}
	pan.Y0, pan.Y1 = style.Pad(lo, hi)
	pan.GridX(style.Ticks(pan.X0, pan.X1, 8, false), true)
	pan.GridY(style.Ticks(pan.Y0, pan.Y1, 5, false))
	if len(p.Planned.Frames) > 0 {
		pan.Curve(p.Planned.Frames, p.Planned.Values, 0)
	}
	step := len(p.Measured.Frames)/most + 1
	for n := 0; n < len(p.Measured.Frames); n += step {
		if v := p.Measured.Values[n]; !math.IsNaN(v) {
			at := pan.At(p.Measured.Frames[n], v)
			pan.Sheet.Fill(at.X-dot, at.Y-dot, at.X+dot, at.Y+dot, style.Hue(1))
		}
	}
}

func finite(list []float64) []float64 {
	var out []float64
	for _, v := range list {
		if !math.IsNaN(v) && !math.IsInf(v, 0) {
			out = append(out, v)
		}
	}
	if len(out) == 0 {
		return []float64{0, 0, 0, 1}
	}
	return out
}

func (d Data) key(s *style.Sheet, y vg.Length) {
	x := frame.Left
	if d.planned() {
		frame.Key(s, y, keyColumn, []string{"planned"})
		x += keyColumn
	}
	at := y - style.Small
	s.Fill(x-dot, at-dot+3, x+dot, at+dot+3, style.Hue(1))
	s.Text(x+8, at, "measured", style.Style{Size: style.Small, Color: style.Ink, Align: -1})
}

func (d Data) planned() bool {
	for _, p := range d.Panels {
		if len(p.Planned.Frames) > 0 {
			return true
		}
	}
	return false
}
