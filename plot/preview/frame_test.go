package preview_test

import (
	"image"
	"math"
	"sync"
	"testing"

	"seamrail/motion/scene"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/camera/optics"
	"seamrail/motion/spec/rig"
	"seamrail/plot/preview"
)

// Each pixel of an edge that moves evenly is covered for the share of the
// exposure in which the edge is past it: a straight ramp as wide as the smear.
func TestSmearIsARamp(t *testing.T) {
	// 300 mm/s for 1/48 s at 0.9 m: from the report's own formulas, in px of 320.
	m := shown(t, "24", "24", "", 24).with("rail", rig.Linear, 300)
	s := edged(500)
	f := finder(t, m, s, 320)
	image := optics.ImageDistance(50, 400)
	smear := 300.0 / 48 * image / 900 / (36.0 / 320)
	p := profile(f.Frame(0), 150)
	// The camera goes left, so that the edge goes right from the middle, and
	// covers what it passes for the rest of the exposure.
	for x, v := range p {
		want := math.Min(1, math.Max(0, (float64(x)+0.5-160)/smear))
		assert.InDelta(t, want, v, 0.06, "at %d; %d exposures for %.1f px", x, f.Exposures(), smear)
	}
}

// An edge out of focus covers of each point's spot, a disc, what lies on its
// side: 1/2 + (asin t + t sqrt(1-t^2))/pi at t radii from the edge (the area of
// a circle's segment, textbook).
func TestBlurIsADisc(t *testing.T) {
	s := edged(1600)
	s.Lens.Aperture = scene.Is(2)
	f := finder(t, turning(t, 0), s, 320)
	spot := optics.Blur(50, 2, 1, 400, 2000) / (36.0 / 320)
	require.Greater(t, spot, 10.0)
	for x, v := range profile(f.Frame(0), 150) {
		r := math.Min(1, math.Max(-1, (float64(x)+0.5-160)/(spot/2)))
		want := 0.5 + (math.Asin(r)+r*math.Sqrt(1-r*r))/math.Pi
		assert.InDelta(t, want, v, 0.06, "at %d; %d exposures for %.1f px", x, f.Exposures(), spot)
	}
}

// A lens so close that it sees no corner of the product blurs it all the same,
// by its formula. The picture is 51 mm wide at a face of 100 mm.
func TestCloseIsBlurred(t *testing.T) {
	for shape, product := range map[string]scene.Product{
		"prism":    {Shape: scene.Prism, Sides: 4, Radius: scene.Is(50 * math.Sqrt2), Height: scene.Is(150)},
		"cylinder": {Shape: scene.Cylinder, Radius: scene.Is(50), Height: scene.Is(150)},
	} {
		s := lantern()
		s.Product = product
		s.Lens = scene.Lens{FocalLength: scene.Is(150), Aperture: scene.Is(8), Focus: scene.Is(380)}
		f := finder(t, turning(t, 0), s, 320)
		spot := optics.Blur(150, 8, 1, 380, 350) / (36.0 / 320)
		assert.GreaterOrEqual(t, float64(f.Exposures()), math.Min(48, 2*spot), shape)
	}
}

func TestSharpIsSharp(t *testing.T) {
	s := edged(0.01)
	s.Lens.Aperture = scene.Is(2)
	p := profile(finder(t, turning(t, 0), s, 320).Frame(0), 150)
	assert.InDelta(t, 0, p[158], 0.02)
	assert.InDelta(t, 1, p[161], 0.02, "in the plane of focus nothing blurs")
}

// alike is by how many codes of 255, on average, two pictures of what looks the
// same may differ: one pixel in 500, by one, from rounding.
const alike = 0.002

