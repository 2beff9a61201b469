package preview_test

import (
	"image"
	"math"
	"math/cmplx"
	"testing"

	"seamrail/motion/scene"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/spec/rig"
)

// pane is a wide pane at 1:1: 36 mm of it are in the picture.
func pane() scene.Scene {
	s := lantern()
	s.Lens = scene.Lens{FocalLength: scene.Is(100), Magnification: scene.Is(1)}
	s.Product = scene.Product{Shape: scene.Prism, Sides: 4, Radius: scene.Is(60 * math.Sqrt2), Height: scene.Is(120)}
	s.Stand.Distance = scene.Is(260)
	return s
}

// wave is how strong the part of a row is that comes again every so many px, of its
// light: a discrete Fourier transform at one frequency, over whole periods.
func wave(img *image.RGBA, y int, period float64) float64 {
	n := int(math.Floor(float64(img.Rect.Dx())/period) * period)
	sum, mean := complex(0, 0), 0.0
	for x := range n {
		v := light(img.RGBAAt(x, y).G)
		mean += v / float64(n)
		sum += complex(v, 0) * cmplx.Exp(complex(0, -2*math.Pi*float64(x)/period))
	}
	return 2 * cmplx.Abs(sum) / float64(n) / mean
}

// At 1:1 a pane has something to see: a line every millimetre, as wide as a
// millimetre is in the picture. It was one brown area.
func TestAMacroShowsMillimetres(t *testing.T) {
	const perMM = 480 / 36.0
	f := finder(t, shown(t, "24", "24", "", 24).with("rail", rig.Linear, 0), pane(), 480)
	img := f.Frame(0)
	still := wave(img, 100, perMM)
	assert.Greater(t, still, 0.02)
	for _, other := range []float64{perMM * 0.7, perMM * 1.4} {
		assert.Less(t, wave(img, 100, other), still/4, "and no other grating")
	}
}

// Lines that pass during the exposure are smeared as a box filter smears a wave: by
// the sine over its angle, so that a smear of one period leaves nothing of it (the
// mean of a sine over the smear).
func TestAMacroSmears(t *testing.T) {
	const perMM = 480 / 36.0
	contrast := func(smear float64) float64 { // mm in an exposure of 1/48 s
		f := finder(t, shown(t, "24", "24", "", 24).with("rail", rig.Linear, smear*48), pane(), 480)
		return wave(f.Frame(0), 100, perMM)
	}
	still := contrast(0)
	for _, smear := range []float64{0.25, 0.5, 0.75, 1, 1.5} {
		want := math.Abs(math.Sin(math.Pi*smear) / (math.Pi * smear))
		assert.InDelta(t, want, contrast(smear)/still, 0.05, "%v mm", smear)
	}
}

// Where a millimetre is less than three pixels no line is left, and so no false one:
// the pane is even.
func TestLinesTooFineAreLeftOut(t *testing.T) {
	for _, width := range []int{60, 80, 100} { // 1.7 to 2.8 px a mm
		img := finder(t, turning(t, 0), pane(), width).Frame(0)
		least, most := uint8(255), uint8(0)
		for x := range width {
			g := img.RGBAAt(x, width/5).G
			least, most = min(least, g), max(most, g)
		}
		assert.LessOrEqual(t, most-least, uint8(6), "%d px wide", width)
	}
	img := finder(t, turning(t, 0), lantern(), 480).Frame(0) // the whole lantern
	for x := 212; x < 268; x++ {
		require.Equal(t, img.RGBAAt(212, 120), img.RGBAAt(x, 120))
	}
}

// A lens that looks down on the top sees lines there too, and they turn into
// themselves as the top does.
func TestATopIsEngraved(t *testing.T) {
	s := pane()
	s.Stand.Height, s.Stand.Tilt = scene.Is(300), scene.Is(-45)
	s.Stand.Distance = scene.Is(180)
	s.Lens = scene.Lens{FocalLength: scene.Is(100), Magnification: scene.Is(1), Aperture: scene.Is(64)}
	f := finder(t, shown(t, "24", "24", "", 24).with("table", rig.Rotary, 90), s, 480)
	img := f.Frame(0)
	shades := map[uint8]bool{}
	for y := 60; y < 200; y++ {
		shades[img.RGBAAt(240, y).G] = true
	}
	assert.Greater(t, len(shades), 3)
	assert.Less(t, apart(t, img, f.Frame(24)), alike)
}

// Faces that look alike are engraved alike: after a quarter turn nothing has changed.
func TestEngravingIsAlikeOnAlikeFaces(t *testing.T) {
	f := finder(t, shown(t, "24", "24", "", 24).with("table", rig.Rotary, 90), pane(), 320)
	assert.Less(t, apart(t, f.Frame(0), f.Frame(24)), alike)
	assert.Greater(t, apart(t, f.Frame(0), f.Frame(3)), 10*alike)
}
