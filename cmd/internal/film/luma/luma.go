// Package luma is how bright the pixels of a decoded picture are as they are encoded, row by
// row, 0 black and 1 white.
//
// Of red, green and blue it is 0.2126 R + 0.7152 G + 0.0722 B, the weights of luma in
// Rec. ITU-R BT.709-6 (2015), 3.2, of the values as they are encoded, not of light. A picture
// that was encoded as luma and colour differences (JPEG) keeps the luma that it has, which
// is of the weights of Rec. ITU-R BT.601 (ITU-T T.871, 2011, 7). Numbers of clauses are from
// memory: no text was at hand. What is transparent lies on black.
package luma

import (
	"image"
	"image/color"
)

// The weights of luma: Rec. ITU-R BT.709-6 (2015), 3.2.
const (
	red   = 0.2126
	green = 0.7152
	blue  = 0.0722
)

const (
	max8  = 1<<8 - 1
	max16 = 1<<16 - 1
)

// Of is luma of encoded red, green and blue, each 0 to 1.
func Of(r, g, b float32) float32 { return red*r + green*g + blue*b }

// Bits is how many bits a channel of such a picture has.
func Bits(m color.Model) int {
	switch m {
	case color.Gray16Model, color.RGBA64Model, color.NRGBA64Model, color.Alpha16Model:
		return 16
	}
	return 8
}

// Row puts the luma of row y, from 0 at the top of the picture, into a row of its width.
func Row(img image.Image, y int, into []float32) {
	b := img.Bounds()
	y += b.Min.Y
	switch m := img.(type) {
	case *image.Gray:
		grey8(m.Pix[m.PixOffset(b.Min.X, y):], into)
	case *image.YCbCr:
		grey8(m.Y[m.YOffset(b.Min.X, y):], into)
	case *image.Gray16:
		grey16(m.Pix[m.PixOffset(b.Min.X, y):], into)
	case *image.RGBA:
		colour8(m.Pix[m.PixOffset(b.Min.X, y):], into)
	case *image.RGBA64:
		colour16(m.Pix[m.PixOffset(b.Min.X, y):], into)
	case *image.NRGBA:
		clear8(m.Pix[m.PixOffset(b.Min.X, y):], into)
	case *image.NRGBA64:
		clear16(m.Pix[m.PixOffset(b.Min.X, y):], into)
	case *image.Paletted:
		paletted(m, m.Pix[m.PixOffset(b.Min.X, y):], into)
	default:
		any16(img, y, into)
	}
}

// Opaque tells whether nothing of the picture is transparent. It looks at all of it.
func Opaque(img image.Image) bool {
	o, ok := img.(interface{ Opaque() bool })
	return ok && o.Opaque()
}

// Alpha puts how opaque the pixels of row y are, 0 to 1, into a row of its width.
func Alpha(img image.Image, y int, into []float32) {
	b := img.Bounds()
	for x := range into {
		_, _, _, a := img.At(b.Min.X+x, b.Min.Y+y).RGBA()
		into[x] = float32(a) / max16
	}
}

func grey8(pix []byte, into []float32) {
	pix = pix[:len(into)]
	for x, v := range pix {
		into[x] = float32(v) / max8
	}
}

func word(pix []byte, at int) float32 { return float32(uint32(pix[at])<<8 | uint32(pix[at+1])) }

func grey16(pix []byte, into []float32) {
	for x := range into {
		into[x] = word(pix, 2*x) / max16
	}
}

func colour8(pix []byte, into []float32) {
	for x := range into {
		p := pix[4*x : 4*x+3 : 4*x+3]
		into[x] = Of(float32(p[0]), float32(p[1]), float32(p[2])) / max8
	}
}

func colour16(pix []byte, into []float32) {
	for x := range into {
		into[x] = Of(word(pix, 8*x), word(pix, 8*x+2), word(pix, 8*x+4)) / max16
	}
}

func clear8(pix []byte, into []float32) {
	colour8(pix, into)
	for x := range into {
		if a := pix[4*x+3]; a != max8 {
			into[x] *= float32(a) / max8
		}
	}
}

func clear16(pix []byte, into []float32) {
	colour16(pix, into)
	for x := range into {
		if a := word(pix, 8*x+6); a != max16 {
			into[x] *= a / max16
		}
	}
}

// paletted takes each colour of the palette once a row, which has far fewer than a row
// has pixels. A pixel beyond it is black, as PNG's and TIFF's readers refuse it anyway.
func paletted(m *image.Paletted, pix []byte, into []float32) {
	var known [max8 + 1]float32
	for i, c := range m.Palette[:min(len(m.Palette), len(known))] {
		known[i] = colour(c)
	}
	for x := range into {
		into[x] = known[pix[x]]
	}
}

func any16(img image.Image, y int, into []float32) {
	left := img.Bounds().Min.X
	for x := range into {
		into[x] = colour(img.At(left+x, y))
	}
}

// colour is that of one colour: what RGBA returns is weighted by alpha already.
func colour(c color.Color) float32 {
	r, g, b, _ := c.RGBA()
	return Of(float32(r), float32(g), float32(b)) / max16
}
