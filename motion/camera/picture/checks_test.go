package picture_test

import (
	"fmt"
	"math"
	"testing"

	"seamrail/motion/scene"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/base/exact"
	"seamrail/motion/camera/picture"
	"seamrail/motion/track"
)

// At 120 frames a second shown at 24 all is five times slower: 30 mm/s in the
// plane of focus are 2000 px/s, half a picture, a tenth of one on screen.
func TestScreenSpeed(t *testing.T) {
	for _, c := range []struct {
		speed float64
		level picture.Level
	}{{30, picture.Good}, {80, picture.Fair}, {150, picture.Poor}} {
		v := find(t, examine(t, at(t, 120, 2).with("across", steady(0, c.speed)), bench()), "screen speed")
		assert.InEpsilon(t, c.speed*scale/5/wide, figure(t, v, "speed"), 1e-4)
		assert.Equal(t, c.level, v.Level, v.Text)
	}
}

// 120 frames a second with a half circle want 1/240, marked 1/250 (common
// practice), which is 172.8 degrees at 120 a second.
func TestShutterAngle(t *testing.T) {
	v := find(t, examine(t, at(t, 120, 2), bench()), "shutter angle")
	assert.InDelta(t, 172.8, figure(t, v, "angle"), 1e-9)
	assert.Equal(t, picture.Good, v.Level)
	s := bench()
	s.Camera.Shutter = scene.Is(1.0 / 1000)
	v = find(t, examine(t, at(t, 120, 2), s), "shutter angle")
	assert.Equal(t, picture.Fair, v.Level)
	assert.Equal(t, []string{"about 1/250 s, the half circle"}, v.Cures.Words())
}

// 80 steps a mm at 66.7 px a mm are 0.83 px a step; 30 mm/s make 9.6 steps in
// 1/250 s, 1 mm/s a third of one.
func TestSteps(t *testing.T) {
	fast := find(t, examine(t, at(t, 120, 20).with("across", steady(0, 30)), bench()), "steps of across")
	assert.InEpsilon(t, scale/80, figure(t, fast, "a step"), 1e-4)
	assert.Equal(t, picture.Good, fast.Level)
	slow := find(t, examine(t, at(t, 120, 20).with("across", steady(0, 1)), bench()), "steps of across")
	assert.Equal(t, picture.Poor, slow.Level)
	assert.InDelta(t, 80.0/250, figure(t, slow, "in an exposure at most"), 1e-9)
	assert.InDelta(t, 20, figure(t, slow, "frames that tick"), 0)
	assert.Equal(t, []string{
		"microsteps 2 times as fine, or as much more gearing",
		"the camera 201 mm farther back and focused at 601 mm",
	}, slow.Cures.Words())
	assert.Equal(t, []string{"a capture rate of at most 80, with the shutter as long as its frame"}, slow.Advice)
	near := find(t, examine(t, at(t, 120, 20).with("across", steady(0, 2)), bench()), "steps of across")
	assert.Contains(t, near.Cures.Words(), "a shutter of 1/160 s", "80 steps x 2 mm/s: one step each 1/160 s")
	fine := bench()
	fine.Camera.Pitch = scene.Is(pitch * 2)
	assert.Equal(t, picture.Good, find(t, examine(t, at(t, 120, 20).with("across", steady(0, 1)), fine), "steps of across").Level)
	assert.Contains(t, find(t, examine(t, at(t, 120, 20).with("across", steady(0, 0)), bench()), "steps of across").Text, "rests")
}

// A cosine turns round in the middle of the loop and at the seam.
func TestBacklash(t *testing.T) {
	s := bench()
	s.Backlash = map[string]float64{"across": 0.03}
	m := at(t, 120, 240).with("across", swing(-5, 5, 2))
	v := find(t, examine(t, m, s), "backlash of across")
	assert.InDelta(t, 2, figure(t, v, "reversals"), 0)
	assert.InEpsilon(t, 0.03*scale, figure(t, v, "lag"), 0.01)
	assert.Equal(t, picture.Poor, v.Level)
	assert.Contains(t, v.Cures.Words(), "across tightened to 0.015 mm of play")
	one := find(t, examine(t, at(t, 120, 24).with("across", steady(0, 1)), s), "backlash of across")
	assert.Equal(t, "across never turns round", one.Text)
}

