package picture_test

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"seamrail/motion/scene"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"seamrail/motion/camera/optics"
	"seamrail/motion/camera/picture"
)

func above(t *testing.T, m picture.Motion, s scene.Scene) picture.TopView {
	t.Helper()
	a, err := picture.NewTopView(m, s)
	require.NoError(t, err)
	return a
}

func items(a picture.TopView, kind picture.ItemKind) []picture.Item {
	var out []picture.Item
	for _, i := range a.Items {
		if i.Kind == kind {
			out = append(out, i)
		}
	}
	return out
}

func TestFromAbove(t *testing.T) {
	s := bench()
	s.Lamps = []scene.Lamp{key()}
	s.Lamps[0].Bearing = 90
	s.Holes = hole(70)
	s.Dark = &scene.Dark{Centre: r3.Vec{Y: 60}, Width: scene.Is(90), Height: scene.Is(90)}
	a := above(t, at(t, 120, 240).with("push", swing(0, 100, 2)), s)
	assert.Empty(t, a.Missing)
	assert.InDelta(t, 0, a.Ends[0], 1e-9)
	assert.InDelta(t, 1, a.Ends[1], 1e-9)

	rail := items(a, picture.RailItem)[0]
	assert.InDelta(t, -distance, rail.Points[0].Y, 1e-9)
	assert.InDelta(t, -distance+100, rail.Points[1].Y, 1e-9)
	assert.Equal(t, "push", rail.Label)

	fields := items(a, picture.FieldItem)
	require.Len(t, fields, 2)
	corner := fields[0].Points[1]
	assert.InDelta(t, 60.0/2/400, corner.X/(corner.Y+distance), 1e-9, "60 mm wide at 400 mm")
	assert.Equal(t, "60 mm wide in focus", fields[0].Label)

	near, far := optics.Depth(focal, 8, 1, 2*pitch, 400)
	sharp := items(a, picture.SharpItem)[0]
	assert.InDelta(t, near, sharp.Points[0].Y+distance, 1e-9)
	assert.InDelta(t, far, sharp.Points[2].Y+distance, 1e-9)

	lamp := items(a, picture.LampItem)[0].Points[0]
	assert.InDelta(t, 600, lamp.X, 1e-9, "a bearing of 90 is on the camera's right")
	assert.InDelta(t, 0, lamp.Y, 1e-9)
	beam := items(a, picture.BeamItem)[0].Points
	assert.InDelta(t, 600*math.Tan(math.Pi/6), math.Abs(beam[1].Y), 1e-9, "60 degrees at 600 mm")
	assert.InDelta(t, radius, items(a, picture.SweptItem)[0].Radius, 1e-9)
	assert.Len(t, items(a, picture.BoardItem), 2)
	assert.Len(t, items(a, picture.DarkItem), 1)
	var lengths []string
	for _, d := range items(a, picture.DistanceItem) {
		lengths = append(lengths, d.Label)
	}
	assert.Equal(t, []string{"100 mm", "440 mm", "340 mm", "600 mm", "70 mm"}, lengths)
}

func TestFromAboveSaysWhatIsMissing(t *testing.T) {
	a := above(t, at(t, 24, 2), scene.Scene{})
	assert.Empty(t, a.Items)
	assert.Equal(t, []string{"distance, or focal length and magnification"}, a.Missing)
	s := scene.Scene{Stand: scene.Stand{Distance: scene.Is(300)}, Lamps: []scene.Lamp{{Name: "key"}}}
	assert.Equal(t, []string{"field of view: magnification and picture size", "product: its shape and size", "key: its distance"},
		above(t, at(t, 24, 2), s).Missing)
	s = bench()
	s.Lens.Focus = scene.Is(1)
	_, err := picture.NewTopView(at(t, 120, 2), s)
	assert.Error(t, err)
}

// corners are the points of an item in no particular order.
func corners(points []r2.Vec, flip float64) []r2.Vec {
	out := make([]r2.Vec, len(points))
	for i, p := range points {
		out[i] = r2.Vec{X: flip * p.X, Y: p.Y}
	}
	slices.SortFunc(out, func(a, b r2.Vec) int {
		return cmp.Or(cmp.Compare(math.Round(a.X*1e6), math.Round(b.X*1e6)), cmp.Compare(a.Y, b.Y))
	})
	return out
}

// Mirror the scene and the drawing is mirrored; all of it is in its box.
func TestMirroredDrawing(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s, m, o, w := drawn(rt, t)
		a, errA := picture.NewTopView(m, s)
		b, errB := picture.NewTopView(w, o)
		require.Equal(rt, errA == nil, errB == nil)
		require.Equal(rt, len(a.Items), len(b.Items))
		for i, item := range a.Items {
			p, q := corners(item.Points, 1), corners(b.Items[i].Points, -1)
			require.Equal(rt, item.Label, b.Items[i].Label)
			require.Len(rt, q, len(p))
			for k := range p {
				assert.InDelta(rt, 0, r2.Norm(r2.Sub(p[k], q[k])), 1e-5)
				assert.True(rt, a.Box.Min.X <= p[k].X && p[k].X <= a.Box.Max.X && a.Box.Min.Y <= p[k].Y && p[k].Y <= a.Box.Max.Y)
			}
		}
	})
}
