package preview_test

import (
	"image"
	"math"
	"testing"

	"seamrail/motion/scene"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/camera/picture"
	"seamrail/motion/spec/rig"
	"seamrail/motion/track"
	"seamrail/plot/preview"
)

// fake is a motion of axes that each go at one speed for ever.
type fake struct {
	clock  clock.Clock
	frames int64
	axes   []rig.Axis
	speeds []float64
}

func (f fake) Clock() clock.Clock             { return f.clock }
func (f fake) Captured() int64                { return f.frames }
func (f fake) FrameSeconds(k int64) exact.Rat { return f.clock.FrameTime(k) }
func (f fake) Period() exact.Rat              { return f.clock.FrameTime(f.frames) }
func (f fake) AxisCount() int                 { return len(f.axes) }
func (f fake) Axis(i int) rig.Axis            { return f.axes[i] }
func (f fake) State(i int, s float64) track.State {
	return track.State{Pos: f.speeds[i] * s, Vel: f.speeds[i]}
}
func (f fake) Before(i int, s float64) track.State             { return f.State(i, s) }
func (f fake) RampFrames() (int64, int64)                      { return 0, 0 }
func (f fake) TakeState(i int, _ int64, s float64) track.State { return f.State(i, s) }

// shown is a motion captured and shown at the given rates, each frame once
// unless a retime is given.
func shown(t testing.TB, capture, playback, retime string, frames int64) fake {
	t.Helper()
	var r exact.Rat
	if retime != "" {
		r = rat(t, retime)
	}
	c, err := clock.New(rat(t, capture), rat(t, playback), r)
	require.NoError(t, err)
	return fake{clock: c, frames: frames}
}

func rat(t testing.TB, text string) exact.Rat {
	t.Helper()
	r, err := exact.Parse(text)
	require.NoError(t, err)
	return r
}

func (f fake) with(name string, kind rig.Kind, speed float64) fake {
	f.axes = append(append([]rig.Axis{}, f.axes...), rig.Axis{Name: name, Kind: kind, StepsPerUnit: exact.Int(80)})
	f.speeds = append(append([]float64{}, f.speeds...), speed)
	return f
}

// turning is a loop of 24 frames at 24 a second in which the table makes so many
// turns.
func turning(t testing.TB, turns float64) fake {
	return shown(t, "24", "24", "", 24).with("table", rig.Rotary, 360*turns)
}

// lantern stands level before a lens of 50 mm, 400 mm off, all sharp.
func lantern() scene.Scene {
	return scene.Scene{
		Camera: scene.Camera{SensorWidth: scene.Is(36), PixelsWide: scene.Is(1600), PixelsHigh: scene.Is(900), ShutterAngle: scene.Is(180)},
		Lens:   scene.Lens{FocalLength: scene.Is(50)},
		Stand: scene.Stand{Distance: scene.Is(400), TableAxis: "table",
			Slides: []scene.Slide{{Axis: "rail", Heading: 90}}},
		Product: scene.Product{Shape: scene.Prism, Sides: 6, Radius: scene.Is(45), Height: scene.Is(120)},
		Lamps: []scene.Lamp{{Lumens: scene.Is(4000), Beam: scene.Is(60), Distance: scene.Is(500), Bearing: 30, Rise: 30},
			{Lumens: scene.Is(2000), Beam: scene.Is(60), Distance: scene.Is(500), Bearing: -60, Rise: 20}},
	}
}

// edged is nothing but a dark sheet that fills the left half of the picture, so
// many mm behind the table's axis, before the wall: a straight edge to look at.
// The lens is focused 400 mm off.
func edged(behind float64) scene.Scene {
	s := lantern()
	s.Lens.Focus = scene.Is(400)
	s.Product.Base, s.Product.Height, s.Stand.Height = -2000, scene.Is(1), scene.Is(0)
	s.Dark = &scene.Dark{Centre: r3.Vec{X: -5000, Y: behind}, Width: scene.Is(10_000), Height: scene.Is(10_000)}
	s.Stand.Tilt = scene.Is(8)
	return s
}

func finder(t testing.TB, m picture.Motion, s scene.Scene, width int) *preview.Finder {
	t.Helper()
	f, err := preview.New(m, s, width)
	require.NoError(t, err)
	return f
}

// apart is the mean by which two pictures differ, in codes of 255.
func apart(t testing.TB, a, b *image.RGBA) float64 {
	t.Helper()
	require.Equal(t, a.Rect, b.Rect)
	sum := 0.0
	for i := range a.Pix {
		sum += math.Abs(float64(a.Pix[i]) - float64(b.Pix[i]))
	}
	return sum / float64(len(a.Pix))
}

// light undoes the code of sRGB (IEC 61966-2-1).
func light(code uint8) float64 {
	s := float64(code) / 255
	if s <= 0.04045 {
		return s / 12.92
	}
	return math.Pow((s+0.055)/1.055, 2.4)
}

// profile is how much of the light beside the dark each pixel of a row has, 0 in
// the dark and 1 beside it.
func profile(img *image.RGBA, y int) []float64 {
	last := img.Rect.Dx() - 1
	dark, bright := light(img.RGBAAt(0, y).G), light(img.RGBAAt(last, y).G)
	out := make([]float64, last+1)
	for x := range out {
		out[x] = (light(img.RGBAAt(x, y).G) - dark) / (bright - dark)
	}
	return out
}