// A sine turns round a quarter and three quarters through.
func TestReversalTimes(t *testing.T) {
	s := bench()
	s.Backlash = map[string]float64{"across": 0.05}
	sine := func(sec float64) track.State {
		sin, cos := math.Sincos(math.Pi * sec)
		return track.State{Pos: 5 * sin, Vel: 5 * math.Pi * cos}
	}
	v := find(t, examine(t, at(t, 120, 240).with("across", sine), s), "backlash of across")
	assert.InDelta(t, 2, figure(t, v, "reversals"), 0)
	assert.InDelta(t, 0.5, v.When.Seconds, 1e-6)
	assert.Equal(t, int64(60), v.When.Frame)
}

// The near face stands in the plane of focus at the start and comes 5 mm
// nearer: the spot of a point there in similar triangles.
func TestFocus(t *testing.T) {
	m := at(t, 120, 240).with("push", swing(0, 5, 2))
	s := bench()
	v := find(t, examine(t, m, s), "focus")
	spot := focal / 8 / 3 * 5 / 395 / pitch // opening f/N, times magnification, times |z-u|/z
	assert.InEpsilon(t, spot, figure(t, v, "blur"), 1e-4)
	assert.InDelta(t, -5, figure(t, v, "drift"), 1e-3)
	assert.Equal(t, picture.Poor, v.Level)
	assert.Greater(t, v.When.Frame, int64(0))
	assert.Less(t, v.When.Frame, int64(120), "it leaves focus before it is nearest")
	s.Camera.Confusion = scene.Is(spot * pitch * 1.001)
	v = find(t, examine(t, m, s), "focus")
	assert.Equal(t, picture.Good, v.Level, v.Text)
}

// A focus axis that follows keeps it sharp, and the picture breathes.
func TestFocusPull(t *testing.T) {
	m := at(t, 120, 240).with("push", swing(0, 5, 2)).with("pull", swing(400, 395, 2))
	r := examine(t, m, bench())
	assert.InDelta(t, 0, figure(t, find(t, r, "focus"), "blur"), 1e-3)
	assert.Positive(t, figure(t, find(t, r, "smear"), "focus"))
}

// Where no distance is said the near face is in focus in frame 0, wherever the
// camera stands and looks.
func TestStandsInFocus(t *testing.T) {
	s := bench()
	s.Stand.Distance, s.Stand.Aside, s.Stand.Pan = scene.Number{}, scene.Is(150), scene.Is(15)
	s.Stand.Height, s.Stand.Tilt = scene.Is(100), scene.Is(-10)
	r := examine(t, at(t, 120, 1), s)
	require.Len(t, r.Assumed, 1)
	assert.InDelta(t, 0, r.Rows[0].Drift, 1e-6)
}

func TestDepthWithoutDistance(t *testing.T) {
	s := scene.Scene{Lens: scene.Lens{Magnification: scene.Is(0.5), Aperture: scene.Is(8)},
		Camera: scene.Camera{Confusion: scene.Is(0.01)}}
	v := find(t, examine(t, at(t, 24, 2), s), "focus")
	assert.InDelta(t, 8*0.01*1.5/0.25, figure(t, v, "sharp before focus"), 1e-12)
}

// N(1 + m/p) at a third of life size: f/8 acts as f/10.67, 0.830 stop darker,
// and 2.44 x 0.55 um x 10.67 is 14.3 um, 2.86 px of 5 um.
func TestDiffraction(t *testing.T) {
	v := find(t, examine(t, at(t, 120, 2), bench()), "diffraction")
	assert.InDelta(t, 32.0/3, figure(t, v, "effective aperture"), 1e-6)
	assert.InDelta(t, 0.830, figure(t, v, "stops lost"), 5e-4)
	assert.InEpsilon(t, 2.44*0.55e-3*32/3/pitch, figure(t, v, "Airy disc"), 1e-3)
	assert.Equal(t, picture.Good, v.Level)
	s := bench()
	s.Lens.PupilRatio = scene.Is(1.4)
	v = find(t, examine(t, at(t, 120, 2), s), "diffraction")
	assert.InDelta(t, 8*(1+1/(3*1.4)), figure(t, v, "effective aperture"), 1e-6)
	s = bench()
	s.Lens.Aperture = scene.Is(16)
	v = find(t, examine(t, at(t, 120, 2), s), "diffraction")
	assert.Equal(t, picture.Poor, v.Level)
	assert.Equal(t, []string{"f/8"}, v.Cures.Words())
}

