package preview

import (
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"io"
	"math"
	"strconv"

	xfont "golang.org/x/image/font"
	"golang.org/x/image/math/fixed"
	"gonum.org/v1/plot/vg"

	"seamrail/plot/internal/style"
)

// The layout of a strip, in px. Type is set so large that it reads where a strip
// of eight is shrunk to half.
const (
	stripEdge   = 24
	stripGap    = 8
	seamGap     = 44
	titleSize   = 26
	numberSize  = 22
	wordSize    = 20
	barHigh     = 56 // of the greatest change
	barWide     = 22
	minReach    = 4.0 // codes of 255 that a bar of full height stands for at least
	headSpacing = 34
)

// StripWords are what is written on a strip; each may be empty.
type StripWords struct {
	Title string
	Lines []string
	Foot  string
}

// WriteStrip writes a strip of stills around the seam as a PNG: the frames in a
// row with their numbers, and between each two a bar for how much the picture
// changes. It returns an error when w fails.
func WriteStrip(w io.Writer, s Seam, words StripWords) error {
	if err := png.Encode(w, Strip(s, words)); err != nil {
		return fmt.Errorf("strip: %w", err)
	}
	return nil
}

// Strip draws a strip.
func Strip(s Seam, words StripWords) *image.RGBA {
	p := newPage(s, words)
	p.head(words)
	for i, still := range s.Stills {
		at := p.place(i)
		draw.Draw(p.img, at, still, image.Point{}, draw.Src)
		p.text(at.Min.X+at.Dx()/2, at.Max.Y+numberSize+6, strconv.FormatInt(s.Frames[i], 10), lettering{numberSize, true, style.Ink, 0})
	}
	p.seam(s)
	p.bars(s)
	p.text(stripEdge, p.img.Rect.Max.Y-stripEdge, words.Foot, lettering{wordSize, false, style.Muted, -1})
	return p.img
}

// page is a strip being drawn.
type page struct {
	img        *image.RGBA
	wide, high int // of a still
	half       int // stills on either side
	top        int // of the stills
}

func newPage(s Seam, words StripWords) *page {
	b := s.Stills[0].Rect
	p := &page{wide: b.Dx(), high: b.Dy(), half: len(s.Stills) / 2}
	p.top = stripEdge + headSpacing*(1+len(words.Lines))
	width := 2*stripEdge + len(s.Stills)*p.wide + (len(s.Stills)-2)*stripGap + seamGap
	height := p.top + p.high + numberSize + 14 + barHigh + 2*wordSize + stripEdge
	if words.Foot != "" {
		height += headSpacing
	}
	p.img = image.NewRGBA(image.Rect(0, 0, width, height))
	draw.Draw(p.img, p.img.Rect, image.NewUniform(style.Paper), image.Point{}, draw.Src)
	return p
}

// place is where still i goes.
func (p *page) place(i int) image.Rectangle {
	x := stripEdge + i*(p.wide+stripGap)
	if i >= p.half {
		x += seamGap - stripGap
	}
	return image.Rect(x, p.top, x+p.wide, p.top+p.high)
}

// between is the middle of the gap after still i.
func (p *page) between(i int) int { return (p.place(i).Max.X + p.place(i+1).Min.X) / 2 }

func (p *page) fill(r image.Rectangle, c color.Color) {
	draw.Draw(p.img, r, image.NewUniform(c), image.Point{}, draw.Src)
}

func (p *page) head(words StripWords) {
	y := stripEdge + titleSize
	p.text(stripEdge, y, words.Title, lettering{titleSize, true, style.Ink, -1})
	for _, line := range words.Lines {
		y += headSpacing
		p.text(stripEdge, y, line, lettering{wordSize, false, style.Muted, -1})
	}
}

// seam marks where the loop closes.
func (p *page) seam(s Seam) {
	x := p.between(p.half - 1)
	c := p.hue(s)
	p.fill(image.Rect(x-1, p.top, x+2, p.top+p.high), c)
	p.text(x, p.top+p.high+numberSize+6, "seam", lettering{wordSize, true, c, 0})
}

// hue is the colour of the seam: a warning where it hitches.
func (p *page) hue(s Seam) color.Color {
	if s.Hitches() {
		return style.TextHue(1)
	}
	return style.TextHue(0)
}

// bars draws how much the picture changes from each still to the next.
func (p *page) bars(s Seam) {
	foot := p.top + p.high + numberSize + 14 + wordSize + barHigh
	reach := math.Max(minReach, math.Max(s.Step(), s.Usual()))
	p.fill(image.Rect(stripEdge, foot, p.img.Rect.Max.X-stripEdge, foot+1), style.Rule)
	for i, v := range s.Changes {
		x, c := p.between(i), color.Color(style.Rule)
		if i == p.half-1 {
			c = p.hue(s)
		}
		high := int(math.Round(barHigh * v / reach))
		p.fill(image.Rect(x-barWide/2, foot-high, x+barWide/2, foot), c)
		p.text(x+barWide/2+6, foot-4, fmt.Sprintf("%.1f", v), lettering{wordSize, false, style.Muted, -1})
	}
	p.text(stripEdge, foot+wordSize+6, "How much the picture changes from each to the next, in 255ths of full brightness.", lettering{wordSize, false, style.Muted, -1})
}

// lettering is how text looks; align -1 starts at its place, 0 is centred on it.
type lettering struct {
	size  vg.Length // px
	bold  bool
	color color.Color
	align int
}

// text sets text on a baseline.
func (p *page) text(x, y int, text string, l lettering) {
	text = style.Written(text)
	found := style.Face(l.size, l.bold)
	face := found.FontFace(72) // one px a point
	d := xfont.Drawer{Dst: p.img, Src: image.NewUniform(l.color), Face: face, Dot: fixed.P(x, y)}
	if l.align == 0 {
		d.Dot.X -= d.MeasureString(text) / 2
	}
	d.DrawString(text)
}
