package picture_test

import (
	"math"
	"reflect"
	"testing"

	"seamrail/motion/scene"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/camera/picture"
)

func faults(t *testing.T, m picture.Motion, s scene.Scene) []string {
	t.Helper()
	_, err := picture.Examine(m, s)
	var list fault.List
	require.ErrorAs(t, err, &list)
	var out []string
	for _, f := range list {
		out = append(out, f.String())
	}
	return out
}

func TestFaultsSayWhatWouldDo(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*scene.Scene)
		want   string
	}{
		{"focus inside the focal length", func(s *scene.Scene) { s.Lens.Focus = scene.Is(90) },
			"camera.focus 90 mm must be beyond the focal length, 100 mm; no picture forms nearer; at 1:1 it is 200 mm"},
		{"focus that contradicts the mark", func(s *scene.Scene) { s.Lens.Focus = scene.Is(500) },
			"camera.focus 500 mm must be where this focal length magnifies so, 400 mm; leave it out"},
		{"no aperture", func(s *scene.Scene) { s.Lens.Aperture = scene.Is(0) },
			"camera.aperture 0 must be from 0.5 to 1000"},
		{"half a pixel", func(s *scene.Scene) { s.Camera.PixelsHigh = scene.Is(1080.5) },
			"camera.pixels-high 1080.5 must be a whole number; 2160"},
		{"product inside the lens", func(s *scene.Scene) { s.Stand.Distance = scene.Is(30) },
			"scene.distance 30 mm must leave the front of the lens outside the product; 40 mm or more, or a slide's zero where the camera is clear"},
		{"negative lamp", func(s *scene.Scene) { s.Lamps = []scene.Lamp{{Lumens: scene.Is(-1)}} },
			"scene.lamps[1].lumens -1 lm must be above 0 and at most 1000000; 3900 lm"},
		{"shutter twice", func(s *scene.Scene) { s.Camera.ShutterAngle = scene.Is(180) },
			"camera.shutter-angle 180 deg says already what camera.shutter says; keep one of the two"},
		{"shutter longer than a frame", func(s *scene.Scene) { s.Camera.Shutter = scene.Is(0.02) },
			"camera.shutter 1/50 s must be no longer than a captured frame, 1/120 s; half of it is 1/240 s"},
		{"pitch that contradicts the sensor", func(s *scene.Scene) { s.Camera.SensorWidth = scene.Is(36) },
			"camera.pitch 0.005 mm must be what sensor-width and pixels-wide make it, 0.009 mm; leave it out"},
		{"an angle beyond the circle", func(s *scene.Scene) { s.Camera.Shutter, s.Camera.ShutterAngle = scene.Number{}, scene.Is(400) },
			"camera.shutter-angle 400 deg must be above 0 and at most 360 deg; 180 deg, the half circle"},
		{"a bound below zero", func(s *scene.Scene) { s.Bounds.SoftSmear = -1 },
			"picture.soft-smear -1 px must be above 0; 8 is usual"},
		{"a magnification of nothing", func(s *scene.Scene) { s.Lens.Magnification, s.Lens.Focus = scene.Is(0), scene.Number{} },
			"camera.magnification 0 must be from 0.000001 to 1000"},
		{"a negative mains", func(s *scene.Scene) { s.Mains = exact.Int(-50) },
			"scene.mains -50 Hz must be above 0; 50 or 60"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := bench()
			c.change(&s)
			assert.Equal(t, []string{c.want}, faults(t, at(t, 120, 2), s))
		})
	}
}

// Focus that is not said is taken from where the product stands, and that may
// be too near as well.
func TestProductInsideTheFocalLength(t *testing.T) {
	s := bench()
	s.Lens.Magnification, s.Stand.Distance = scene.Number{}, scene.Is(130)
	assert.Equal(t, []string{"scene.distance 130 mm must leave the product's near face beyond the focal length in frame 0, " +
		"and it is 90 mm from the lens; 240 mm would show it at 1:1"}, faults(t, at(t, 120, 2), s))
}

func TestFocusPulledWithinTheFocalLength(t *testing.T) {
	m := at(t, 120, 240).with("pull", swing(400, 80, 2))
	assert.Equal(t, []string{"axis pull: focus 80 mm must be beyond the focal length, 100 mm at frame 120; no picture forms nearer"},
		faults(t, m, bench()))
}

// Every bound has a default, a source and a key of its own, and 0 stands for
// the default.
func TestBounds(t *testing.T) {
	seen := map[string]bool{}
	b := scene.DefaultBounds()
	for _, i := range scene.BoundList() {
		assert.Positive(t, *i.At(&b), i.Key)
		assert.NotEmpty(t, i.Source, i.Key)
		assert.False(t, seen[i.Key], i.Key)
		seen[i.Key] = true
		*i.At(&b) = -1
	}
	assert.Len(t, seen, reflect.TypeFor[scene.Bounds]().NumField())
	s := bench()
	s.Bounds = b
	assert.Len(t, faults(t, at(t, 120, 2), s), len(seen))
	s.Bounds = scene.Bounds{SoftSmear: 2}
	v := find(t, examine(t, at(t, 120, 2).with("across", steady(0, 11.7)), s), "smear")
	assert.Equal(t, picture.Poor, v.Level)
	assert.Contains(t, v.Cures.Words(), "a shutter of 1/400 s")
}

