package look

import (
	"image/color"
	"strings"

	xfont "golang.org/x/image/font"
	"gonum.org/v1/plot/font"
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

func face(st Style) font.Face {
	f := font.Font{Typeface: "Liberation", Variant: "Sans", Size: st.Size}
	if st.Bold {
		f.Weight = xfont.WeightBold
	}
	return font.DefaultCache.Lookup(f, st.Size)
}

// TextWidth returns the width of txt in points.
func TextWidth(txt string, st Style) vg.Length {
	f := face(st)
	return f.Width(txt)
}

// Text draws txt at (x, y) and returns its width. The PDF back end embeds
// one font alone and sets every other in it, so bold is drawn as outlines there.
func (s *Sheet) Text(x, y vg.Length, txt string, st Style) vg.Length {
	f := face(st)
	w := f.Width(txt)
	switch {
	case st.Align == 0:
		x -= w / 2
	case st.Align > 0:
		x -= w
	}
	if s.raster != nil {
		s.rasterText(f, x, y, txt, st.Color)
		return w
	}
	s.SetColor(st.Color)
	if s.narrow && st.Bold {
		s.outlineText(f, x, y, txt)
		return w
	}
	s.FillString(f, vg.Point{X: x, Y: y}, s.encode(txt))
	s.widths = append(s.widths, w)
	return w
}

// encode returns txt as the back end wants it. The PDF back end takes
// Windows-1252 bytes, which agree with Unicode up to 255.
func (s *Sheet) encode(txt string) string {
	if !s.narrow {
		return txt
	}
	var b strings.Builder
	for _, r := range txt {
		if r > 255 || (r >= 128 && r < 160) {
			r = '?'
		}
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