// Fair from three pixels on, and poor where the disc's radius is a sharp spot: on both
// sides of both edges.
func TestDiffractionIsHeldAgainstTheSharpSpot(t *testing.T) {
	disc := func(n float64) float64 { return 2 * 3.8317059702 / math.Pi * 0.55e-3 * n * 4 / 3 / pitch }
	for px, level := range map[float64]picture.Level{2.99: picture.Good, 3.01: picture.Fair, 3.99: picture.Fair, 4.01: picture.Poor} {
		s := bench()
		s.Lens.Aperture = scene.Is(px / disc(1)) // no marked one: it stands for itself
		v := find(t, examine(t, at(t, 120, 2), s), "diffraction")
		assert.InDelta(t, px, figure(t, v, "Airy disc"), 1e-6)
		assert.Equal(t, level, v.Level, v.Text)
		s.Camera.Confusion = scene.Is(3 * pitch)
		v = find(t, examine(t, at(t, 120, 2), s), "diffraction")
		assert.Equal(t, min(level, picture.Fair), v.Level, "a spot of 3 px counts as sharp")
	}
}

// Mush has no cure where a wider aperture loses the focus, and that is said.
func TestDiffractionWithoutACure(t *testing.T) {
	s := bench()
	s.Lens.Aperture = scene.Is(32)
	v := find(t, examine(t, at(t, 120, 240).with("push", swing(-6, 6, 2)), s), "diffraction")
	assert.Equal(t, picture.Poor, v.Level)
	assert.Empty(t, v.Cures.Words())
	assert.Equal(t, []string{"f/8, but then focus will not look right"}, v.Failed)
}

func key() scene.Lamp {
	return scene.Lamp{Name: "key", Lumens: scene.Is(4500), Beam: scene.Is(60), Distance: scene.Is(600), Level: scene.Is(0.9)}
}

// Common practice: a macro near f/14 at 120 frames a second and 1/250 wants a
// sensitivity in the low thousands under 4500 lm at 90 % near the product.
func TestMacroLight(t *testing.T) {
	s := bench()
	s.Lens.Aperture = scene.Is(14)
	s.Camera.ISO = scene.Number{}
	s.Lamps = []scene.Lamp{key()}
	v := find(t, examine(t, at(t, 120, 2), s), "light")
	iso := figure(t, v, "sensitivity needed")
	assert.Greater(t, iso, 1000.0)
	assert.Less(t, iso, 4000.0)
	assert.Contains(t, v.Text, "the lamps call for ISO 2000")
}

// Each cure supplies what is missing: N²/t = E S/C again with it in place.
func TestMissingStops(t *testing.T) {
	s := bench()
	s.Lens.Aperture = scene.Is(16)
	s.Camera.ISO = scene.Is(400)
	s.Lamps = []scene.Lamp{key()}
	m := at(t, 120, 2)
	v := find(t, examine(t, m, s), "light")
	stops := figure(t, v, "stops missing")
	require.Greater(t, stops, 1.0)
	assert.Equal(t, picture.Poor, v.Level)
	assert.Equal(t, []string{"ISO 2500", "lamps at 0.43 of their distance", "lamps 5.3 times as bright", "f/6.3"}, v.Cures.Words())
	left := func(change func(*scene.Scene)) float64 {
		c := s
		c.Lamps = []scene.Lamp{key()}
		change(&c)
		return figure(t, find(t, examine(t, m, c), "light"), "stops missing")
	}
	assert.InDelta(t, 0, left(func(c *scene.Scene) { c.Lamps[0].Distance.Value *= math.Exp2(-stops / 2) }), 1e-9)
	assert.InDelta(t, 0, left(func(c *scene.Scene) { c.Lamps[0].Lumens.Value *= math.Exp2(stops) }), 1e-9)
	assert.InDelta(t, 0, left(func(c *scene.Scene) { c.Camera.ISO.Value *= math.Exp2(stops) }), 1e-9)
	assert.InDelta(t, stops-2, left(func(c *scene.Scene) { c.Lens.Aperture = scene.Is(8) }), 1e-9)
	assert.InDelta(t, stops-1, left(func(c *scene.Scene) { c.Camera.Shutter.Value *= 2 }), 1e-9)
	assert.InDelta(t, stops+1, left(func(c *scene.Scene) { c.Lamps[0].Rise = 60 }), 1e-9, "light aslant by 60 degrees is half")
	assert.InDelta(t, stops-1, left(func(c *scene.Scene) { c.Lamps = append(c.Lamps, key()) }), 1e-9)
}

