package picture_test

import (
	"fmt"
	"strings"
	"testing"

	"seamrail/motion/scene"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/base/exact"
	"seamrail/motion/camera/picture"
	"seamrail/motion/plan/sample"
)

// lantern is the six-sided lantern before a lens that pushes in on it.
func lantern() scene.Scene {
	s := bench()
	s.Product = scene.Product{Shape: scene.Prism, Sides: 6, Radius: scene.Is(45), Height: scene.Is(120)}
	s.Stand.Slides = []scene.Slide{{Axis: "rail", Zero: 40}}
	s.Camera.Shutter = scene.Is(1.0 / 50)
	return s
}

// A planned trajectory is a Motion. A rail that rests at the seam makes none.
func TestTrajectoryIsAMotion(t *testing.T) {
	r := examine(t, sample.Still(t), lantern())
	assert.Len(t, r.Rows, 24)
	assert.Equal(t, picture.Good, find(t, r, "seam in the picture").Level)
	assert.Equal(t, picture.Good, find(t, r, "clearance").Level)
	assert.InDelta(t, 438-45, figure(t, find(t, r, "clearance"), "gap to swept circle"), 1e-6)
}

// A seventh of a turn does not close a lantern of six panes, and its ramps are
// looked at as well.
func TestRampsAreLookedAt(t *testing.T) {
	r := examine(t, sample.Through(t), lantern())
	assert.Equal(t, picture.Poor, find(t, r, "seam in the picture").Level)
	v := find(t, r, "clearance")
	assert.InDelta(t, 438-45, figure(t, v, "gap"), 1e-6, "some round turns a corner to the lens")
}

func BenchmarkExamine(b *testing.B) {
	m, s := sample.Through(b), lantern()
	for b.Loop() {
		_, _ = picture.Examine(m, s)
	}
}

// A hundred seconds at 24 a second: 2400 frames.
func BenchmarkExamineLong(b *testing.B) {
	m, s := sample.Long(b), lantern()
	for b.Loop() {
		_, _ = picture.Examine(m, s)
	}
}

// full is a scene with nothing left out.
func full() scene.Scene {
	s := lantern()
	s.Camera.ISO = scene.Is(800)
	s.Lens.Aperture = scene.Is(11)
	s.Camera.Shutter = scene.Is(1.0 / 48)
	window := scene.Lamp{Name: "window", Lumens: scene.Is(3000), Beam: scene.Is(90), Distance: scene.Is(1500),
		Bearing: -60, Rise: 20, Ripple: scene.Is(0), Kelvin: scene.Is(5600)}
	lamp := key()
	lamp.Kelvin, lamp.Ripple, lamp.Bearing = scene.Is(3200), scene.Is(0.4), 35
	s.Lamps, s.Mains = []scene.Lamp{lamp, window}, exact.Int(50)
	s.Holes = []scene.Hole{{Centre: r3.Vec{Y: -distance + 1, Z: 60}, Diameter: scene.Is(66), Thickness: 4}}
	s.Dark = &scene.Dark{Centre: r3.Vec{Y: 50, Z: 60}, Width: scene.Is(80), Height: scene.Is(60)}
	s.Backlash = map[string]float64{"rail": 0.04, "table": 0.05}
	return s
}

// words are the verdicts as a report might print them.
func words(r picture.Report) string {
	var b strings.Builder
	for _, v := range r.Verdicts {
		fmt.Fprintf(&b, "%-7s %s: %s\n", v.Level, v.Check, v.Text)
		for _, f := range v.Figures {
			fmt.Fprintf(&b, "        = %s %.4g %s\n", f.Name, f.Value, f.Unit)
		}
		for _, c := range v.Cures.Words() {
			fmt.Fprintf(&b, "        + %s\n", c)
		}
		for _, c := range v.Failed {
			fmt.Fprintf(&b, "        - %s\n", c)
		}
		for _, c := range v.Advice {
			fmt.Fprintf(&b, "        ~ %s\n", c)
		}
		for _, m := range v.Missing {
			fmt.Fprintf(&b, "        ? %s\n", m)
		}
	}
	for _, a := range r.Assumed {
		fmt.Fprintf(&b, "assumed: %s\n", a)
	}
	return b.String()
}

func TestWords(t *testing.T) {
	marked := scene.Scene{Camera: scene.Camera{Shutter: scene.Is(1.0 / 50), Pitch: scene.Is(pitch)},
		Lens:  scene.Lens{Magnification: scene.Is(1.0 / 3), Aperture: scene.Is(8)},
		Stand: scene.Stand{Slides: []scene.Slide{{Axis: "rail"}}, TableAxis: "table"}}
	for name, s := range map[string]scene.Scene{"full.txt": full(), "marked.txt": marked, "empty.txt": {}} {
		sample.Golden(t, name, words(examine(t, sample.Through(t), s)))
	}
}
