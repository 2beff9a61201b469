package pose_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"seamrail/motion/camera/pose"
)

func close(t assert.TestingT, want, got r3.Vec) {
	assert.InDelta(t, 0, r3.Norm(r3.Sub(want, got)), 1e-9, "want %v, got %v", want, got)
}

func vec(t *rapid.T, name string) r3.Vec {
	g := rapid.Float64Range(-500, 500)
	return r3.Vec{X: g.Draw(t, name+" x"), Y: g.Draw(t, name+" y"), Z: g.Draw(t, name+" z")}
}

func TestDirections(t *testing.T) {
	close(t, r3.Vec{Y: 1}, pose.Direction(0, 0))
	close(t, r3.Vec{X: -1}, pose.Direction(90, 0))
	close(t, r3.Vec{Y: -1}, pose.Direction(180, 0))
	close(t, r3.Vec{Z: 1}, pose.Direction(30, 90))
	close(t, r3.Vec{X: -1}, pose.Turned(r3.Vec{Y: 1}, 90))
}

func TestSeesWhereThingsAre(t *testing.T) {
	level := pose.NewPose(r3.Vec{Y: -100}, 0, 0)
	for _, c := range []struct {
		name        string
		p           r3.Vec
		x, y, depth float64
	}{
		{"ahead", r3.Vec{}, 0, 0, 100},
		{"to the right", r3.Vec{X: 10}, 0.1, 0, 100},
		{"above", r3.Vec{Z: 25}, 0, 0.25, 100},
		{"twice as far", r3.Vec{X: 10, Y: 100}, 0.05, 0, 200},
	} {
		x, y, depth := level.See(c.p)
		assert.InDeltaSlice(t, []float64{c.x, c.y, c.depth}, []float64{x, y, depth}, 1e-12, c.name)
	}
	_, _, behind := level.See(r3.Vec{Y: -150})
	assert.Negative(t, behind)
	x, _, _ := pose.NewPose(r3.Vec{Y: -100}, 10, 0).See(r3.Vec{})
	assert.InDelta(t, math.Tan(10*math.Pi/180), x, 1e-12, "panned left, the product moves right")
	_, y, _ := pose.NewPose(r3.Vec{Y: -100}, 0, 10).See(r3.Vec{})
	assert.InDelta(t, -math.Tan(10*math.Pi/180), y, 1e-12, "tilted up, the product moves down")
}

func TestPoseIsRightHanded(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := pose.NewPose(vec(t, "at"), rapid.Float64Range(-180, 180).Draw(t, "pan"), rapid.Float64Range(-80, 80).Draw(t, "tilt"))
		close(t, p.Up, r3.Cross(p.Right, p.Forward))
		for _, v := range []r3.Vec{p.Right, p.Up, p.Forward} {
			assert.InDelta(t, 1, r3.Norm(v), 1e-12)
		}
		q := vec(t, "point")
		if x, y, depth := p.See(q); depth > 1e-3 {
			close(t, q, p.Point(x, y, depth))
		}
	})
}

// mirrored swaps left and right.
func mirrored(p r3.Vec) r3.Vec { return r3.Vec{X: -p.X, Y: p.Y, Z: p.Z} }

// Mirror the scene and the picture is mirrored.
func TestMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at, q := vec(t, "at"), vec(t, "point")
		pan, tilt := rapid.Float64Range(-60, 60).Draw(t, "pan"), rapid.Float64Range(-60, 60).Draw(t, "tilt")
		x, y, depth := pose.NewPose(at, pan, tilt).See(q)
		mx, my, md := pose.NewPose(mirrored(at), -pan, tilt).See(mirrored(q))
		assert.InDelta(t, depth, md, 1e-9)
		if depth > 1 {
			assert.InDelta(t, -x, mx, 1e-9)
			assert.InDelta(t, y, my, 1e-9)
		}
	})
}