// A lantern of six panes looks the same after a sixth of a turn, and not after a
// fifth.
func TestPanesThatLookAlikeLookAlike(t *testing.T) {
	level, above := lantern(), lantern()
	above.Stand.Height, above.Stand.Tilt = scene.Is(240), scene.Is(-25) // with the table in the picture
	for _, s := range []scene.Scene{level, above} {
		sixth, fifth := finder(t, turning(t, 1.0/6), s, 160), finder(t, turning(t, 1.0/5), s, 160)
		usual := apart(t, sixth.Frame(0), sixth.Frame(1))
		require.Greater(t, usual, 0.1, "the lantern is seen to turn")
		assert.Less(t, apart(t, sixth.Frame(0), sixth.Frame(24)), alike)
		assert.Less(t, apart(t, sixth.Frame(-3), sixth.Frame(21)), alike)
		assert.Greater(t, apart(t, fifth.Frame(0), fifth.Frame(24)), 2*usual)
	}
}

// Faces that do not look alike are told apart: after a quarter turn a square box
// of four different faces is another picture, and one of four alike is not.
func TestFacesAreToldApart(t *testing.T) {
	s := lantern()
	s.Product = scene.Product{Shape: scene.Box, Width: scene.Is(80), Depth: scene.Is(80), Height: scene.Is(120), Alike: 1}
	seen := []*image.RGBA{}
	f := finder(t, turning(t, 1), s, 160)
	for k := range int64(4) {
		seen = append(seen, f.Frame(6*k))
	}
	for i := range seen {
		for j := range i {
			assert.Greater(t, apart(t, seen[i], seen[j]), 0.5, "faces %d and %d", j+1, i+1)
		}
	}
	s.Product.Alike = 4
	f = finder(t, turning(t, 1), s, 160)
	assert.Less(t, apart(t, f.Frame(0), f.Frame(6)), alike)
}

// With no lamps but one behind the lens, mirrored scenes make mirrored pictures.
func TestMirror(t *testing.T) {
	s := lantern()
	s.Lamps = []scene.Lamp{{Bearing: 0, Rise: 20}}
	s.Product.Facing = 10
	s.Stand.Aside, s.Stand.Pan = scene.Is(40), scene.Is(8)
	a := finder(t, turning(t, 0.1), s, 160).Frame(3)
	s.Product.Facing = -10
	s.Stand.Aside, s.Stand.Pan = scene.Is(-40), scene.Is(-8)
	b := finder(t, turning(t, -0.1), s, 160).Frame(3)
	flipped := image.NewRGBA(b.Rect)
	for y := range b.Rect.Dy() {
		for x := range b.Rect.Dx() {
			flipped.SetRGBA(x, y, b.RGBAAt(b.Rect.Dx()-1-x, y))
		}
	}
	assert.Less(t, apart(t, a, flipped), 0.15)
	assert.Greater(t, apart(t, a, b), 3.0)
}

// The product's face comes out as large as its magnification says.
func TestFaceIsAsLargeAsItsMagnification(t *testing.T) {
	s := lantern()
	s.Product = scene.Product{Shape: scene.Box, Width: scene.Is(100), Depth: scene.Is(60), Height: scene.Is(80)}
	img := finder(t, turning(t, 0), s, 640).Frame(0)
	// The near face is 370 mm off and in focus.
	want := 100 * optics.Magnification(50, 370) / (36.0 / 640)
	ground := img.RGBAAt(5, 180)
	first, last := -1, -1
	for x := range 640 {
		if d := math.Abs(float64(img.RGBAAt(x, 180).B) - float64(ground.B)); d > 30 {
			if first < 0 {
				first = x
			}
			last = x
		}
	}
	assert.InDelta(t, want, float64(last-first+1), 2)
	assert.InDelta(t, 320, float64(first+last+1)/2, 1, "and in the middle")
}

func TestDarkFillsThePicture(t *testing.T) {
	s := lantern()
	s.Dark = edged(0).Dark
	s.Dark.Centre.X, s.Dark.Centre.Y = 0, -300
	img := finder(t, turning(t, 0.3), s, 64).Frame(5)
	for i, v := range img.Pix {
		if i%4 != 3 {
			require.LessOrEqual(t, v, uint8(12))
		}
	}
}

