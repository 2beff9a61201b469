package motionplot

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"image/png"
	"io"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/plot/internal/style"
)

func drawn(t *testing.T, format string, d Data, opt Options) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, Draw(&b, format, d, opt))
	return b.Bytes()
}

func TestPNGHasThePixelsOfItsSheet(t *testing.T) {
	d := lantern()
	img, err := png.Decode(bytes.NewReader(drawn(t, "png", d, Options{})))
	require.NoError(t, err)
	p := page{d: d, rows: rates[:2], lanes: d.lanes(rates[:2])}
	assert.Equal(t, 1080, img.Bounds().Dx())
	assert.InDelta(t, float64(p.height())*style.DPI/72, img.Bounds().Dy(), 0.5)
	r, g, b, _ := img.At(2, 2).RGBA()
	assert.Equal(t, []uint32{0xffff, 0xffff, 0xffff}, []uint32{r, g, b}, "the margin is paper")
}

// TestPNGShowsEachAxisInItsColour looks for the exact ink of every axis.
func TestPNGShowsEachAxisInItsColour(t *testing.T) {
	img, err := png.Decode(bytes.NewReader(drawn(t, "png", lantern(), Options{})))
	require.NoError(t, err)
	count := map[[3]uint32]int{}
	for y := range img.Bounds().Dy() {
		for x := range img.Bounds().Dx() {
			r, g, b, _ := img.At(x, y).RGBA()
			count[[3]uint32{r >> 8, g >> 8, b >> 8}]++
		}
	}
	for i := range lantern().Axes {
		c := style.Hue(i)
		assert.Greater(t, count[[3]uint32{uint32(c.R), uint32(c.G), uint32(c.B)}], 1000, "axis %d", i)
	}
}

func TestSVGIsWellFormedAndSaysWhatItShows(t *testing.T) {
	for _, d := range []Data{lantern(), hard()} {
		svg := drawn(t, "svg", d, Options{Jerk: true})
		dec := xml.NewDecoder(bytes.NewReader(svg))
		for {
			_, err := dec.Token()
			if err == io.EOF {
				break
			}
			require.NoError(t, err)
		}
		assert.NotContains(t, string(svg), "NaN")
		assert.NotContains(t, string(svg), "Inf")
	}
	svg := string(drawn(t, "svg", lantern(), Options{}))
	for _, text := range []string{"Fernhollow lantern, slow reveal", "rail", "table", "position, mm", "speed, deg/s",
		"at most 204.3 mm/s of 400 mm/s", "dwell, 12 frames", "seam", "frame 144: not delivered", "limit 400 mm/s"} {
		assert.Contains(t, svg, ">"+text+"<")
	}
	assert.NotContains(t, svg, "jerk")
	assert.Contains(t, string(drawn(t, "svg", lantern(), Options{Jerk: true})), ">jerk, mm/s³<")
}

func TestPDFIsOnePageOfTheRightSize(t *testing.T) {
	pdf := string(drawn(t, "pdf", lantern(), Options{}))
	assert.True(t, strings.HasPrefix(pdf, "%PDF-1."))
	assert.Contains(t, pdf, "/MediaBox [0 0 432.00 ")
	assert.Contains(t, pdf, "/Count 1\n")
}

func TestDrawingTwiceGivesTheSameBytes(t *testing.T) {
	for _, format := range []string{"png", "svg"} {
		for _, d := range []func() Data{lantern, hard} {
			first := drawn(t, format, d(), Options{Jerk: true})
			assert.True(t, bytes.Equal(first, drawn(t, format, d(), Options{Jerk: true})), format)
		}
	}
}

func TestUnknownFormatNamesTheFormats(t *testing.T) {
	var b bytes.Buffer
	err := Draw(&b, "gif", lantern(), Options{})
	assert.EqualError(t, err, `format "gif" is not drawn here; use one of png, svg, pdf`)
	assert.Zero(t, b.Len())
}

func TestNothingToDraw(t *testing.T) {
	for name, spoil := range map[string]func(*Data){
		"no axis":   func(d *Data) { d.Axes = nil },
		"no period": func(d *Data) { d.Period = 0 },
		"NaN":       func(d *Data) { d.OnScreen = math.NaN() },
		"no frame":  func(d *Data) { d.Captured = 0 },
	} {
		d := lantern()
		spoil(&d)
		assert.ErrorContains(t, Draw(io.Discard, "png", d, Options{}), "nothing to draw", name)
	}
}

var errFull = errors.New("disk full")

// full takes room bytes and then fails.
type full struct{ room int }

func (f *full) Write(p []byte) (int, error) {
	if len(p) > f.room {
		n := f.room
		f.room = 0
		return n, errFull
	}
	f.room -= len(p)
	return len(p), nil
}

func TestAFailingWriterIsReported(t *testing.T) {
	for _, format := range style.Formats {
		for _, room := range []int{0, 100, 5000} {
			assert.ErrorIs(t, Draw(&full{room}, format, lantern(), Options{}), errFull, "%s after %d bytes", format, room)
		}
	}
}

// TestLoopsOfAnyLength draws one frame, and more frames than could be marked.
func TestLoopsOfAnyLength(t *testing.T) {
	for _, n := range []int64{1, 2, 13, 2_000_000} {
		d := hard()
		d.Captured = n
		svg := string(drawn(t, "svg", d, Options{}))
		assert.NotContains(t, svg, "NaN")
		assert.Contains(t, svg, fmt.Sprintf(">frame %d: not delivered<", n))
		assert.Less(t, len(svg), 500_000, "%d frames", n)
	}
}

func BenchmarkDraw(b *testing.B) {
	for _, format := range style.Formats {
		b.Run(format, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if err := Draw(io.Discard, format, lantern(), Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
