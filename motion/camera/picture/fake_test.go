package picture_test

import (
	"math"
	"testing"

	"seamrail/motion/scene"

	"github.com/stretchr/testify/require"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/camera/picture"
	"seamrail/motion/spec/rig"
	"seamrail/motion/track"
)

// course is where an axis is at a time.
type course func(sec float64) track.State

// fake is a motion made of formulas.
type fake struct {
	clock   clock.Clock
	frames  int64
	axes    []rig.Axis
	courses []course
	up, out int64 // frames of ramps, in which the courses just go on
}

func (f fake) Clock() clock.Clock                                { return f.clock }
func (f fake) Captured() int64                                   { return f.frames }
func (f fake) FrameSeconds(k int64) exact.Rat                    { return f.clock.FrameTime(k) }
func (f fake) Period() exact.Rat                                 { return f.clock.FrameTime(f.frames) }
func (f fake) AxisCount() int                                    { return len(f.axes) }
func (f fake) Axis(i int) rig.Axis                               { return f.axes[i] }
func (f fake) State(i int, sec float64) track.State              { return f.courses[i](sec) }
func (f fake) Before(i int, sec float64) track.State             { return f.courses[i](sec - 1e-12) }
func (f fake) RampFrames() (int64, int64)                        { return f.up, f.out }
func (f fake) TakeState(i int, _ int64, sec float64) track.State { return f.courses[i](sec) }

// at captures so many frames a second, shown at 24, each once.
func at(t testing.TB, capture, frames int64) fake {
	t.Helper()
	c, err := clock.New(exact.Int(capture), exact.Int(24), exact.Rat{})
	require.NoError(t, err)
	return fake{clock: c, frames: frames}
}

func (f fake) with(name string, c course) fake {
	kind := rig.Linear
	if name == "table" || name == "pan" || name == "tilt" {
		kind = rig.Rotary
	}
	f.axes = append(append([]rig.Axis{}, f.axes...), rig.Axis{Name: name, Kind: kind, StepsPerUnit: exact.Int(80)})
	f.courses = append(append([]course{}, f.courses...), c)
	return f
}

// steady goes from a place at one speed for ever.
func steady(from, speed float64) course {
	return func(sec float64) track.State { return track.State{Pos: from + speed*sec, Vel: speed} }
}

// swing goes there and back as a cosine.
func swing(from, to, period float64) course {
	w, half := 2*math.Pi/period, (to-from)/2
	return func(sec float64) track.State {
		s, c := math.Sincos(w * sec)
		return track.State{Pos: from + half*(1-c), Vel: half * w * s, Acc: half * w * w * c}
	}
}

const (
	focal    = 100.0
	distance = 440.0 // to the table's axis
	radius   = 40.0
	pitch    = 0.005
	wide     = 4000.0
	high     = 2000.0
	open     = 1.0 / 250
)

// bench is a cylinder of 40 mm before a lens of 100 mm, in focus at 400 mm on
// its near face, where a millimetre is 66.7 px.
func bench() scene.Scene {
	return scene.Scene{
		Camera: scene.Camera{Pitch: scene.Is(pitch), PixelsWide: scene.Is(wide), PixelsHigh: scene.Is(high),
			Shutter: scene.Is(open), ISO: scene.Is(1600)},
		Lens: scene.Lens{FocalLength: scene.Is(focal), Magnification: scene.Is(1.0 / 3), Aperture: scene.Is(8),
			FrontDiameter: scene.Is(60), BarrelDiameter: scene.Is(56), BarrelLength: scene.Is(120)},
		Stand: scene.Stand{Distance: scene.Is(distance), TableAxis: "table", PanAxis: "pan", TiltAxis: "tilt", FocusAxis: "pull",
			Slides: []scene.Slide{{Axis: "across", Heading: -90}, {Axis: "push"}}},
		Product: scene.Product{Shape: scene.Cylinder, Radius: scene.Is(radius), Height: scene.Is(50)},
	}
}

func examine(t testing.TB, m picture.Motion, s scene.Scene) picture.Report {
	t.Helper()
	r, err := picture.Examine(m, s)
	require.NoError(t, err)
	return r
}

func find(t testing.TB, r picture.Report, check string) picture.Verdict {
	t.Helper()
	v, ok := r.Find(check)
	require.True(t, ok, check)
	return v
}

func figure(t testing.TB, v picture.Verdict, name string) float64 {
	t.Helper()
	f, ok := v.Figure(name)
	require.True(t, ok, "%s of %s: %+v", name, v.Check, v)
	return f
}