// What is nearer hides what is farther, in whatever order they are named.
func TestNearerHides(t *testing.T) {
	s := lantern()
	s.Dark = &scene.Dark{Width: scene.Is(400), Height: scene.Is(400)}
	s.Holes = []scene.Hole{{Diameter: scene.Is(60), Board: 500}, {Diameter: scene.Is(20), Board: 500}}
	for i, y := range []float64{-200, -150} {
		s.Holes[i].Centre.Y, s.Holes[i].Centre.Z = y, 60
	}
	s.Dark.Centre.Y, s.Dark.Centre.Z = -100, 60
	img := finder(t, turning(t, 0), s, 320).Frame(0)
	s.Holes[0], s.Holes[1] = s.Holes[1], s.Holes[0]
	assert.Equal(t, img.Pix, finder(t, turning(t, 0), s, 320).Frame(0).Pix)
	board, dark := img.RGBAAt(2, 2), img.RGBAAt(160, 90)
	assert.Less(t, dark.G, uint8(15), "through both holes, the dark")
	assert.Greater(t, board.G, uint8(40))
	assert.Equal(t, board, img.RGBAAt(190, 90), "through the near hole, the far board")
	s.Dark.Centre.Y = -250
	img = finder(t, turning(t, 0), s, 320).Frame(0)
	assert.Equal(t, dark, img.RGBAAt(190, 90), "now the dark is nearest")
}

// A board that stands in the dark is dark, and what is behind shows through the hole
// in it. It was once painted over the dark, slate grey.
func TestABoardInTheDarkIsDark(t *testing.T) {
	s := lantern()
	open := finder(t, turning(t, 0), s, 320).Frame(0)
	s.Dark = &scene.Dark{Width: scene.Is(500), Height: scene.Is(500)}
	s.Holes = []scene.Hole{{Diameter: scene.Is(40), Board: 500, Thickness: 5}}
	s.Dark.Centre.Y, s.Dark.Centre.Z = -200, 60
	s.Holes[0].Centre = s.Dark.Centre
	for range 2 {
		img := finder(t, turning(t, 0), s, 320).Frame(0)
		for _, x := range []int{2, 60, 250, 317} {
			p := img.RGBAAt(x, 90)
			assert.Less(t, max(p.R, p.G, p.B), uint8(15), "at %d", x)
		}
		assert.Equal(t, open.RGBAAt(160, 90), img.RGBAAt(160, 90), "through the hole")
		s.Holes[0].Board = 60 // a smaller board in a hole of the same dark
	}
	s.Holes[0].Centre.Y -= 50 // it stands before the dark
	p := finder(t, turning(t, 0), s, 320).Frame(0)
	assert.Greater(t, p.RGBAAt(300, 90).G, uint8(40))
	assert.Less(t, p.RGBAAt(160, 90).G, uint8(15))
}

// A side is as bright as its lamp makes it: lit from the right, the right pane
// outshines the left.
func TestSidesAreLit(t *testing.T) {
	s := lantern()
	s.Lamps = []scene.Lamp{{Bearing: 60}}
	img := finder(t, turning(t, 0), s, 320).Frame(0)
	left, middle, right := img.RGBAAt(118, 90), img.RGBAAt(160, 90), img.RGBAAt(202, 90)
	assert.Greater(t, right.G, middle.G)
	assert.Greater(t, middle.G, left.G)
	// Lambert: a pane 60 degrees off the lamp has half of what the lamp adds.
	ambient := light(left.G)
	assert.InDelta(t, 0.5, (light(middle.G)-ambient)/(light(right.G)-ambient), 0.03)
}

// The wall is paler towards the horizon, and the bench too.
func TestHorizonIsPalest(t *testing.T) {
	s := lantern()
	s.Stand.Aside = scene.Is(900)
	img := finder(t, turning(t, 0), s, 64).Frame(0)
	assert.Less(t, img.RGBAAt(3, 0).G, img.RGBAAt(3, 14).G)
	assert.Less(t, img.RGBAAt(3, 35).G, img.RGBAAt(3, 22).G)
	assert.Greater(t, img.RGBAAt(3, 10).B, img.RGBAAt(3, 10).R, "the wall is cool")
	assert.Less(t, img.RGBAAt(3, 30).B, img.RGBAAt(3, 30).R, "and the bench warm")
}

