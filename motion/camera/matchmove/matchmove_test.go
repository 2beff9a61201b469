package matchmove_test

import (
	"math"
	"testing"

	"seamrail/motion/scene"

	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/camera/matchmove"
	"seamrail/motion/plan/sample"
	"seamrail/motion/spec/rig"
)

// scene is a lens of 50 mm that looks at the table's axis, one pixel a thousandth
// of a mm on the sensor.
func lanternScene() scene.Scene {
	var s scene.Scene
	s.Camera.SensorWidth, s.Camera.SensorHeight = scene.Is(36), scene.Is(20)
	s.Camera.PixelsWide, s.Camera.PixelsHigh = scene.Is(36000), scene.Is(20000)
	s.Lens.FocalLength, s.Lens.Focus = scene.Is(50), scene.Is(300)
	s.Stand.Distance, s.Stand.Height = scene.Is(400), scene.Is(60)
	s.Stand.Slides = []scene.Slide{{Axis: "rail"}}
	s.Stand.TableAxis = "table"
	return s
}

func TestKeysAreOnTheFrames(t *testing.T) {
	s, err := matchmove.New(sample.Through(t), lanternScene())
	require.NoError(t, err)
	keys, err := s.Keys(60)
	require.NoError(t, err)
	require.Len(t, keys, int(s.Frames())+1)
	for k, key := range keys {
		require.Equal(t, exact.Int(int64(k)), key.Frame)
	}
	require.InDelta(t, 360.0/7, keys[len(keys)-1].Table-keys[0].Table, 1e-9, "the last key is frame 0 of the next round")
	require.False(t, s.Breathes(keys))
}

// A table that turns by 435 degrees a frame, with keys no more than 60 apart:
// eight a frame, evenly.
func TestKeysBetween(t *testing.T) {
	move := sample.Table(t)
	move = sample.Turning(move, exact.Int(29))
	s, err := matchmove.New(sample.Make(t, 24, sample.Bench(rig.InverseTime), move), lanternScene())
	require.NoError(t, err)
	keys, err := s.Keys(60)
	require.NoError(t, err)
	require.Len(t, keys, 8*24+1)
	for k := 1; k < len(keys); k++ {
		require.Equal(t, exact.New(int64(k), 8), keys[k].Frame)
		require.InDelta(t, 435.0/8, keys[k].Table-keys[k-1].Table, 1e-9)
	}
	_, err = s.Keys(0.1)
	require.ErrorContains(t, err, "at frame 0 it turns by more than keys can follow")
}

// A lens that pans by 105 degrees a frame has one key between, 52.5 from either.
func TestKeysBetweenWhereTheLensPans(t *testing.T) {
	move, sc := sample.Table(t), lanternScene()
	move = sample.Turning(move, exact.Int(7))
	sc.Stand.TableAxis, sc.Stand.PanAxis = "", "table"
	s, err := matchmove.New(sample.Make(t, 24, sample.Bench(rig.InverseTime), move), sc)
	require.NoError(t, err)
	for most, each := range map[float64]int{53: 2, 52: 4} {
		keys, err := s.Keys(most)
		require.NoError(t, err)
		require.Len(t, keys, each*24+1, "at most %v degrees", most)
	}
}

// The angle of view in closed form: the image is f u/(u - f) behind the lens,
// 60 mm, and the picture's head 10 mm above its middle.
func TestView(t *testing.T) {
	s, err := matchmove.New(sample.Through(t), lanternScene())
	require.NoError(t, err)
	require.InDelta(t, 2*math.Atan(10.0/60)*180/math.Pi, s.View(s.At(exact.Int(3))), 1e-9)
}

// A lens of 20 mm whose focus is pulled from 40 to 42 mm has its image 40 and then
// 38.2 mm behind it: by so much the picture shrinks.
func TestBreathing(t *testing.T) {
	focus := sample.Rail(t, "3-4-5", 2)
	sc := lanternScene()
	sc.Stand.Slides, sc.Stand.FocusAxis, sc.Lens.Focus, sc.Lens.FocalLength = nil, "rail", scene.Number{}, scene.Is(20)
	s, err := matchmove.New(sample.Make(t, 24, sample.Bench(rig.InverseTime), focus, sample.Table(t)), sc)
	require.NoError(t, err)
	keys, err := s.Keys(60)
	require.NoError(t, err)
	require.True(t, s.Breathes(keys))
}

func TestWhatIsMissing(t *testing.T) {
	sc := lanternScene()
	sc.Camera.PixelsHigh, sc.Camera.SensorHeight = scene.Number{}, scene.Number{}
	_, err := matchmove.New(sample.Through(t), sc)
	require.EqualError(t, err, "where the lens is and how wide it looks is not known; it takes pixels high")
}
