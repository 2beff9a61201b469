package style

import "gonum.org/v1/plot/vg"

// Edge is the margin round a sheet, in points.
const Edge vg.Length = 18

// The pitch of a head's lines, in points.
const (
	titlePitch vg.Length = 23
	linePitch  vg.Length = 17
)

var (
	titleStyle = Style{Size: Huge, Bold: true, Color: Ink, Align: -1}
	lineStyle  = Style{Size: Body, Color: Muted, Align: -1}
)

// Head is a title and the small print below it, broken to the width of a sheet.
type Head struct {
	width         vg.Length
	titles, lines []string
}

// NewHead breaks a title and lines for a sheet of width w. Empty lines are
// left out.
func NewHead(w vg.Length, title string, lines ...string) Head {
	h := Head{width: w - 2*Edge, titles: Wrap(title, w-2*Edge, titleStyle)}
	for _, line := range lines {
		h.lines = append(h.lines, Wrap(line, w-2*Edge, lineStyle)...)
	}
	return h
}

// Height is how much of a sheet the head takes.
func (h Head) Height() vg.Length {
	return Edge + titlePitch*vg.Length(len(h.titles)) + linePitch*vg.Length(len(h.lines)) + 8
}

// Draw writes the head at the top of the sheet and returns the y below it.
func (h Head) Draw(s *Sheet) vg.Length { return h.DrawAt(s, Edge, s.Height) }

// DrawAt writes the head with its lines beginning at x, Edge below top, and
// returns the y below it.
func (h Head) DrawAt(s *Sheet, x, top vg.Length) vg.Length {
	y := top - Edge - Huge
	for _, line := range h.titles {
		s.Text(x, y, Fit(line, h.width, titleStyle), titleStyle)
		y -= titlePitch
	}
	y += titlePitch - 20
	for _, line := range h.lines {
		s.Text(x, y, Fit(line, h.width, lineStyle), lineStyle)
		y -= linePitch
	}
	return top - h.Height()
}