// A board with a hole hides all but what the hole shows.
func TestHole(t *testing.T) {
	s := lantern()
	open := finder(t, turning(t, 0), s, 320).Frame(0)
	s.Holes = []scene.Hole{{Diameter: scene.Is(60), Board: 500}}
	s.Holes[0].Centre.Y, s.Holes[0].Centre.Z = -200, 60
	img := finder(t, turning(t, 0), s, 320).Frame(0)
	// 200 mm off, 60 mm are so many px across.
	radius := 30 * optics.ImageDistance(50, 400-45*math.Cos(math.Pi/6)) / 200 / (36.0 / 320)
	for x := range 320 {
		switch off := math.Abs(float64(x) + 0.5 - 160); {
		case off < radius-1:
			assert.Equal(t, open.RGBAAt(x, 90), img.RGBAAt(x, 90), "through the hole, at %d", x)
		case off > radius+1:
			assert.Equal(t, img.RGBAAt(0, 0), img.RGBAAt(x, 90), "the board, at %d", x)
		}
	}
}

// A product whose foot is off the table stands on a post, and through what is
// beside it the table shows.
func TestPost(t *testing.T) {
	s := lantern()
	s.Product.Base, s.Stand.Height = 60, scene.Is(60)
	img := finder(t, turning(t, 0), s, 320).Frame(0)
	// 361 mm off and 30 mm below the lens; the post's wide 0.3 of 45 mm.
	y := 90 + int(30*optics.ImageDistance(50, 361)/361/(36.0/320))
	post, beside, product := img.RGBAAt(160, y), img.RGBAAt(120, y), img.RGBAAt(160, 60)
	assert.Less(t, post.R, beside.R, "a post before the bench")
	assert.Less(t, int(post.R)-int(post.B), 40, "grey")
	assert.Greater(t, int(product.R)-int(product.B), 40, "and not brass")
}

// The lens may go through the hole, over the table and past the product, look
// straight up or down, and stand below the table, and something is drawn.
func TestAnyPlace(t *testing.T) {
	for _, tilt := range []float64{-90, -45, 0, 45, 90} {
		for _, height := range []float64{-200, 0, 60, 500} {
			s := lantern()
			s.Lens.Aperture, s.Lens.Focus = scene.Is(4), scene.Is(300)
			s.Stand.Tilt, s.Stand.Height, s.Stand.Distance = scene.Is(tilt), scene.Is(height), scene.Is(90)
			img := finder(t, turning(t, 1), s, 64).Frame(7)
			assert.NotEqual(t, uint8(0), img.RGBAAt(32, 18).A)
		}
	}
}

func TestSeveralAtOnce(t *testing.T) {
	f := finder(t, turning(t, 1), lantern(), 96)
	want := f.Frame(5)
	var wait sync.WaitGroup
	for range 4 {
		wait.Go(func() {
			for k := range int64(6) {
				f.Frame(k)
			}
			assert.Equal(t, want.Pix, f.Frame(5).Pix)
		})
	}
	wait.Wait()
}

func TestWidths(t *testing.T) {
	for _, w := range []int{-1, 0, preview.MinWidth - 1, preview.MaxWidth + 1} {
		_, err := preview.New(turning(t, 0), lantern(), w)
		assert.ErrorContains(t, err, "32..1920")
	}
	wide, high := finder(t, turning(t, 0), lantern(), 160).Size()
	assert.Equal(t, [2]int{160, 90}, [2]int{wide, high})
}

func TestFaultsOfTheSceneAreErrors(t *testing.T) {
	s := lantern()
	s.Lens.Focus = scene.Is(20)
	_, err := preview.New(turning(t, 0), s, 160)
	assert.ErrorContains(t, err, "focal length")
}

func BenchmarkFrame(b *testing.B) {
	s := lantern()
	s.Lens.Aperture = scene.Is(11)
	s.Camera.ShutterAngle = scene.Is(90)
	f := finder(b, turning(b, 1.0/6), s, 320)
	k := int64(0)
	for b.Loop() {
		f.Frame(k)
		k++
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "frames/s")
	b.ReportMetric(float64(f.Exposures()), "exposures")
}
