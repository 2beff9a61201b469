package luma_test

import (
	"image"
	"image/color"
	"image/draw"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/film/luma"
)

const width, height = 7, 5

// noise is a picture of a kind, from a corner that is not 0, 0, as parts of others have it.
func noise(img draw.Image, alpha bool) draw.Image {
	r := rand.New(rand.NewPCG(1, 2))
	b := img.Bounds()
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			c := color.NRGBA64{uint16(r.Uint32()), uint16(r.Uint32()), uint16(r.Uint32()), 0xffff}
			if alpha {
				c.A = uint16(r.Uint32())
			}
			img.Set(x, y, c)
		}
	}
	return img
}

// Each kind of picture has the luma that its own colours say, one by one.
func TestEveryKindAgainstItsColours(t *testing.T) {
	at := image.Rect(3, 2, 3+width, 2+height)
	whole := image.Rect(0, 0, 20, 20)
	palette := color.Palette{color.Black, color.White, color.NRGBA{200, 10, 30, 255}, color.NRGBA{0, 90, 200, 128}}
	for name, img := range map[string]image.Image{
		"grey 8":       noise(image.NewGray(at), false),
		"grey 16":      noise(image.NewGray16(at), false),
		"RGBA":         noise(image.NewRGBA(at), true),
		"RGBA 16":      noise(image.NewRGBA64(at), true),
		"NRGBA":        noise(image.NewNRGBA(at), true),
		"NRGBA 16":     noise(image.NewNRGBA64(at), true),
		"opaque NRGBA": noise(image.NewNRGBA(at), false),
		"palette":      noise(image.NewPaletted(at, palette), false),
		"CMYK":         noise(image.NewCMYK(at), false),
		"a part":       noise(image.NewRGBA(whole), false).(*image.RGBA).SubImage(at),
	} {
		t.Run(name, func(t *testing.T) {
			row := make([]float32, width)
			for y := range height {
				luma.Row(img, y, row)
				for x, got := range row {
					r, g, b, _ := img.At(at.Min.X+x, at.Min.Y+y).RGBA()
					want := (0.2126*float64(r) + 0.7152*float64(g) + 0.0722*float64(b)) / 0xffff
					require.InDelta(t, want, float64(got), 2e-5, "%d, %d", x, y) // RGBA rounds to 16 bits
				}
			}
		})
	}
}

// Pure red, green and blue have the weights of BT.709, and white is 1.
func TestWeights(t *testing.T) {
	assert.InDelta(t, 0.2126, luma.Of(1, 0, 0), 1e-7)
	assert.InDelta(t, 0.7152, luma.Of(0, 1, 0), 1e-7)
	assert.InDelta(t, 0.0722, luma.Of(0, 0, 1), 1e-7)
	assert.InDelta(t, 1, luma.Of(1, 1, 1), 1e-6)
}

// The luma of a JPEG is what it has, whatever its colour.
func TestLumaOfAJPEGIsItsOwn(t *testing.T) {
	img := image.NewYCbCr(image.Rect(0, 0, width, height), image.YCbCrSubsampleRatio420)
	for i := range img.Y {
		img.Y[i] = uint8(i * 5)
	}
	for i := range img.Cb {
		img.Cb[i], img.Cr[i] = 20, 220
	}
	row := make([]float32, width)
	luma.Row(img, 3, row)
	for x, got := range row {
		assert.InDelta(t, float64(img.Y[3*img.YStride+x])/255, float64(got), 1e-7)
	}
}

func TestAlpha(t *testing.T) {
	img := image.NewNRGBA(image.Rect(0, 0, 2, 1))
	img.SetNRGBA(0, 0, color.NRGBA{255, 255, 255, 51})
	img.SetNRGBA(1, 0, color.NRGBA{0, 0, 0, 255})
	row := make([]float32, 2)
	luma.Alpha(img, 0, row)
	assert.InDeltaSlice(t, []float32{0.2, 1}, row, 1e-6)
	assert.False(t, luma.Opaque(img))
	assert.True(t, luma.Opaque(image.NewGray(img.Rect)))
}

func TestBits(t *testing.T) {
	assert.Equal(t, 16, luma.Bits(color.Gray16Model))
	assert.Equal(t, 16, luma.Bits(color.NRGBA64Model))
	assert.Equal(t, 8, luma.Bits(color.YCbCrModel))
	assert.Equal(t, 8, luma.Bits(color.Palette{color.Black}))
}
