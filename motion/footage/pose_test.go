package footage_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"seamrail/motion/footage"
)

func drawPose(t *rapid.T, name string) footage.Pose {
	f := func(what string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name+what) }
	p := footage.Same()
	p.X, p.Y, p.Turn, p.Scale = f("x", -500, 500), f("y", -500, 500), f("turn", -179, 179), f("scale", 0.3, 3)
	p.Doubt = footage.Doubt{X: f("dx", 0, 1), Y: f("dy", 0, 1), Turn: f("dturn", 0, 1), Scale: f("dscale", 0, 0.01)}
	return p
}

// A point that goes through two poses one after another goes where their composition puts it.
func TestPosesFollowEachOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, q := drawPose(t, "p"), drawPose(t, "q")
		u, v := rapid.Float64Range(-500, 500).Draw(t, "u"), rapid.Float64Range(-500, 500).Draw(t, "v")
		x, y := p.At(q.At(u, v))
		both := p.After(q)
		gotX, gotY := both.At(u, v)
		assert.InDelta(t, x, gotX, 1e-8)
		assert.InDelta(t, y, gotY, 1e-8)
		assert.GreaterOrEqual(t, both.Doubt.X+1e-12, p.Doubt.X)
		assert.GreaterOrEqual(t, both.Doubt.Turn+1e-12, q.Doubt.Turn)

		backX, backY := p.Inverse().At(p.At(u, v))
		assert.InDelta(t, u, backX, 1e-8)
		assert.InDelta(t, v, backY, 1e-8)
	})
}

// What is not known is not known through another either.
func TestWhatIsNotKnownStaysSo(t *testing.T) {
	none := footage.Pose{Scale: 1}
	assert.False(t, none.After(footage.Same()).Known)
	assert.False(t, footage.Same().After(none).Known)
	assert.False(t, none.Inverse().Known)
	assert.True(t, footage.Same().After(footage.Same()).Known)
}

// Pixels of a frame that was halved are two each.
func TestAPoseIsMagnified(t *testing.T) {
	p := footage.Pose{X: 3, Y: -4, Turn: 5, Scale: 1.1, Doubt: footage.Doubt{X: 0.1, Y: 0.2, Turn: 0.3, Scale: 0.4}, Shared: 0.5, Known: true}
	assert.Equal(t, footage.Pose{X: 6, Y: -8, Turn: 5, Scale: 1.1, Doubt: footage.Doubt{X: 0.2, Y: 0.4, Turn: 0.3, Scale: 0.4}, Shared: 0.5, Known: true}, p.Magnified(2))
}