func TestFaultsComeAllAtOnce(t *testing.T) {
	s := bench()
	s.Lens.Aperture, s.Lens.Focus = scene.Is(-8), scene.Is(50)
	s.Lamps = []scene.Lamp{{Lumens: scene.Is(math.NaN()), Beam: scene.Is(0), Level: scene.Is(2)}}
	s.Camera.Shutter = scene.Is(1)
	s.Stand.Slides[0].Axis = "table"
	assert.Len(t, faults(t, at(t, 120, 2).with("table", steady(0, 1)), s), 7)
}

// Whatever the numbers, an answer without NaN or faults, and never a panic.
func FuzzExamine(f *testing.F) {
	f.Add(100.0, 0.33, 440.0, 8.0, 0.004, 40.0, 60.0, 2.0, uint8(7))
	f.Add(-1.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, uint8(255))
	f.Add(50.0, 1e-6, 1e6, 1000.0, 1e-9, 1e6, 1e-3, 90.0, uint8(21))
	f.Fuzz(func(t *testing.T, focal, m, distance, n, shutter, radius, swungBy, tilt float64, which uint8) {
		s := bench()
		give := func(bit int, to *scene.Number, v float64) {
			*to = scene.Number{Value: v, Given: which&(1<<bit) != 0}
		}
		give(0, &s.Lens.FocalLength, focal)
		give(1, &s.Lens.Magnification, m)
		give(2, &s.Stand.Distance, distance)
		give(3, &s.Lens.Aperture, n)
		give(4, &s.Camera.Shutter, shutter)
		give(5, &s.Product.Radius, radius)
		give(6, &s.Stand.Tilt, tilt)
		give(7, &s.Camera.PixelsWide, wide)
		s.Holes, s.Lamps, s.Mains = hole(90), []scene.Lamp{key()}, exact.Int(50)
		s.Backlash = map[string]float64{"push": 0.1, "table": 0.1}
		if math.IsNaN(swungBy) || math.Abs(swungBy) > 1e5 {
			t.Skip()
		}
		move := at(t, 120, 8).with("push", swing(0, swungBy, 8.0/120)).with("table", steady(0, swungBy)).with("tilt", swing(0, 5, 8.0/120))
		r, err := picture.Examine(move, s)
		if err != nil {
			return
		}
		a, err := picture.NewTopView(move, s)
		if err != nil || len(a.Items) == 0 && len(a.Missing) == 0 {
			t.Errorf("from above: %v, nothing drawn and nothing missing", err)
		}
		for _, i := range a.Items {
			for _, p := range i.Points {
				if math.IsNaN(p.X+p.Y) || math.IsInf(p.X+p.Y, 0) {
					t.Errorf("item %d of the view from above is at %v", i.Kind, p)
				}
			}
		}
		for _, v := range r.Verdicts {
			if v.Text == "" {
				t.Errorf("%s says nothing", v.Check)
			}
			for _, g := range v.Figures {
				if math.IsNaN(g.Value) || math.IsInf(g.Value, 0) {
					t.Errorf("%s of %s is %g", g.Name, v.Check, g.Value)
				}
			}
		}
	})
}

// A lens is asked for no nearer focus than it has: not where the focus is taken from the
// product, nor where an axis pulls it. Both sides of the edge; rings bring it nearer.
func TestFocusNearerThanTheLensHas(t *testing.T) {
	sound := func(m picture.Motion, s scene.Scene, why ...any) {
		t.Helper()
		_, err := picture.Look(m, s)
		assert.NoError(t, err, why...)
	}
	s := bench()
	s.Lens.Magnification, s.Stand.Distance, s.Lens.Nearest = scene.Number{}, scene.Is(300), scene.Is(264)
	sound(at(t, 120, 2), s, "260 mm, and marks have two digits")
	s.Lens.Nearest = scene.Is(268)
	assert.Equal(t, []string{"scene.distance 300 mm must leave the product's near face at the nearest focus of the lens or beyond, 268 mm, " +
		"and it is 260 mm from the lens in frame 0; 308 mm would do, or rings between camera and lens: camera.extension"}, faults(t, at(t, 120, 2), s))
	s.Lens.Extension = scene.Is(10)
	sound(at(t, 120, 2), s)
	s.Lens.Extension, s.Lens.Nearest, s.Lens.Greatest = scene.Number{}, scene.Number{}, scene.Is(0.625)
	sound(at(t, 120, 2), s, "1:1.6 is at 260 mm")
	s.Lens.Greatest = scene.Is(0.59)
	assert.Contains(t, faults(t, at(t, 120, 2), s)[0], "the nearest focus of the lens or beyond, 269.", "100 mm (1 + 1/0.59)")

	m := at(t, 120, 240).with("pull", swing(400, 180, 2))
	pulled := bench()
	pulled.Stand.FocusAxis = "pull"
	pulled.Lens.Magnification = scene.Number{}
	pulled.Lens.Nearest = scene.Is(182)
	sound(m, pulled)
	pulled.Lens.Nearest = scene.Is(190)
	assert.Equal(t, []string{"axis pull: focus 180 mm must be 190 mm or more, the nearest focus of the lens at frame 120; pull it from farther away"}, faults(t, m, pulled))
}
