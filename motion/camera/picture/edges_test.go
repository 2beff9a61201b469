package picture_test

import (
	"math"
	"testing"

	"seamrail/motion/scene"

	"github.com/stretchr/testify/assert"

	"seamrail/motion/base/exact"
	"seamrail/motion/camera/picture"
	"seamrail/motion/track"
)

// hair is how far on either side of its edge a verdict is looked at, as a share.
const hair = 1e-3

// edge looks a hair below and above a value and wants the two levels.
func edge(t *testing.T, check string, at float64, below, above picture.Level, look func(v float64) picture.Report) {
	t.Helper()
	v := find(t, look(at*(1-hair)), check)
	assert.Equal(t, below, v.Level, "below %v: %s", at, v.Text)
	v = find(t, look(at*(1+hair)), check)
	assert.Equal(t, above, v.Level, "above %v: %s", at, v.Text)
}

const (
	good = picture.Good
	fair = picture.Fair
	poor = picture.Poor
	bloc = picture.Block
)

// Falsely green would be a lens that touches, falsely red one that keeps its distance:
// from the front to the cylinder are 400 mm.
func TestClearanceEdges(t *testing.T) {
	look := func(push float64) picture.Report {
		return examine(t, at(t, 120, 2).with("push", steady(400-push, 0)), bench())
	}
	edge(t, "clearance", 15, fair, good, look)
	assert.Equal(t, bloc, find(t, look(-0.01), "clearance").Level)
	assert.Equal(t, fair, find(t, look(0.01), "clearance").Level)
	home := func(gap float64) picture.Report {
		m := at(t, 120, 2).with("push", steady(0, 0))
		m.axes[0].Home = 400 - gap
		return examine(t, m, bench())
	}
	edge(t, "way to the start", 15, fair, good, home)
	assert.Equal(t, bloc, find(t, home(-0.01), "way to the start").Level)
	assert.Equal(t, fair, find(t, home(0.01), "way to the start").Level)
	assert.Equal(t, good, find(t, home(0.01), "clearance").Level, "which is of the take alone")
}

func TestHoleEdges(t *testing.T) {
	look := func(margin float64) picture.Report {
		s := bench()
		s.Holes = hole(60 + 2*margin)
		return examine(t, at(t, 120, 48).with("push", swing(0, 200, 0.4)), s)
	}
	edge(t, "hole", 3, fair, good, look)
	assert.Equal(t, bloc, find(t, look(-0.01), "hole").Level)
	assert.Equal(t, fair, find(t, look(0.01), "hole").Level)
}

// A cylinder of 40 mm is out of a picture that is 60 mm wide 400 mm away where the line of
// sight along its edge passes 40 mm from its axis, 440 mm away.
func TestFieldEdges(t *testing.T) {
	edge(t, "in frame", 33+40*math.Hypot(1, 30.0/400), good, poor, func(aside float64) picture.Report {
		s := bench()
		s.Stand.Aside = scene.Is(aside)
		return examine(t, at(t, 120, 4), s)
	})
}

// Smear in closed form: speed times shutter times scale.
func TestSmearEdges(t *testing.T) {
	look := func(px float64) picture.Report {
		return examine(t, at(t, 120, 2).with("across", steady(0, px/scale/open)), bench())
	}
	edge(t, "smear", 8, good, poor, look)
	assert.Contains(t, find(t, look(0.999), "smear").Text, "sharp")
	assert.Contains(t, find(t, look(1.001), "smear").Text, "soft")
}

func TestSpeedEdges(t *testing.T) {
	look := func(widths float64) picture.Report { // five times slower than life
		return examine(t, at(t, 120, 2).with("across", steady(0, widths*wide*5/scale)), bench())
	}
	edge(t, "screen speed", 1.0/7, good, fair, look)
	edge(t, "screen speed", 1.0/3, fair, poor, look)
}

// A step shows where it is over half a pixel and an exposure holds less than one.
func TestStepsEdges(t *testing.T) {
	look := func(stepsPerMM int64, speed float64) picture.Report {
		m := at(t, 120, 20).with("across", steady(0, speed))
		m.axes[0].StepsPerUnit = exact.Int(stepsPerMM)
		return examine(t, m, bench())
	}
	assert.Equal(t, good, find(t, look(134, 1), "steps of across").Level, "66.7 px a mm: 0.4975 px a step")
	assert.Equal(t, poor, find(t, look(133, 1), "steps of across").Level, "0.5013 px a step")
	edge(t, "steps of across", 250.0/80, poor, good, func(speed float64) picture.Report { return look(80, speed) })
}

