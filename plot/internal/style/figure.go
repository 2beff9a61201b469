package style

import (
	"errors"
	"io"

	"gonum.org/v1/plot/vg"
)

// Frame is how wide a figure is, and the room to the left and right of its panels.
type Frame struct{ Width, Left, Right vg.Length }

// Figure is the skeleton of every figure: a head, and below it what its Body draws.
type Figure struct {
	Frame
	Title  string
	Lines  []string                    // small print below the title
	Lacks  string                      // why there is nothing to draw; "" where there is
	Height vg.Length                   // of the body
	Body   func(s *Sheet, y vg.Length) // from y down
}

// Write draws the figure and writes it to w as "png", "svg" or "pdf". It returns an
// error for another format, where there is nothing to draw, and when w fails.
func (f Figure) Write(w io.Writer, format string) error {
	if err := CheckFormat(format); err != nil {
		return err
	}
	if f.Lacks != "" {
		return errors.New(f.Lacks)
	}
	head := NewHead(f.Width, f.Title, f.Lines...)
	s, err := NewSheet(format, f.Width, head.Height()+f.Height)
	if err != nil {
		return err
	}
	f.Body(s, head.Draw(s))
	_, err = s.WriteTo(w)
	return err
}

// Panel returns a panel of a figure, from top down.
func (f Frame) Panel(s *Sheet, top, height vg.Length) Panel {
	return Panel{Sheet: s, Left: f.Left, Right: f.Width - f.Right, Top: top, Bottom: top - height}
}

// Heading writes what a panel shows, name first, with its top at y.
func (s *Sheet) Heading(x, y vg.Length, name, rest string) {
	x += 6 + s.Text(x, y-Large, name, Style{Size: Large, Bold: true, Color: Ink, Align: -1})
	st := Style{Size: Body, Color: Muted, Align: -1}
	s.Text(x, y-Large, Fit(rest, s.Width-Edge-x, st), st)
}

// Along names what runs along the foot of the panel.
func (p Panel) Along(text string) {
	p.Sheet.Text((p.Left+p.Right)/2, p.Bottom-18-Small, text, Style{Size: Small, Color: Muted})
}

// Mark marks a point and names it, within the panel.
func (p Panel) Mark(x, y float64, name string) {
	at, st := p.At(x, y), Style{Size: Small, Bold: true, Color: Ink}
	p.Sheet.Dot(at, 4, Ink)
	name = Fit(name, 150, st)
	half := TextWidth(name, st) / 2
	p.Sheet.Text(min(max(at.X, p.Left+half+4), p.Right-half-4), at.Y+9, name, st)
}

// keyRow is the height of a row of names.
const keyRow vg.Length = 16

// perRow is how many names of curves fit beside each other in columns so wide.
func (f Frame) perRow(column vg.Length) int { return int((f.Width - f.Left - f.Right) / column) }

// KeyHeight is what the names of n curves take in columns so wide.
func (f Frame) KeyHeight(column vg.Length, n int) vg.Length {
	return keyRow * vg.Length((n+f.perRow(column)-1)/f.perRow(column))
}

// Key names curves below a panel, each beside a piece of its line, in columns so wide.
// It returns the y below.
func (f Frame) Key(s *Sheet, y, column vg.Length, names []string) vg.Length {
	for i, name := range names {
		x := f.Left + column*vg.Length(i%f.perRow(column))
		at := y - keyRow*vg.Length(i/f.perRow(column)) - Small
		s.Line(x, at+Small*0.35, x+20, at+Small*0.35, 2.2, Hue(i), Dash(i)...)
		st := Style{Size: Small, Color: TextHue(i), Align: -1}
		s.Text(x+24, at, Fit(name, column-28, st), st)
	}
	return y - f.KeyHeight(column, len(names))
}