func TestLampBehind(t *testing.T) {
	s := bench()
	behind := key()
	behind.Bearing = 180
	s.Lamps = []scene.Lamp{behind}
	v := find(t, examine(t, at(t, 120, 2), s), "light")
	assert.Equal(t, picture.Poor, v.Level)
	assert.Contains(t, v.Text, "no lamp lights the side the camera sees")
}

// 3200 and 5600 K are 133.93 mired apart (CIE e-ILV; computed).
func TestColourOfLamps(t *testing.T) {
	warm, cold := key(), key()
	warm.Kelvin, cold.Kelvin, cold.Name = scene.Is(3200), scene.Is(5600), "window"
	s := bench()
	s.Lamps = []scene.Lamp{warm, cold}
	v := find(t, examine(t, at(t, 24, 2), withShutter(s, 1.0/50)), "colour of lamps")
	assert.InDelta(t, 133.93, figure(t, v, "shift"), 0.005)
	assert.Equal(t, []string{"a filter of +134 mired on window, which takes some of its light", "a filter of -134 mired on key, which takes some of its light"}, v.Cures.Words())
}

func withShutter(s scene.Scene, sec float64) scene.Scene {
	s.Camera.Shutter = scene.Is(sec)
	return s
}

// On 50 Hz at 24 frames a second the half circle, 1/48 s, beats four times a
// second, and 1/50 s is clean (common practice).
func TestFlicker(t *testing.T) {
	s := bench()
	lamp := key()
	lamp.Ripple = scene.Is(1)
	s.Lamps, s.Mains = []scene.Lamp{lamp}, exact.Int(50)
	v := find(t, examine(t, at(t, 24, 2), withShutter(s, 1.0/48)), "flicker")
	assert.InDelta(t, 4, figure(t, v, "beat"), 1e-12)
	x := math.Pi * 100 / 48
	assert.InDelta(t, math.Abs(math.Sin(x)/x), figure(t, v, "depth"), 1e-12)
	assert.Equal(t, []string{"a shutter of 1/50 s", "key on steady current"}, v.Cures.Words())
	assert.Equal(t, picture.Good, find(t, examine(t, at(t, 24, 2), withShutter(s, 1.0/50)), "flicker").Level)
	v = find(t, examine(t, at(t, 120, 2), s), "flicker")
	assert.InDelta(t, 4, figure(t, v, "beat"), 1e-12, "20 Hz, five times slower on screen")
	assert.Contains(t, v.Advice[0], "a capture rate of at most 100, ")
}

func TestSteadyShareOfFlicker(t *testing.T) {
	rippling, steady := key(), key()
	rippling.Ripple, steady.Ripple = scene.Is(0.8), scene.Is(0)
	s := bench()
	s.Lamps, s.Mains = []scene.Lamp{rippling}, exact.Int(60)
	alone := figure(t, find(t, examine(t, at(t, 48, 2), s), "flicker"), "depth")
	s.Lamps = append(s.Lamps, steady)
	assert.InDelta(t, alone/2, figure(t, find(t, examine(t, at(t, 48, 2), s), "flicker"), "depth"), 1e-12)
	s.Lamps = []scene.Lamp{rippling, rippling}
	assert.InDelta(t, alone, figure(t, find(t, examine(t, at(t, 48, 2), s), "flicker"), "depth"), 1e-12, "two alike pulse like one")
	s.Lamps[0].Lumens, s.Lamps = scene.Number{}, s.Lamps[:1]
	assert.InDelta(t, alone, figure(t, find(t, examine(t, at(t, 48, 2), s), "flicker"), "depth"), 1e-12, "of an unknown lamp all the light is taken to be its")
}

