package style

import (
	"encoding/binary"
	"image"
	"image/color"
	"image/png"
	"io"
	"slices"

	xfont "golang.org/x/image/font"
	"golang.org/x/image/math/fixed"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// writePNG writes img with at most 256 colours: a figure has a dozen inks and
// the soft edges between them and the paper, and a byte a pixel is packed
// several times faster than four. Every ink keeps its exact colour, and so do
// those in kept; soft edges may move by half of coarse.
func writePNG(w io.Writer, img image.Image, kept ...color.NRGBA) error {
	enc := png.Encoder{CompressionLevel: png.BestSpeed}
	if rgba, ok := img.(*image.RGBA); ok {
		img = indexed(rgba, kept)
	}
	return enc.Encode(w, img)
}

// coarse is the grid of the soft edges, in 1/255 of full brightness: 16 levels
// an edge are smooth at DPI, and a dozen edges then fit the palette.
const coarse = 16

// shades builds a palette as colours are asked for.
type shades struct {
	palette color.Palette
	index   map[uint32]uint8
}

func newShades(kept []color.NRGBA) *shades {
	s := &shades{index: make(map[uint32]uint8, 1024)}
	for _, c := range slices.Concat([]color.NRGBA{Paper, Ink, Muted, Faint, Rule, Shade}, hues, kept) {
		key := uint32(c.R) | uint32(c.G)<<8 | uint32(c.B)<<16 | 0xff<<24
		if _, ok := s.index[key]; ok || len(s.palette) == 256 {
			continue
		}
		s.index[key] = s.add(color.RGBA{c.R, c.G, c.B, 255})
	}
	return s
}

func (s *shades) add(c color.RGBA) uint8 {
	s.palette = append(s.palette, c)
	return uint8(len(s.palette) - 1)
}

// of returns the palette's index of a pixel, its bytes red first.
func (s *shades) of(pixel uint32) uint8 {
	if i, ok := s.index[pixel]; ok {
		return i
	}
	c := color.RGBA{grid(pixel), grid(pixel >> 8), grid(pixel >> 16), 255}
	key := uint32(c.R) | uint32(c.G)<<8 | uint32(c.B)<<16 | 0xff<<24
	i, ok := s.index[key]
	if !ok {
		if len(s.palette) < 256 {
			i = s.add(c)
		} else {
			i = uint8(s.palette.Index(c))
		}
		s.index[key] = i
	}
	s.index[pixel] = i
	return i
}

func grid(v uint32) uint8 {
	return uint8(min(255, (v&0xff+coarse/2)/coarse*coarse))
}

func indexed(img *image.RGBA, kept []color.NRGBA) *image.Paletted {
	out := image.NewPaletted(img.Rect, nil)
	s := newShades(kept)
	for y := range img.Rect.Dy() {
		from := img.Pix[y*img.Stride : y*img.Stride+4*img.Rect.Dx()]
		to := out.Pix[y*out.Stride : y*out.Stride+img.Rect.Dx()]
		last := binary.LittleEndian.Uint32(from)
		at := s.of(last)
		for x := range to {
			if pixel := binary.LittleEndian.Uint32(from[4*x:]); pixel != last {
				last, at = pixel, s.of(pixel)
			}
			to[x] = at
		}
	}
	out.Palette = s.palette
	return out
}

// rasterText sets text straight onto the pixels. The back end would draw each
// letter through an image transform, which blurs it and takes three times as
// long.
func (s *Sheet) rasterText(f font.Face, x, y vg.Length, txt string, c color.Color) {
	face, ok := s.faces[f.Font]
	if !ok {
		face = f.FontFace(DPI)
		s.faces[f.Font] = face
	}
	img := s.raster.Image()
	const dot = DPI / 72.0 * 64 // 1/64 pixels in a point
	d := xfont.Drawer{Dst: img, Src: image.NewUniform(c), Face: face, Dot: fixed.Point26_6{
		X: fixed.Int26_6(float64(x) * dot),
		Y: fixed.I(img.Bounds().Dy()) - fixed.Int26_6(float64(y)*dot),
	}}
	d.DrawString(txt)
}
