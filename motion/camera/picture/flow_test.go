package picture_test

import (
	"math"
	"testing"

	"seamrail/motion/scene"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/camera/picture"
	"seamrail/motion/track"
)

func flowAt(t *testing.T, m picture.Motion, s scene.Scene, sec float64) picture.Flow {
	t.Helper()
	f, err := picture.FlowsAt(m, s, []float64{sec})
	require.NoError(t, err)
	require.Empty(t, f.Missing)
	require.Len(t, f.At, 1)
	return f.At[0]
}

// A camera that goes to the right at v sees the face, at scale px a mm, go to the
// left at v. At 120 frames a second shown at 24 a fifth of that is seen.
func TestFlowAcross(t *testing.T) {
	f := flowAt(t, at(t, 120, 120).with("across", steady(0, 30)), bench(), 0)
	assert.InEpsilon(t, -30*scale/5/wide, f.Right, 1e-6)
	assert.InDelta(t, 0, f.Up, 1e-9)
	assert.InDelta(t, 0, f.Toward, 1e-9)
	assert.InDelta(t, 0, f.X, 1e-9)
	assert.InEpsilon(t, scale*pitch, f.Size, 1e-6)
	assert.InEpsilon(t, -f.Right, f.Speed(), 1e-9)
	assert.Equal(t, "near face", f.Followed)
	f = flowAt(t, at(t, 120, 120).with("across", steady(0, 30)), bench(), 1)
	// 30 mm on, the axis lies at a tangent of 30/440 to the left, and so does the
	// nearest point of a circle about it.
	assert.InEpsilon(t, -30/distance*scale*(distance-radius)/wide, f.X, 1e-6)
}

// Pushing in at v over a depth d makes everything there grow by v/d a second.
func TestFlowIn(t *testing.T) {
	f := flowAt(t, at(t, 120, 120).with("push", steady(0, 20)), bench(), 0.5)
	depth := distance - radius - 10
	assert.InEpsilon(t, 20/depth/2/5, f.Toward, 1e-6)
	assert.InDelta(t, 0, f.Right, 1e-9)
	assert.Greater(t, flowAt(t, at(t, 120, 120).with("push", steady(0, 20)), bench(), 1).Size, f.Size)
}

// A table at w degrees a second carries the face at w r to the right, seen from
// before it: it turns counter-clockwise from above.
func TestFlowOfATurn(t *testing.T) {
	f := flowAt(t, at(t, 120, 120).with("table", steady(0, 15)), bench(), 0)
	assert.InEpsilon(t, 15*math.Pi/180*radius*scale/5/wide, f.Right, 1e-4)
	assert.InDelta(t, 0, f.Toward, 1e-6)
}

// A speed that changes at an instant is told as it is from then on.
func TestFlowAfterAKink(t *testing.T) {
	toAndFro := func(sec float64) float64 { return math.Abs(math.Mod(sec+20, 2) - 1) }
	m := at(t, 120, 240).with("across", func(sec float64) (s track.State) {
		s.Pos, s.Vel = 3*toAndFro(sec), 3
		if math.Mod(sec+20, 2) < 1 {
			s.Vel = -3
		}
		return s
	})
	// 3 mm aside, the line of sight is longer by 2e-5.
	assert.InEpsilon(t, 3*scale/5/wide, flowAt(t, m, bench(), 0).Right, 1e-5)
	assert.InEpsilon(t, -3*scale/5/wide, flowAt(t, m, bench(), 1).Right, 1e-5)
}

func TestFlowOfWhatHasLeftThePicture(t *testing.T) {
	f := flowAt(t, at(t, 120, 120).with("across", steady(100, 30)), bench(), 0)
	assert.Equal(t, "middle of the picture", f.Followed)
	assert.InDelta(t, 0, f.X, 1e-9)
	assert.InEpsilon(t, -30*scale/5/wide, f.Right, 1e-6)
}

// Without a distance a magnification alone tells how fast things cross.
func TestFlowByMagnificationAlone(t *testing.T) {
	s := scene.Scene{
		Camera: scene.Camera{Pitch: scene.Is(pitch), PixelsWide: scene.Is(wide)},
		Lens:   scene.Lens{Magnification: scene.Is(0.5)},
		Stand:  scene.Stand{Slides: []scene.Slide{{Axis: "across", Heading: 90}}},
	}
	f := flowAt(t, at(t, 24, 24).with("across", steady(0, 4)), s, 0)
	assert.InEpsilon(t, 4*0.5/(pitch*wide), f.Right, 1e-6)
}

func TestFlowNamesWhatIsMissing(t *testing.T) {
	s := bench()
	s.Camera.PixelsWide = scene.Number{}
	s.Camera.SensorWidth = scene.Number{}
	f, err := picture.FlowsAt(at(t, 24, 24).with("across", steady(0, 4)), s, []float64{0})
	require.NoError(t, err)
	assert.Nil(t, f.At)
	assert.Contains(t, f.Missing, "pixels wide")
	s = bench()
	s.Camera.Shutter = scene.Is(9)
	_, err = picture.FlowsAt(at(t, 24, 24), s, nil)
	assert.ErrorContains(t, err, "camera.shutter")
}
