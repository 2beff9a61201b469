package preview

import (
	"image"
	"image/color"
	"math"
	"testing"

	"seamrail/motion/scene"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	xfont "golang.org/x/image/font"
	"golang.org/x/image/math/fixed"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"seamrail/motion/camera/pose"
	"seamrail/plot/internal/style"
	"seamrail/plot/preview/internal/canvas"
)

// The first patch of every shape looks at the camera, and all look outwards, in
// order counter-clockwise seen from above.
func TestPatchesGoRound(t *testing.T) {
	for _, p := range []scene.Product{
		{Shape: scene.Cylinder, Radius: scene.Is(40), Alike: 5},
		{Shape: scene.Prism, Radius: scene.Is(40), Sides: 5},
		{Shape: scene.Box, Width: scene.Is(70), Depth: scene.Is(30)},
	} {
		around, _ := patches(p)
		first := around[0].normal(0.5)
		assert.InDelta(t, 0, first.X, 1e-9)
		assert.InDelta(t, -1, first.Y, 1e-9)
		for i, q := range around {
			for _, across := range []float64{0.1, 0.9} {
				assert.Positive(t, r2.Dot(q.normal(across), q.at(across)), "outwards")
			}
			next := around[(i+1)%len(around)]
			assert.InDelta(t, 0, r2.Norm(r2.Sub(q.at(1), next.at(0))), 1e-9, "no gap")
			assert.Positive(t, r2.Cross(q.at(0), q.at(1)))
		}
	}
}

// How many patches differ: the least that the symmetry allows.
func TestPeriods(t *testing.T) {
	prism := func(sides, alike int) scene.Product {
		return scene.Product{Shape: scene.Prism, Radius: scene.Is(40), Sides: sides, Alike: alike}
	}
	round := func(alike int) scene.Product {
		return scene.Product{Shape: scene.Cylinder, Radius: scene.Is(40), Alike: alike}
	}
	for _, c := range []struct {
		p             scene.Product
		count, period int
	}{
		{prism(6, 6), 6, 1}, {prism(6, 3), 6, 2}, {prism(6, 2), 6, 3}, {prism(6, 1), 6, 6}, {prism(6, 4), 6, 3},
		{prism(6, 0), 6, 1}, {round(1), 6, 6}, {round(0), 6, 6}, {round(2), 6, 3}, {round(4), 8, 2}, {round(6), 6, 1}, {round(9), 9, 1},
	} {
		around, period := patches(c.p)
		assert.Len(t, around, c.count, "%+v", c.p)
		assert.Equal(t, c.period, period, "%+v", c.p)
	}
}

// A number stands upright and reads from left to right as seen from outside.
func TestNumbersReadFromOutside(t *testing.T) {
	face := chord(r2.Vec{X: -50, Y: -30}, r2.Vec{X: 50, Y: -30})
	got := face.number(7, 60, 40)
	flat := digits(7)
	require.Len(t, got.contours, len(flat))
	for i, c := range flat {
		for k, q := range c {
			assert.InDelta(t, 0, r3.Norm(r3.Sub(r3.Vec{X: 40 * q.X, Y: -30, Z: 60 + 40*q.Y}, got.contours[i][k])), 1e-9)
		}
	}
	assert.Equal(t, r3.Vec{Y: -1}, got.normal)
}

// The outlines of numbers, filled here, are what the font library's rasteriser
// makes of them.
func TestDigitsAgainstTheFontLibrary(t *testing.T) {
	for n := range 10 {
		c := canvas.New(100, 100)
		contours := digits(n)
		lists := make([][]canvas.Point, len(contours))
		left := math.Inf(1)
		for i, contour := range contours {
			for _, q := range contour {
				left = math.Min(left, q.X)
				lists[i] = append(lists[i], canvas.Point{X: float32(q.X), Y: float32(q.Y)})
			}
		}
		face, box := sized(n)
		for _, list := range lists {
			for k, q := range list {
				scale := float64(box.Max.Y-box.Min.Y) / 64
				list[k] = canvas.Point{X: float32(20 + (float64(q.X)-left)*scale), Y: float32(50 - float64(q.Y)*scale)}
			}
		}
		c.Fill(canvas.Light{G: 65535}, 1, lists...)
		mask := image.NewAlpha(image.Rect(0, 0, 100, 100))
		d := xfont.Drawer{Dst: mask, Src: image.NewUniform(color.Opaque), Face: face,
			Dot: fixed.Point26_6{X: fixed.I(20) - box.Min.X, Y: fixed.I(50) - (box.Min.Y+box.Max.Y)/2}}
		d.DrawString(string(rune('0' + n)))
		off, all := 0.0, 0.0
		for y := range 100 {
			for x := range 100 {
				want := float64(mask.AlphaAt(x, y).A) / 255
				off += math.Abs(want - float64(c.At(x, y).G)/65535)
				all += want
			}
		}
		// Half of a pixel's sixteenth along an outline of a few hundred pixels.
		assert.Less(t, off/all, 0.03, "%d", n)
	}
}

