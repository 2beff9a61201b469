package rushes_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/rushes"
	"seamrail/motion/footage"
	"seamrail/motion/footage/against"
)

// The picture of a lens that goes in grows by the distance from lens to pane over what is left of it,
// and no other way: 454 mm before the axis, a pane of a lantern of 45 mm half a width of it nearer.
func TestAPlanIsToldAsThePictureMoves(t *testing.T) {
	s := in(t, []string{"table"}, "take.rounds", "1")
	rail, far := s.plan.Axes[0], 454-pane
	require.NotNil(t, rail.Seen)
	for sec := 0.0; sec < 1.2; sec += 0.01 {
		x := rail.At(sec) - 40
		assert.InDelta(t, 40-far*math.Log1p(-x/far), rail.Seen(sec), 1e-3, "%g mm", x)
	}
	// A slide along the lantern moves it as far as it goes, and what turns the product alone goes by
	// its own degrees.
	rail = along(t).plan.Axes[0]
	require.NotNil(t, rail.Seen)
	for sec := 0.0; sec < 1.5; sec += 0.1 {
		assert.InDelta(t, rail.At(sec), rail.Seen(sec), 1e-4)
	}
	for _, a := range in(t, nil).plan.Axes {
		assert.Equal(t, a.Turning, a.Seen == nil, a.Name)
	}
}

// A pan moves what is far as the tangent of its angle, as far as the middle of a picture does.
func TestAPanGoesAsATangent(t *testing.T) {
	j, err := job.Source{Shot: "testdata/pan.toml"}.Job(nil)
	require.NoError(t, err)
	pan := rushes.PlanOf(j, wide).Axes[0]
	require.NotNil(t, pan.Seen)
	from := pan.At(-10)
	most := 0.0
	for sec := 0.0; sec < 2; sec += 0.02 {
		by := (pan.At(sec) - from) * math.Pi / 180
		assert.InDelta(t, math.Tan(by), (pan.Seen(sec)-from)*math.Pi/180, 0.03*math.Abs(math.Tan(by)-by)+1e-5)
		most = max(most, math.Abs(math.Tan(by)-by))
	}
	assert.Greater(t, most, 1e-3)
}

// A take of a lens that goes in is laid to where it is, and to a twentieth of a frame off where the
// measure is left out: its growth is made here from the distance to the pane alone.
func TestALensThatGoesInIsLaid(t *testing.T) {
	s := in(t, []string{"table"}, "take.rounds", "1")
	for seen, within := range map[bool]float64{true: 0.01, false: 0.2} {
		p := s.plan
		p.Axes = append([]against.Axis(nil), p.Axes...)
		if !seen {
			p.Axes[0].Seen = nil
		}
		c := footage.Course{About: footage.About{Width: wide, Height: high}}
		for n := range 180 {
			x := p.Axes[0].At((float64(n)-zero)/p.CaptureRate.Float()) - 40
			pose, grain := footage.Same(), 0.02*math.Sin(float64(n*n))
			pose.X, pose.Y, pose.Scale = grain, -grain, 1/(1-x/(454-pane))
			pose.Doubt = footage.Doubt{X: 0.02, Y: 0.02, Turn: 0.01, Scale: 1e-4}
			c.Frames = append(c.Frames, footage.Frame{FromFirst: pose})
		}
		r, err := against.Lay(c, p)
		require.NoError(t, err)
		assert.Equal(t, against.IsPlan, r.Verdict.Kind, r.Verdict.Text)
		assert.InDelta(t, zero, r.Frame0.Value, within)
		assert.InDelta(t, 0, r.Rounds[0].Late.Value, within)
	}
}
