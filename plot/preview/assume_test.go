package preview_test

import (
	"strings"
	"testing"

	"seamrail/motion/scene"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/fault"
	"seamrail/motion/spec/rig"
	"seamrail/plot/preview"
)

// A scene that says everything has nothing filled in.
func TestNothingIsFilledInThatIsKnown(t *testing.T) {
	s := lantern()
	s.Lens.Focus, s.Lens.Aperture = scene.Is(361), scene.Is(8)
	assert.Empty(t, finder(t, turning(t, 1), s, 64).Assumed())
}

func TestWhatIsFilledInIsTold(t *testing.T) {
	for _, c := range []struct {
		name string
		edit func(*scene.Scene)
		want string
	}{
		{"shape", func(s *scene.Scene) { s.Product = scene.Product{} }, "a cylinder stands for it"},
		{"radius", func(s *scene.Scene) { s.Product.Radius = scene.Number{} }, "radius of 30 mm"},
		{"depth", func(s *scene.Scene) {
			s.Product = scene.Product{Shape: scene.Box, Width: scene.Is(50), Height: scene.Is(20)}
		}, "50 mm wide and 50 mm deep"},
		{"height", func(s *scene.Scene) { s.Product.Height = scene.Number{} }, "drawn 135 mm high"},
		{"pixels", func(s *scene.Scene) { s.Camera.PixelsHigh = scene.Number{} }, "1600 by 900 px"},
		{"pixels of a sensor", func(s *scene.Scene) {
			s.Camera.PixelsWide, s.Camera.PixelsHigh, s.Camera.SensorHeight = scene.Number{}, scene.Number{}, scene.Is(24)
		}, "1920 by 1280 px"},
		{"sensor", func(s *scene.Scene) { s.Camera.SensorWidth = scene.Number{} }, "36 mm wide"},
		{"distance", func(s *scene.Scene) { s.Stand.Distance = scene.Number{} }, "fills 60 %"},
		{"focal length", func(s *scene.Scene) { s.Lens.FocalLength = scene.Number{} }, "fills 60 %"},
		{"focal length beside a magnification", func(s *scene.Scene) {
			s.Lens.FocalLength, s.Stand.Distance, s.Lens.Magnification = scene.Number{}, scene.Number{}, scene.Is(0.2)
		}, "focal length is not known: 50 mm"},
		{"shutter", func(s *scene.Scene) { s.Camera.ShutterAngle = scene.Number{} }, "half of each frame"},
		{"aperture", func(s *scene.Scene) {}, "drawn sharp"},
		{"focus", func(s *scene.Scene) {}, "focused on the product's near face"},
		{"lamps", func(s *scene.Scene) { s.Lamps = nil }, "upper left"},
		{"one lamp", func(s *scene.Scene) { s.Lamps[0].Lumens = scene.Number{} }, "each lights as much"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := lantern()
			c.edit(&s)
			assert.Contains(t, strings.Join(finder(t, turning(t, 1), s, 64).Assumed(), "\n"), c.want)
		})
	}
}

// Of unknown size in the picture, the near face fills its share of the height.
func TestProductFillsItsShare(t *testing.T) {
	s := lantern()
	s.Stand.Distance, s.Lens.FocalLength = scene.Number{}, scene.Number{}
	s.Product = scene.Product{Shape: scene.Box, Width: scene.Is(80), Depth: scene.Is(40), Height: scene.Is(100)}
	img := finder(t, turning(t, 0), s, 640).Frame(0)
	top := 0
	for img.RGBAAt(320, top).R < img.RGBAAt(320, top).B { // the wall is cool, brass is not
		top++
	}
	assert.InDelta(t, 0.2*360, float64(top), 1)
}

// Whatever is left out, something is drawn or a fault says why not.
func TestAnyPartOfASceneDraws(t *testing.T) {
	m := turning(t, 1).with("rail", rig.Linear, 5)
	rapid.Check(t, func(t *rapid.T) {
		s := lantern()
		s.Lens.Focus, s.Lens.Aperture = scene.Is(361), scene.Is(8)
		c, l, p, st := &s.Camera, &s.Lens, &s.Product, &s.Stand
		c.Pitch = scene.Is(36.0 / 1600)
		c.SensorHeight, st.Height = scene.Is(36*900/1600.0), scene.Is(60)
		for i, n := range []*scene.Number{&c.SensorWidth, &c.SensorHeight, &c.PixelsWide, &c.PixelsHigh, &c.Pitch, &c.ShutterAngle,
			&l.FocalLength, &l.Focus, &l.Aperture, &p.Radius, &p.Height, &st.Distance, &st.Height} {
			if rapid.Bool().Draw(t, string(rune('a'+i))) {
				*n = scene.Number{}
			}
		}
		p.Shape = rapid.SampledFrom([]scene.Shape{scene.NoShape, scene.Cylinder, scene.Prism, scene.Box}).Draw(t, "shape")
		f, err := preview.New(m, s, 48)
		if err != nil {
			var list fault.List
			require.ErrorAs(t, err, &list)
			return
		}
		img := f.Frame(3)
		first := img.RGBAAt(0, 0)
		differs := false
		for i := 0; i < len(img.Pix); i += 4 {
			differs = differs || img.Pix[i] != first.R
		}
		assert.True(t, differs, "an empty picture")
	})
}

// Of a move alone, a scene is guessed by the kind and the names of its axes.
func TestGuess(t *testing.T) {
	m := shown(t, "24", "24", "", 24).with("rail", rig.Linear, 20).with("focus", rig.Linear, 0).
		with("spinner", rig.Rotary, 10).with("pan", rig.Rotary, 1).with("tilt", rig.Rotary, 1).with("other", rig.Rotary, 1)
	s, said := preview.Guess(m)
	assert.Equal(t, "spinner", s.Stand.TableAxis)
	assert.Equal(t, "focus", s.Stand.FocusAxis)
	assert.Equal(t, "pan", s.Stand.PanAxis)
	assert.Equal(t, "tilt", s.Stand.TiltAxis)
	require.Len(t, s.Stand.Slides, 1)
	assert.Equal(t, "rail", s.Stand.Slides[0].Axis)
	assert.Contains(t, strings.Join(said, "\n"), "axis other is taken for no part")
	still := shown(t, "24", "24", "", 24).with("base", rig.Rotary, 0)
	s, _ = preview.Guess(still)
	assert.Equal(t, "base", s.Stand.TableAxis, "it is all there is")
	s, _ = preview.Guess(still.with("stand", rig.Rotary, 10))
	assert.Equal(t, "stand", s.Stand.TableAxis, "it turns, and the base does not")
	rail := shown(t, "24", "24", "", 24).with("rail", rig.Linear, 20)
	s, _ = preview.Guess(rail)
	f := finder(t, rail, s, 96)
	assert.Greater(t, apart(t, f.Frame(0), f.Frame(23)), 0.2, "it is seen to push in")
}
