package sheet

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"strings"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"codeberg.org/go-pdf/fpdf"

	"seamrail/plot/internal/style"
)

// The page, in mm: A4 upright, with the margin that most printers need.
const (
	paperWidth  = 210.0
	paperHeight = 297.0
	margin      = 10.0
	inner       = paperWidth - 2*margin
)

// point is a point in mm.
const point = 25.4 / 72

// press sets type and lines on the pages of a PDF, in mm from the top left.
type press struct {
	pdf    *fpdf.Fpdf
	size   float64 // points of the usual type
	images int
}

func newPress() *press {
	pdf := fpdf.New("P", "mm", "A4", "")
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetMargins(margin, margin, margin)
	pdf.AddUTF8FontFromBytes("sans", "", liberationsansregular.TTF)
	pdf.AddUTF8FontFromBytes("sans", "B", liberationsansbold.TTF)
	pdf.SetCreator("seamrail", false)
	return &press{pdf: pdf, size: usualSize}
}

// lettering is how text is set: its size in points, ink and weight.
type lettering struct {
	size float64
	bold bool
	ink  color.NRGBA
}

func (p *press) plain() lettering { return lettering{p.size, false, style.Ink} }
func (p *press) muted() lettering { return lettering{p.size, false, style.Muted} }
func (p *press) strong() lettering {
	return lettering{p.size, true, style.Ink}
}
func (p *press) heading() lettering { return lettering{p.size * 1.15, true, style.Ink} }

// pitch is from one line to the next, in mm.
func (s lettering) pitch() float64 { return s.size * point * 1.22 }

func (p *press) use(s lettering) {
	weight := ""
	if s.bold {
		weight = "B"
	}
	p.pdf.SetFont("sans", weight, s.size)
	p.pdf.SetTextColor(int(s.ink.R), int(s.ink.G), int(s.ink.B))
}

func (p *press) width(text string, s lettering) float64 {
	p.use(s)
	return p.pdf.GetStringWidth(style.Written(text))
}

// line sets one line with its top at y.
func (p *press) line(x, y float64, text string, s lettering) {
	p.use(s)
	p.pdf.Text(x, y+s.size*point*0.95, style.Written(text))
}

// lines sets lines below each other and returns the y below them.
func (p *press) lines(x, y float64, lines []string, s lettering) float64 {
	for _, l := range lines {
		p.line(x, y, l, s)
		y += s.pitch()
	}
	return y
}

// maxLines is how many lines a text may take. What is longer was not written
// to be read while a take runs; the shot file has it.
const maxLines = 8

// wrap breaks a text into lines of at most w mm.
func (p *press) wrap(text string, w float64, s lettering) []string {
	var out []string
	line := ""
	for _, word := range p.words(style.Written(text), w, s) {
		if with := strings.TrimSpace(line + " " + word); line == "" || p.width(with, s) <= w {
			line = with
			continue
		}
		if out, line = append(out, line), word; len(out) == maxLines {
			out[maxLines-1] += " ..."
			return out
		}
	}
	if line != "" {
		out = append(out, line)
	}
	return out
}

// words are those of a text, each at most w mm wide.
func (p *press) words(text string, w float64, s lettering) []string {
	var out []string
	for _, word := range strings.Fields(text) {
		for letters := []rune(word); len(letters) > 0; {
			n := len(letters)
			for n > 1 && p.width(string(letters[:n]), s) > w {
				n = max(1, min(n-1, n*3/4))
			}
			out = append(out, string(letters[:n]))
			letters = letters[n:]
			if len(out) > maxLines*40 { // more than so many lines hold
				return out
			}
		}
	}
	return out
}

// rule draws a line.
func (p *press) rule(x0, y0, x1, y1, width float64, ink color.NRGBA) {
	p.pdf.SetDrawColor(int(ink.R), int(ink.G), int(ink.B))
	p.pdf.SetLineWidth(width)
	p.pdf.Line(x0, y0, x1, y1)
}

// box draws an empty box.
func (p *press) box(x, y, w, h, width float64, ink color.NRGBA) {
	p.pdf.SetDrawColor(int(ink.R), int(ink.G), int(ink.B))
	p.pdf.SetLineWidth(width)
	p.pdf.Rect(x, y, w, h, "D")
}

// blank draws a line to write on, its letters as high as those beside it.
func (p *press) blank(x, y, w float64, s lettering) {
	foot := y + s.size*point*1.08
	p.rule(x, foot, x+w, foot, 0.15, style.Rule)
}

// picture sets an image into a frame. The library writes images in the order of
// their widths, and those of one width in any: so each gets another width, and what
// it is too wide is cut off.
func (p *press) picture(x, y, w, h float64, img image.Image) error {
	p.images++
	wider := widened(img, p.images)
	var b bytes.Buffer
	if err := png.Encode(&b, wider); err != nil {
		return err
	}
	name := fmt.Sprint("picture ", p.images)
	opt := fpdf.ImageOptions{ImageType: "PNG"}
	p.pdf.RegisterImageOptionsReader(name, opt, &b)
	return p.clipped(x, y, w, h, func() error {
		p.pdf.ImageOptions(name, x, y, w*float64(wider.Bounds().Dx())/float64(img.Bounds().Dx()), h, false, opt, 0, "")
		return nil
	})
}

// clipped draws within a frame. The end of a clip takes a PDF back to the inks, the
// width of lines and the type from before it (ISO 32000-1, 8.4.2). The library does
// not know that, and leaves out what it takes to be set: so it is told again.
func (p *press) clipped(x, y, w, h float64, inner func() error) error {
	p.pdf.ClipRect(x, y, w, h, false)
	err := inner()
	p.pdf.ClipEnd()
	p.pdf.SetFillColor(p.pdf.GetFillColor())
	p.pdf.SetDrawColor(p.pdf.GetDrawColor())
	p.pdf.SetLineWidth(p.pdf.GetLineWidth())
	size, _ := p.pdf.GetFontSize()
	p.pdf.SetFontSize(size)
	return err
}

// widened is an image with n more columns at its right.
func widened(img image.Image, n int) image.Image {
	from := img.Bounds()
	out := image.NewRGBA(image.Rect(0, 0, from.Dx()+n, from.Dy()))
	draw.Draw(out, out.Bounds(), image.White, image.Point{}, draw.Src)
	draw.Draw(out, image.Rect(0, 0, from.Dx(), from.Dy()), img, from.Min, draw.Src)
	return out
}
