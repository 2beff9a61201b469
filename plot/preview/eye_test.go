package preview

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"seamrail/motion/camera/optics"
	"seamrail/motion/camera/picture"
	"seamrail/motion/camera/pose"
	"seamrail/plot/preview/internal/canvas"
)

// perspective is the matrix of gluPerspective, and view that of gluLookAt
// (OpenGL utility library, manual pages).
func perspective(fovy, aspect, near, far float64) *mat.Dense {
	f := 1 / math.Tan(fovy/2)
	return mat.NewDense(4, 4, []float64{
		f / aspect, 0, 0, 0,
		0, f, 0, 0,
		0, 0, (far + near) / (near - far), 2 * far * near / (near - far),
		0, 0, -1, 0,
	})
}

func view(from, to, up r3.Vec) *mat.Dense {
	f := r3.Unit(r3.Sub(to, from))
	s := r3.Unit(r3.Cross(f, up))
	u := r3.Cross(s, f)
	return mat.NewDense(4, 4, []float64{
		s.X, s.Y, s.Z, -r3.Dot(s, from),
		u.X, u.Y, u.Z, -r3.Dot(u, from),
		-f.X, -f.Y, -f.Z, r3.Dot(f, from),
		0, 0, 0, 1,
	})
}

// window takes a place through both matrices to a window w by h, its y down.
func window(p, v *mat.Dense, at r3.Vec, w, h float64) (x, y, depth float64) {
	var out mat.VecDense
	out.MulVec(v, mat.NewVecDense(4, []float64{at.X, at.Y, at.Z, 1}))
	out.MulVec(p, &out)
	depth = out.AtVec(3)
	return (out.AtVec(0)/depth + 1) * w / 2, (1 - out.AtVec(1)/depth) * h / 2, depth
}

func anEye(t *rapid.T) eye {
	g := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
	at := r3.Vec{X: g("x", -300, 300), Y: g("y", -800, -100), Z: g("z", -50, 300)}
	e := eye{Sight: picture.Sight{Pose: pose.NewPose(at, g("pan", -40, 40), g("tilt", -60, 60)), Focus: g("focus", 150, 900)}}
	e.scale = g("scale", 100, 2000)
	e.middle = r3.Vec{X: 160, Y: 90}
	return e
}

// The projection is that of a general graphics library.
func TestProjectionIsTheLibrarys(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := anEye(t)
		w, h := 2*e.middle.X, 2*e.middle.Y
		p := perspective(2*math.Atan(e.middle.Y/e.scale), w/h, 1, 5000)
		v := view(e.Pose.At, r3.Add(e.Pose.At, e.Pose.Forward), r3.Vec{Z: 1})
		at := e.Pose.Point(rapid.Float64Range(-1, 1).Draw(t, "right"), rapid.Float64Range(-1, 1).Draw(t, "up"), rapid.Float64Range(5, 2000).Draw(t, "deep"))
		x, y, depth := window(p, v, at, w, h)
		q := e.local(at)
		require.InDelta(t, depth, q.Z, 1e-6)
		got := e.spot(q)
		// Spots are 32 bit: 2000 px to 1e-4.
		require.InDelta(t, x, float64(got.X), 1e-3)
		require.InDelta(t, y, float64(got.Y), 1e-3)
	})
}

// Rays through opposite edges of the opening miss each other on the sensor by
// the spot of the depth of field formulas, and all rays from the plane in focus
// meet.
func TestRaysMakeTheSpotOfTheFormula(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := anEye(t)
		f, n := rapid.Float64Range(20, 120).Draw(t, "focal"), rapid.Float64Range(1.4, 32).Draw(t, "aperture")
		pitch := 0.01
		e.scale = optics.ImageDistance(f, e.Focus) / pitch
		depth := rapid.Float64Range(100, 2000).Draw(t, "depth")
		at := r3.Vec{X: 3, Y: -7, Z: depth}
		left, right := e, e
		left.dx, right.dx = -f/n/2, f/n/2
		spot := math.Abs(float64(right.spot(at).X - left.spot(at).X))
		require.InDelta(t, optics.Blur(f, n, 1, e.Focus, depth)/pitch, spot, 1e-2)
		require.InDelta(t, spot, e.blur(depth, f/n), 1e-2)
		sharp := r3.Vec{X: 3, Y: -7, Z: e.Focus}
		assert.InDelta(t, float64(left.spot(sharp).X), float64(right.spot(sharp).X), 1e-3)
	})
}

// The horizon is where what is level and far away comes.
func TestHorizon(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := anEye(t)
		pan := rapid.Float64Range(-180, 180).Draw(t, "heading")
		far := r3.Add(e.Pose.At, r3.Scale(1e7, pose.Direction(pan, 0)))
		q := e.local(far)
		if q.Z < 1e6 {
			t.Skip("not ahead")
		}
		e.dy = 0
		require.InDelta(t, e.horizon(), float64(e.spot(q).Y), 0.02)
	})
}

func TestHorizonStraightUpAndDown(t *testing.T) {
	up := eye{Sight: picture.Sight{Pose: pose.NewPose(r3.Vec{}, 0, 90), Focus: 100}, scale: 100}
	assert.Greater(t, up.horizon(), 1e6, "all wall")
	up.Pose = pose.NewPose(r3.Vec{}, 0, -90)
	assert.Less(t, up.horizon(), -1e6, "all bench")
}

// A polygon that passes the lens is cut before it: nothing comes from behind.
func TestNothingFromBehind(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := anEye(t)
		var polygon []r3.Vec
		for range rapid.IntRange(1, 6).Draw(t, "corners") {
			polygon = append(polygon, e.Pose.Point(rapid.Float64Range(-2, 2).Draw(t, "x"), rapid.Float64Range(-2, 2).Draw(t, "y"), rapid.Float64Range(-50, 50).Draw(t, "z")))
		}
		for _, s := range e.see(nil, polygon) {
			assert.False(t, math.IsNaN(float64(s.X)) || math.IsInf(float64(s.X), 0))
		}
		ahead := 0
		for _, p := range polygon {
			if e.local(p).Z >= nearest {
				ahead++
			}
		}
		seen := e.see(nil, polygon)
		switch ahead {
		case 0:
			assert.Empty(t, seen)
		case len(polygon):
			assert.Len(t, seen, len(polygon))
		default:
			assert.GreaterOrEqual(t, len(seen), ahead+2)
		}
	})
}

// A wall that runs past the lens on the left is seen from the picture's left
// edge to where it ends.
func TestCutWall(t *testing.T) {
	e := eye{Sight: picture.Sight{Pose: pose.NewPose(r3.Vec{}, 0, 0), Focus: 100}, scale: 100}
	e.middle = r3.Vec{X: 160, Y: 90}
	spots := e.see(nil, []r3.Vec{{X: -10, Y: -50, Z: -5}, {X: -10, Y: 100, Z: -5}, {X: -10, Y: 100, Z: 5}, {X: -10, Y: -50, Z: 5}})
	c := canvas.New(320, 180)
	c.Fill(canvas.Light{R: 65535}, 1, spots)
	assert.NotZero(t, c.At(0, 90).R)
	assert.NotZero(t, c.At(148, 90).R)
	assert.Zero(t, c.At(151, 90).R, "it ends a tenth left of the middle")
	assert.Zero(t, c.At(300, 90).R)
}