// sized is a face in which a digit is some 60 px high, and its bounds.
func sized(n int) (xfont.Face, fixed.Rectangle26_6) {
	found := style.Face(84, true)
	face := found.FontFace(72)
	box, _, _ := face.GlyphBounds(rune('0' + n))
	return face, box
}

// Marks lie at the rim, as many to each face.
func TestTableMarks(t *testing.T) {
	for _, k := range []int{1, 2, 5, 6, 7, 24, 30} {
		marks := tableMarks(k, 50)
		assert.Zero(t, len(marks)%k)
		assert.GreaterOrEqual(t, len(marks), minMarks)
		for _, m := range marks {
			middle := r3.Scale(0.25, r3.Add(r3.Add(m[0], m[1]), r3.Add(m[2], m[3])))
			for _, p := range m {
				assert.Less(t, math.Hypot(p.X, p.Y), 50.0)
				assert.Less(t, r3.Norm(r3.Sub(p, middle)), 4.0, "one stroke, not across the table")
			}
		}
		assert.InDelta(t, 0, marks[0][0].X+marks[0][2].X, 1e-9)
		assert.Negative(t, marks[0][0].Y, "the first towards the camera")
	}
}

func area(polygon []r3.Vec) (sum float64) {
	for i, a := range polygon {
		b := polygon[(i+1)%len(polygon)]
		sum += (a.X*b.Y - b.X*a.Y) / 2
	}
	return sum
}

// What a convex shape passes over on its way is its own area, and its width
// across the way times how far it goes (textbook).
func TestSwept(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.IntRange(3, 9).Draw(t, "corners")
		turn := rapid.Float64Range(0, 7).Draw(t, "turn")
		polygon := make([]r3.Vec, k)
		for i := range polygon {
			s, c := math.Sincos(turn + 2*math.Pi*float64(i)/float64(k))
			polygon[i] = r3.Vec{X: 7 + 40*c, Y: 25 * s}
		}
		s, c := math.Sincos(rapid.Float64Range(0, 7).Draw(t, "way"))
		far := rapid.Float64Range(1, 100).Draw(t, "far")
		least, most := math.Inf(1), math.Inf(-1)
		for _, p := range polygon {
			across := -s*p.X + c*p.Y
			least, most = math.Min(least, across), math.Max(most, across)
		}
		got := swept(polygon, r3.Vec{X: far * c, Y: far * s})
		require.InDelta(t, area(polygon)+far*(most-least), area(got), 1e-6)
	})
}

// A shadow falls away from its lamp, as far as the cotangent of its height says,
// and no farther than the table.
func TestShadowsFallAway(t *testing.T) {
	s := newStage(scene.Scene{
		Product: scene.Product{Shape: scene.Prism, Sides: 4, Radius: scene.Is(20), Height: scene.Is(10)},
		Lamps:   []scene.Lamp{{Bearing: 0, Rise: 45}},
	})
	e := eye{}
	farthest := math.Inf(-1)
	for _, one := range s.shadows(&e) {
		for _, p := range one.rim {
			farthest = math.Max(farthest, p.Y)
			assert.LessOrEqual(t, math.Hypot(p.X, p.Y), s.table.radius+1e-9)
			assert.Greater(t, p.Y, -20.0*math.Sqrt2/2*1.2, "nothing before the product but its foot's shade")
		}
	}
	// The lamp stands where the camera does, 45 degrees up: 10 mm and a little.
	assert.InDelta(t, 20*math.Sqrt2/2+10, farthest, 10*shadowGrows*1.01)
	for _, one := range s.cast(ring(20, 0), pose.Direction(180+90, 45), 1) { // from the right
		for _, p := range one.rim {
			assert.Less(t, p.X, 20.1)
			assert.InDelta(t, 0, p.Y, 20.1)
		}
	}
}

// The brightest upright side that the lens may see is as bright as it gets, and
// one that no lamp reaches as dim.
func TestExposure(t *testing.T) {
	for _, lamps := range [][]scene.Lamp{nil, {{Bearing: 50, Rise: 30}}, {{Bearing: 20}, {Bearing: -70, Rise: 60}}} {
		s := newStage(scene.Scene{Product: scene.Product{Shape: scene.Cylinder, Radius: scene.Is(20)}, Lamps: lamps})
		most, least := 0.0, 1.0
		for heading := range 3600 {
			a := float64(heading) / 10 * math.Pi / 180
			lit := s.lit(r3.Vec{X: math.Sin(a), Y: -math.Cos(a)})
			most, least = math.Max(most, lit), math.Min(least, lit)
		}
		assert.InDelta(t, brightest, most, 1e-3)
		assert.InDelta(t, dimmest, least, 1e-9)
	}
}