// A lamp is judged on what faces it: a rim light behind the product pulses in edges,
// steam and pours by all of its ripple where no other lamp reaches them, whatever
// the near face has of it.
func TestFlickerOfARimLight(t *testing.T) {
	s := bench()
	steady, rim := key(), key()
	steady.Ripple, steady.Bearing, steady.Name = scene.Is(0), 40, "key"
	rim.Ripple, rim.Bearing, rim.Rise, rim.Name, rim.Lumens = scene.Is(1), 160, 20, "rim", scene.Is(1)
	s.Lamps, s.Mains = []scene.Lamp{steady, rim}, exact.Int(50)
	v := find(t, examine(t, at(t, 120, 2), withShutter(s, 1.0/240)), "flicker")
	x := math.Pi * 100 / 240
	assert.InDelta(t, math.Sin(x)/x, figure(t, v, "depth"), 1e-12, "no light of the key comes there")
	assert.InDelta(t, 4, figure(t, v, "beat"), 1e-12)
	assert.Equal(t, picture.Poor, v.Level)
	assert.Contains(t, v.Text, "in the edges, steam and pours that it lights from behind")
	s.Lamps[1].Level = scene.Is(0)
	assert.Contains(t, find(t, examine(t, at(t, 120, 2), s), "flicker").Text, "steadily", "it is switched off")
	s.Lamps[1].Ripple = scene.Number{}
	assert.Equal(t, picture.Unknown, find(t, examine(t, at(t, 120, 2), s), "flicker").Level)
}

// A ripple in step with the frames stands still while the mains do: it swells slowly,
// or quickly where an hour is a minute on screen. A clean shutter needs no step.
func TestFlickerInStep(t *testing.T) {
	s := bench()
	lamp := key()
	lamp.Ripple = scene.Is(0.5)
	s.Lamps, s.Mains = []scene.Lamp{lamp}, exact.Int(50)
	v := find(t, examine(t, at(t, 25, 2), withShutter(s, 1.0/70)), "flicker")
	assert.Equal(t, picture.Fair, v.Level)
	assert.Contains(t, v.Text, "slowly")
	assert.Equal(t, picture.Good, find(t, examine(t, at(t, 25, 2), withShutter(s, 1.0/50)), "flicker").Level)
	v = find(t, examine(t, at(t, 1, 2), withShutter(s, 1.0/70)), "flicker")
	assert.Equal(t, picture.Poor, v.Level)
	assert.Contains(t, v.Text, "0.96 times a second on screen", "24 times as fast as 0.04 Hz")
}

// Two lamps 60 degrees apart light a face of one of them by one and a half. Both sides
// of the bound.
func TestFlickerBesideAnotherLamp(t *testing.T) {
	s := bench()
	steady, side := key(), key()
	steady.Ripple, steady.Bearing, steady.Rise = scene.Is(0), 0, 0
	side.Bearing, side.Rise, side.Name = 60, 0, "side"
	x := math.Pi * 100 / 48
	left := math.Abs(math.Sin(x)/x) / 1.5
	for share, level := range map[float64]picture.Level{0.0099: picture.Good, 0.0101: picture.Poor} {
		side.Ripple = scene.Is(share / left)
		s.Lamps, s.Mains = []scene.Lamp{steady, side}, exact.Int(50)
		v := find(t, examine(t, at(t, 24, 2), withShutter(s, 1.0/48)), "flicker")
		assert.InDelta(t, share, figure(t, v, "depth"), 1e-12)
		assert.Equal(t, level, v.Level)
		assert.Contains(t, v.Text, "on what faces side")
	}
}

// The picture is 4000 px of 5 um at a third of life size: 60 mm wide.
func TestFieldOfView(t *testing.T) {
	v := find(t, examine(t, at(t, 120, 240).with("push", swing(0, 100, 2)), bench()), "field of view")
	assert.InEpsilon(t, 60, figure(t, v, "width at farthest"), 1e-4)
	assert.InEpsilon(t, 45, figure(t, v, "width at nearest"), 1e-4, "three quarters as far, three quarters as wide")
	assert.InEpsilon(t, 80.0/66, figure(t, v, "filled at farthest"), 1e-4, "at its middle, 440 mm away, it is 66 mm wide")
	assert.InDelta(t, 2*math.Atan(10/(focal*4/3))*180/math.Pi, figure(t, v, "angle of view"), 1e-9)
}