// A quarter of the moving frames parts what ticks from what shows as it starts.
func TestTickingEdges(t *testing.T) {
	look := func(slow int) picture.Verdict { // so many of 100 frames go a step in two exposures
		c := func(sec float64) track.State {
			if sec*120 < float64(slow) {
				return track.State{Pos: 1.5 * sec, Vel: 1.5}
			}
			return track.State{Pos: 30 * sec, Vel: 30}
		}
		return find(t, examine(t, at(t, 120, 100).with("across", c), bench()), "steps of across")
	}
	assert.Equal(t, fair, look(25).Level)
	assert.Equal(t, poor, look(26).Level)
}

// Jump and kick by themselves: a place that is off, and a speed that turns round.
func TestSeamEdges(t *testing.T) {
	edge(t, "seam in the picture", 0.5, good, poor, func(px float64) picture.Report {
		return examine(t, at(t, 120, 120).with("across", steady(0, px/scale)), bench())
	})
	edge(t, "seam in the picture", 0.5, good, poor, func(px float64) picture.Report {
		speed := px / scale * 120 / 2
		return examine(t, at(t, 120, 240).with("across", func(sec float64) track.State {
			if sec = math.Mod(sec+20, 2); sec < 1 {
				return track.State{Pos: speed * sec, Vel: speed}
			}
			return track.State{Pos: speed * (2 - sec), Vel: -speed}
		}), bench())
	})
}

func TestAngleEdges(t *testing.T) {
	look := func(angle float64) picture.Report {
		return examine(t, at(t, 120, 2), withShutter(bench(), angle/360/120))
	}
	edge(t, "shutter angle", 90, fair, good, look)
	edge(t, "shutter angle", 270, good, fair, look)
}

// A spot by similar triangles, two pixels across.
func TestFocusEdges(t *testing.T) {
	edge(t, "focus", 2, good, poor, func(px float64) picture.Report {
		// f/N m d/(400-d) = px pitch
		k := px * pitch / (focal / 8 / 3)
		return examine(t, at(t, 120, 2).with("push", steady(400*k/(1+k), 0)).with("pull", steady(400, 0)), bench())
	})
}

// Light by the equation of ISO 2720, from a third of a stop to a whole one off.
func TestLightEdges(t *testing.T) {
	need := 250 * math.Pow(8*4/3.0, 2) / (open * 1600)
	look := func(stops float64) picture.Level {
		s := bench()
		s.Metered = scene.Is(need * math.Exp2(stops))
		return find(t, examine(t, at(t, 120, 2), s), "light").Level
	}
	for stops, level := range map[float64]picture.Level{-0.334: poor, -0.333: good, 0.333: good, 0.334: fair, 0.999: fair, 1.001: poor} {
		assert.Equal(t, level, look(stops), "%v", stops)
	}
}

func TestColourEdges(t *testing.T) {
	look := func(mired float64) picture.Report {
		warm, cold, off := key(), key(), key()
		warm.Kelvin, cold.Kelvin = scene.Is(4000), scene.Is(1e6/(250-mired))
		off.Kelvin, off.Level = scene.Is(2000), scene.Is(0)
		s := bench()
		s.Lamps = []scene.Lamp{warm, cold, off}
		return examine(t, at(t, 120, 2), s)
	}
	edge(t, "colour of lamps", 10, good, fair, look)
	s := bench()
	s.Lamps = []scene.Lamp{key(), key(), key()}
	s.Lamps[0].Kelvin, s.Lamps[1].Kelvin = scene.Is(5600), scene.Is(5600)
	v := find(t, examine(t, at(t, 120, 2), s), "colour of lamps")
	assert.Equal(t, picture.Unknown, v.Level, "of the third nobody knows")
	assert.Contains(t, v.Text, "as far as known")
}

// The dark's edge meets the picture's: 15 mm high, 200 mm away.
func TestDarkEdges(t *testing.T) {
	edge(t, "dark at the seam", 15, poor, good, func(high float64) picture.Report {
		s := darkened(1, 0)
		s.Holes, s.Dark.Height = nil, scene.Is(high)
		return examine(t, at(t, 120, 2), s)
	})
}
