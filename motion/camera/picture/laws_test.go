package picture_test

import (
	"math"
	"testing"

	"seamrail/motion/scene"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"seamrail/motion/camera/picture"
	"seamrail/motion/camera/pose"
)

// Parts add as vectors, so together they are never more than their sum. In an
// exposure of 1/250 s what one part changes of another is below a fiftieth.
func TestTogetherIsAtMostTheSum(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s, m, _, _ := drawn(rt, t)
		r, err := picture.Look(m, s)
		if err != nil {
			return
		}
		for _, row := range r.Rows {
			x := row.Smear
			sum := x.Sideways + x.PushEdge + x.Table + x.Pan + x.Tilt + x.Focus
			assert.LessOrEqual(rt, x.Together, 1.02*sum+1e-6, "frame %d: %+v", row.Frame, x)
		}
	})
}

// Pixels half as large and twice as many show the same picture: what is told
// In px doubles, all else stays.
func TestFinerPixels(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s, m, _, _ := drawn(rt, t)
		s.Camera.Confusion = scene.Is(0.01)
		f := s
		f.Camera.Pitch.Value /= 2
		f.Camera.PixelsWide.Value *= 2
		f.Camera.PixelsHigh.Value *= 2
		a, errA := picture.Look(m, s)
		b, errB := picture.Look(m, f)
		require.Equal(rt, errA == nil, errB == nil)
		for i, v := range a.Verdicts {
			for k, g := range v.Figures {
				want := g.Value
				if g.Unit == "px" || g.Unit == "px/frame" || g.Unit == "px/mm" {
					want *= 2
				}
				if g.Name == "frames that tick" {
					continue // a bound in px lies elsewhere
				}
				assert.InDelta(rt, want, b.Verdicts[i].Figures[k].Value, 4e-6*math.Max(1, math.Abs(want)), "%s of %s", g.Name, v.Check)
			}
		}
	})
}

// Twice the shutter is twice the smear of a steady move, and a loop shown
// twice as slowly moves half as fast on screen.
func TestProportions(t *testing.T) {
	m := at(t, 120, 2).with("across", steady(0, 5))
	one := find(t, examine(t, m, bench()), "smear")
	two := find(t, examine(t, m, withShutter(bench(), 2*open)), "smear")
	assert.InEpsilon(t, 2*figure(t, one, "together"), figure(t, two, "together"), 1e-4)
	slow := figure(t, find(t, examine(t, at(t, 240, 2).with("across", steady(0, 5)), bench()), "screen speed"), "speed")
	assert.InEpsilon(t, figure(t, find(t, examine(t, m, bench()), "screen speed"), "speed"), 2*slow, 1e-4)
}

// The gap that is told is never more than the gap there is, whichever way the
// LensAt looks: against many points on the barrel and on the product.
func TestGapIsNeverMoreThanThereIs(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		num := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(rt, name) }
		s := bench()
		s.Stand.Distance, s.Stand.Aside = scene.Is(num("distance", 60, 500)), scene.Is(num("aside", -60, 60))
		s.Stand.Height, s.Stand.Pan, s.Stand.Tilt = scene.Is(num("height", -100, 200)), scene.Is(num("pan", -40, 40)), scene.Is(num("tilt", -60, 60))
		s.Lens.FocalLength = scene.Number{}
		r, err := picture.Look(at(t, 120, 1), s)
		if err != nil {
			return
		}
		v, _ := r.Find("clearance")
		told, ok := v.Figure("gap")
		require.True(rt, ok)
		pose := pose.NewPose(r3.Vec{X: s.Stand.Aside.Value, Y: -s.Stand.Distance.Value, Z: s.Stand.Height.Value}, s.Stand.Pan.Value, s.Stand.Tilt.Value)
		assert.LessOrEqual(rt, told, nearest(pose, s)+1e-9)
	})
}

// nearest is the least distance of points on the lens from the cylinder.
func nearest(p pose.Pose, s scene.Scene) float64 {
	least := math.Inf(1)
	for _, tube := range []struct{ radius, length float64 }{{s.Lens.FrontDiameter.Value / 2, 0}, {s.Lens.BarrelDiameter.Value / 2, s.Lens.BarrelLength.Value}} {
		for k := range 24 {
			sin, cos := math.Sincos(float64(k) * math.Pi / 12)
			for back := 0.0; back <= tube.length; back += 12 {
				q := p.Point(0, 0, -back)
				q = r3.Add(q, r3.Add(r3.Scale(tube.radius*cos, p.Right), r3.Scale(tube.radius*sin, p.Up)))
				flat := math.Max(0, math.Hypot(q.X, q.Y)-radius)
				tall := math.Max(0, math.Max(-q.Z, q.Z-s.Product.Height.Value))
				least = math.Min(least, math.Hypot(flat, tall))
			}
		}
	}
	return least
}
