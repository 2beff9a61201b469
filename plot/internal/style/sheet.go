package style

import (
	"fmt"
	"image/color"
	"io"
	"slices"
	"strings"

	xfont "golang.org/x/image/font"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
	"gonum.org/v1/plot/vg/vgpdf"
	"gonum.org/v1/plot/vg/vgsvg"
)

// Formats are the file formats a sheet can be written in.
var Formats = []string{"png", "svg", "pdf"}

// DPI is the resolution of a PNG. A 6 inch sheet is then 1080 pixels wide,
// the native width of most phones, and prints without visible steps.
const DPI = 180

// Sheet is one figure being drawn. Its canvas has the origin at the bottom
// left and is measured in points.
type Sheet struct {
	draw.Canvas
	Width, Height vg.Length
	raster        *vgimg.Canvas
	faces         map[font.Font]xfont.Face
	vector        io.WriterTo
	widths        []vg.Length // of each text drawn, in order
	narrow        bool        // the back end takes one byte a character
	kept          []color.NRGBA
}

// Keep names an opaque colour, beside the inks, that a PNG is to keep exactly.
func (s *Sheet) Keep(c color.NRGBA) { s.kept = append(s.kept, c) }

// CheckFormat returns an error that names the formats unless format is one.
func CheckFormat(format string) error {
	if slices.Contains(Formats, format) {
		return nil
	}
	return fmt.Errorf("format %q is not drawn here; use one of %s", format, strings.Join(Formats, ", "))
}

// NewSheet returns a white sheet of w by h points to be written as format.
func NewSheet(format string, w, h vg.Length) (*Sheet, error) {
	if err := CheckFormat(format); err != nil {
		return nil, err
	}
	s := &Sheet{Width: w, Height: h}
	switch format {
	case "png":
		c := vgimg.NewWith(vgimg.UseWH(w, h), vgimg.UseDPI(DPI), vgimg.UseBackgroundColor(Paper))
		s.raster, s.Canvas, s.faces = c, draw.New(c), make(map[font.Font]xfont.Face)
	case "svg":
		c := vgsvg.NewWith(vgsvg.UseWH(w, h))
		s.vector, s.Canvas = c, draw.New(c)
	default:
		c := vgpdf.New(w, h)
		s.vector, s.Canvas, s.narrow = c, draw.New(c), true
	}
	if s.raster == nil {
		s.Fill(0, 0, w, h, Paper)
	}
	return s, nil
}

// NextPage begins another page of a PDF, of the same size.
func (s *Sheet) NextPage() {
	pages, ok := s.vector.(interface{ NextPage() })
	if !ok {
		panic("style: only a PDF has pages")
	}
	pages.NextPage()
	s.Fill(0, 0, s.Width, s.Height, Paper)
}

// WriteTo writes the finished sheet to w.
func (s *Sheet) WriteTo(w io.Writer) (int64, error) {
	switch {
	case s.vector != nil && s.narrow:
		return s.vector.WriteTo(w)
	case s.vector != nil:
		return writeSVG(w, s.vector, s.widths)
	}
	n := &counter{w: w}
	err := writePNG(n, s.raster.Image(), s.kept...)
	return n.n, err
}

type counter struct {
	w io.Writer
	n int64
}

func (c *counter) Write(p []byte) (int, error) {
	n, err := c.w.Write(p)
	c.n += int64(n)
	return n, err
}