// The picture is 60 mm wide 400 mm away. The line of sight along its edge is clear of a
// cylinder of 40 mm from 33 mm aside and 40 over the cosine of that line on: 73.11 mm.
func TestProductOutOfThePicture(t *testing.T) {
	for aside, without := range map[float64]float64{0: 0, 60: 0, 73.0: 0, 73.2: 100, -73.2: 100, 500: 100} {
		s := bench()
		s.Stand.Aside = scene.Is(aside)
		v := find(t, examine(t, at(t, 120, 48), s), "in frame")
		if without == 0 {
			assert.Equal(t, picture.Good, v.Level, "%g: %s", aside, v.Text)
			continue
		}
		assert.Equal(t, picture.Poor, v.Level, "%g", aside)
		assert.Contains(t, v.Text, "the product is never in the picture")
		side := "left" // the camera stands right of the product
		if aside < 0 {
			side = "right"
		}
		toward := math.Round(math.Atan2(math.Abs(aside), distance) * 180 / math.Pi)
		away := math.Round(math.Hypot(aside, distance) - radius)
		assert.Equal(t, []string{fmt.Sprintf("the camera panned %v deg %s and tilted 0 deg up, focused at %v mm", toward, side, away)}, v.Cures.Words())
		assert.InDelta(t, without, figure(t, v, "frames without the product"), 1e-9)
	}
	s := bench()
	v := find(t, examine(t, at(t, 120, 240).with("across", swing(-150, 150, 2)), s), "in frame")
	assert.Equal(t, picture.Poor, v.Level)
	assert.Contains(t, v.Text, "out of the picture between frames 0 and 239")
	// A cosine is beyond 73.11 of 150 mm for 1 - 2 asin(73.11/150)/pi of its time.
	assert.InDelta(t, 100*(1-2*math.Asin(73.11/150)/math.Pi), figure(t, v, "frames without the product"), 100.0/240*2)
	s.Stand.Height = scene.Is(200)
	v = find(t, examine(t, at(t, 120, 48), s), "in frame")
	assert.Contains(t, v.Text, "never in the picture", "it passes below")
}

func TestDarkAtTheSeam(t *testing.T) {
	s := bench()
	// 200 mm before the lens the picture is 30 mm by 15.
	s.Dark = &scene.Dark{Centre: r3.Vec{Y: -distance + 200, Z: 25}, Width: scene.Is(36), Height: scene.Is(20)}
	v := find(t, examine(t, at(t, 120, 2), s), "dark at the seam")
	assert.InDelta(t, 2.5, figure(t, v, "spare"), 1e-9)
	s.Dark.Height = scene.Is(10)
	v = find(t, examine(t, at(t, 120, 2), s), "dark at the seam")
	assert.InDelta(t, -2.5, figure(t, v, "spare"), 1e-9)
	assert.Equal(t, picture.Poor, v.Level)
	assert.Equal(t, []string{"a dark larger by 3 mm all round"}, v.Cures.Words())
	s.Dark.Height, s.Dark.Width = scene.Is(20), scene.Is(28)
	assert.InDelta(t, -1, figure(t, find(t, examine(t, at(t, 120, 2), s), "dark at the seam"), "spare"), 1e-9)
	s.Dark.Centre.Y = -distance - 10
	assert.Contains(t, find(t, examine(t, at(t, 120, 2), s), "dark at the seam").Text, "not in front")
}

// A dark 200 mm before the lens, which goes up to 250 mm forward.
func TestLensThroughTheDark(t *testing.T) {
	s := bench()
	s.Dark = &scene.Dark{Centre: r3.Vec{Y: -distance + 200, Z: 25}, Width: scene.Is(36), Height: scene.Is(20)}
	v := find(t, examine(t, at(t, 120, 240).with("push", swing(0, 190, 2)), s), "dark at the seam")
	assert.Equal(t, picture.Good, v.Level)
	m := at(t, 120, 240).with("push", swing(0, 250, 2))
	v = find(t, examine(t, m, s), "dark at the seam")
	assert.Equal(t, picture.Fair, v.Level)
	assert.InDelta(t, 50, figure(t, v, "through it"), 1e-6)
	assert.Equal(t, int64(120), v.When.Frame)
	jumps := m.with("table", steady(0, 50))
	assert.Contains(t, find(t, examine(t, jumps, s), "seam in the picture").Text, "hidden by the dark", "an opening hides the seam all the same")
	v = find(t, examine(t, m.with("across", steady(30, 0)), s), "dark at the seam")
	_, told := v.Figure("through it")
	assert.False(t, told, "it passes beside it")
}

