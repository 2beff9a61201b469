package preview_test

import (
	"bytes"
	"image/color"
	"image/png"
	"io"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/plan/sample"
	"seamrail/motion/spec/rig"
	"seamrail/plot/internal/style"
	"seamrail/plot/preview"
)

func TestSeamIsAroundTheSeam(t *testing.T) {
	f := finder(t, turning(t, 1.0/6), lantern(), 96)
	s := f.Seam(3)
	assert.Equal(t, []int64{21, 22, 23, 0, 1, 2}, s.Frames)
	require.Len(t, s.Changes, 5)
	for i, k := range s.Frames {
		assert.Equal(t, f.Frame(k).Pix, s.Stills[i].Pix)
	}
}

// Frames are those of the timeline: here each captured one is shown twice.
func TestSeamCountsOnTheTimeline(t *testing.T) {
	f := finder(t, shown(t, "24", "24", "1/2", 6).with("table", rig.Rotary, 240), lantern(), 96)
	s := f.Seam(2)
	assert.Equal(t, []int64{10, 11, 0, 1}, s.Frames)
	assert.Zero(t, s.Changes[0], "10 and 11 are one captured frame")
	assert.NotZero(t, s.Step())
}

// A sixth of a turn of six panes goes on, a fifth jumps, and so does a loop that
// goes on by less than a frame too much.
func TestHitches(t *testing.T) {
	for _, c := range []struct {
		turns float64
		jumps bool
	}{{1.0 / 6, false}, {-1.0 / 6, false}, {1, false}, {0, false}, {1.0 / 5, true}, {1.0/6 + 1.0/36, true}} {
		s := finder(t, turning(t, c.turns), lantern(), 160).Seam(4)
		assert.Equal(t, c.jumps, s.Hitches(), "%v turns: %v", c.turns, s.Changes)
	}
}

func TestStillsAreBounded(t *testing.T) {
	f := finder(t, shown(t, "24", "24", "", 2), lantern(), 32)
	assert.Len(t, f.Seam(9).Stills, 4, "no more than the loop has")
	f = finder(t, turning(t, 0), lantern(), 32)
	assert.Len(t, f.Seam(0).Stills, 2)
	assert.False(t, f.Seam(1).Hitches(), "one on either side cannot tell")
	assert.Zero(t, f.Seam(1).Usual())
	assert.Len(t, f.Seam(99).Stills, 2*preview.MaxStills)
}

// Every still is on the strip, untouched, in order; the seam is marked in the
// colour of a warning where the loop jumps.
func TestStripShowsTheStills(t *testing.T) {
	s := finder(t, turning(t, 1.0/5), lantern(), 96).Seam(2)
	img := preview.Strip(s, preview.StripWords{Title: "Lantern", Lines: []string{"one", "two"}, Foot: "Plan 1"})
	from, found := 0, 0
	top := 24 + 34*3
	for x := 0; x+96 <= img.Rect.Dx() && found < len(s.Stills); x++ {
		still := s.Stills[found]
		hit := true
		for y := 0; y < still.Rect.Dy() && hit; y++ {
			hit = bytes.Equal(still.Pix[y*still.Stride:(y+1)*still.Stride], img.Pix[(top+y)*img.Stride+4*x:(top+y)*img.Stride+4*(x+96)])
		}
		if hit {
			assert.GreaterOrEqual(t, x, from)
			found, from = found+1, x+96
		}
	}
	assert.Equal(t, len(s.Stills), found)
	warning, calm := 0, 0
	for y := range img.Rect.Dy() {
		for x := range img.Rect.Dx() {
			switch img.RGBAAt(x, y) {
			case rgba(style.TextHue(1)):
				warning++
			case rgba(style.TextHue(0)):
				calm++
			}
		}
	}
	assert.Greater(t, warning, 200)
	assert.Zero(t, calm)
}

func TestStripIsWritten(t *testing.T) {
	s := finder(t, turning(t, 1.0/6), lantern(), 64).Seam(2)
	var b bytes.Buffer
	require.NoError(t, preview.WriteStrip(&b, s, preview.StripWords{}))
	img, err := png.Decode(bytes.NewReader(b.Bytes()))
	require.NoError(t, err)
	assert.Greater(t, img.Bounds().Dx(), 4*64)
	sample.Fails(t, b.Len(), func(w io.Writer) error {
		return preview.WriteStrip(w, s, preview.StripWords{})
	})
}

func rgba(c color.NRGBA) color.RGBA { return color.RGBA(c) }
