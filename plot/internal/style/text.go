package style

import (
	"image/color"
	"strings"

	"gonum.org/v1/plot/vg"
)

// The sizes of type, in points on a sheet 6 inches wide. On a phone held
// upright the sheet shrinks to about 40 %, and Small is then still 4.4 points
// of a sharp screen: as large as a map's street names.
const (
	Huge  = 19.0
	Large = 13.5
	Body  = 12.0
	Small = 11.0
)

// Style is how a piece of text looks and where it sits relative to its point:
// Align -1 starts there, 0 centres, +1 ends there. Text sits on its baseline.
type Style struct {
	Size  vg.Length
	Bold  bool
	Color color.Color
	Align int
}

// TextWidth returns the width of txt in points.
func TextWidth(txt string, st Style) vg.Length {
	f := Face(st.Size, st.Bold)
	return f.Width(Written(txt))
}

// Text draws txt at (x, y) and returns its width. The PDF back end embeds
// one font alone and sets every other in it, so bold is drawn as outlines there,
// and so is what is not Latin. Where the typeface lacks characters their codes
// stand, but in an SVG, whose viewer has others.
func (s *Sheet) Text(x, y vg.Length, txt string, st Style) vg.Length {
	f, as := Face(st.Size, st.Bold), Written(txt)
	w := f.Width(as)
	switch {
	case st.Align == 0:
		x -= w / 2
	case st.Align > 0:
		x -= w
	}
	if s.raster != nil {
		s.rasterText(f, x, y, as, st.Color)
		return w
	}
	s.SetColor(st.Color)
	if s.narrow && (st.Bold || wide(as)) {
		s.outlineText(f, x, y, as)
		return w
	}
	if s.narrow {
		txt = bytesOf(as)
	}
	s.FillString(f, vg.Point{X: x, Y: y}, txt)
	if txt != as && !s.narrow {
		w = 0 // a viewer has another typeface for it
	}
	s.widths = append(s.widths, w)
	return f.Width(as)
}

// bytesOf returns text as the PDF back end takes it: as Windows-1252, which agrees
// with Unicode up to 255.
func bytesOf(text string) string {
	var b strings.Builder
	for _, r := range text {
		b.WriteByte(byte(r))
	}
	return b.String()
}

// Fit shortens txt with "..." until it is at most w points wide.
func Fit(txt string, w vg.Length, st Style) string {
	if TextWidth(txt, st) <= w {
		return txt
	}
	runes := []rune(txt)
	for n := len(runes) - 1; n > 0; n-- {
		if t := strings.TrimSpace(string(runes[:n])) + "..."; TextWidth(t, st) <= w {
			return t
		}
	}
	return ""
}

// Wrap breaks txt at spaces into lines at most w points wide.
func Wrap(txt string, w vg.Length, st Style) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(txt) {
		if line != "" && TextWidth(line+" "+word, st) > w {
			lines, line = append(lines, line), word
			continue
		}
		line = strings.TrimSpace(line + " " + word)
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}