// A carriage that ends the loop 0.03 mm from where it began jumps 2 px; one
// that turns round at the seam kicks by twice its speed.
func TestSeamInThePicture(t *testing.T) {
	v := find(t, examine(t, at(t, 120, 120).with("across", steady(0, 0.03)), bench()), "seam in the picture")
	assert.InEpsilon(t, 0.03*scale, figure(t, v, "jump"), 1e-4)
	assert.InDelta(t, 0, figure(t, v, "kick"), 1e-6)
	assert.Equal(t, picture.Poor, v.Level)
	v = find(t, examine(t, at(t, 120, 240).with("across", swing(0, 5, 2)), bench()), "seam in the picture")
	assert.InDelta(t, 0, figure(t, v, "jump"), 1e-6)
	assert.Equal(t, picture.Good, v.Level)
}

// A carriage that runs to and fro at one speed turns round at the seam: the
// picture kicks by twice its speed.
func TestKickAtTheSeam(t *testing.T) {
	const speed = 3.0
	toAndFro := func(sec float64) track.State {
		sec = math.Mod(sec+20, 2)
		if sec < 1 {
			return track.State{Pos: speed * sec, Vel: speed}
		}
		return track.State{Pos: speed * (2 - sec), Vel: -speed}
	}
	v := find(t, examine(t, at(t, 120, 240).with("across", toAndFro), bench()), "seam in the picture")
	assert.InDelta(t, 0, figure(t, v, "jump"), 1e-6)
	assert.InEpsilon(t, 2*speed*scale/120, figure(t, v, "kick"), 1e-4)
	assert.Contains(t, v.Text, "seen as a kick")
}

// A sixth of a turn closes a hexagon, not a cylinder with something on it.
func TestSeamOfATurningProduct(t *testing.T) {
	m := at(t, 120, 120).with("table", steady(0, 60))
	assert.Equal(t, picture.Poor, find(t, examine(t, m, bench()), "seam in the picture").Level)
	s := bench()
	s.Product.Shape, s.Product.Sides = scene.Prism, 6
	v := find(t, examine(t, m, s), "seam in the picture")
	assert.InDelta(t, 0, figure(t, v, "jump"), 1e-6)
	s.Product.Offset.X = 5
	assert.Equal(t, picture.Poor, find(t, examine(t, m, s), "seam in the picture").Level, "off the table's axis it closes only on whole turns")
	s.Product = scene.Product{Shape: scene.Box, Width: scene.Is(50), Depth: scene.Is(50), Height: scene.Is(50)}
	quarter := at(t, 120, 120).with("table", steady(0, 90))
	assert.InDelta(t, 0, figure(t, find(t, examine(t, quarter, s), "seam in the picture"), "jump"), 1e-6, "a square in a quarter")
	s.Product.Depth = scene.Is(60)
	assert.Equal(t, picture.Poor, find(t, examine(t, quarter, s), "seam in the picture").Level)
}

// A seam that jumps is hidden by a dark before the product, and not by one
// behind it.
func TestADarkHidesTheSeam(t *testing.T) {
	s := bench()
	move := at(t, 120, 24).with("across", steady(0, 5))
	move.courses[0] = func(sec float64) track.State { return track.State{Pos: 5 * math.Mod(sec, 0.2), Vel: 5} }
	assert.Contains(t, find(t, examine(t, move, s), "seam in the picture").Text, "seen as a cut")
	s.Dark = &scene.Dark{Centre: r3.Vec{Y: -60, Z: 25}, Width: scene.Is(200), Height: scene.Is(200)}
	v := find(t, examine(t, move, s), "seam in the picture")
	assert.Equal(t, picture.Good, v.Level)
	assert.Contains(t, v.Text, "hidden by the dark")
	s.Dark.Centre.Y = 60
	assert.Equal(t, picture.Poor, find(t, examine(t, move, s), "seam in the picture").Level)
}

// Rounding is not told as a number, and what is more than rounding is.
func TestFloatNoiseIsNotTold(t *testing.T) {
	for jump, want := range map[float64]float64{3e-9: 0, 3e-7: 3e-7 * scale} {
		v := find(t, examine(t, at(t, 120, 120).with("across", steady(0, jump)), bench()), "seam in the picture")
		assert.InDelta(t, want, figure(t, v, "jump"), 1e-8)
		assert.NotContains(t, v.Text, "0.000000000")
	}
	for _, v := range examine(t, at(t, 120, 240).with("across", swing(0, 5, 2)).with("push", swing(0, 20, 2)).with("table", steady(0, 180)), withShutter(full(), open)).Verdicts {
		for _, f := range v.Figures {
			assert.True(t, f.Value == 0 || math.Abs(f.Value) >= 1e-9, "%s of %s: %v", f.Name, v.Check, f.Value)
		}
	}
}
