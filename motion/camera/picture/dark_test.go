package picture_test

import (
	"math"
	"testing"

	"seamrail/motion/scene"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"seamrail/motion/camera/picture"
)

// darkened is the bench behind a board 200 mm before the lens, where the picture is
// 30 mm by 15, with a hole that the lens can look through.
func darkened(diameter, thickness float64) scene.Scene {
	s := bench()
	s.Dark = &scene.Dark{Centre: r3.Vec{Y: -distance + 200, Z: 25}, Width: scene.Is(200), Height: scene.Is(200)}
	s.Holes = []scene.Hole{{Centre: s.Dark.Centre, Diameter: scene.Is(diameter), Thickness: thickness}}
	return s
}

// looked is the share of the picture, in percent, whose rays pass a hole in a plane
// 200 mm away and then a cylinder, ray by ray: of the widest line of it, and of all.
func looked(s scene.Scene, n int) (width, area float64) {
	h, hits := s.Holes[0], 0
	columns := map[int]bool{}
	for i := range n {
		for k := range n / 2 {
			x, z := 60*((float64(i)+0.5)/float64(n)-0.5)/400, 30*((float64(k)+0.5)/float64(n/2)-0.5)/400
			inside := func(way float64) bool { return math.Hypot(x*way-h.Centre.X, z*way+25-h.Centre.Z) < h.Diameter.Value/2 }
			if !inside(200-h.Thickness/2) || !inside(200+h.Thickness/2) {
				continue
			}
			// The nearest to the axis, and the height where the ray comes in.
			off := distance * math.Abs(x) / math.Hypot(1, x)
			if off >= radius {
				continue
			}
			in := (distance - math.Sqrt(radius*radius-off*off)*math.Hypot(1, x)) / (1 + x*x)
			if top := 25 + z*in; top < 0 || top > 50 {
				continue
			}
			hits++
			columns[i] = true
		}
	}
	return 100 * float64(len(columns)) / float64(n), 100 * float64(hits) / float64(n*n/2)
}

// A hole that shows the product is not dark, and how much it shows is counted ray by
// ray.
func TestAHoleInTheDark(t *testing.T) {
	for _, c := range []struct{ diameter, thickness, aside float64 }{{10, 0, 0}, {6, 8, 0}, {12, 2, 7}, {40, 3, 0}, {14, 3, -13}} {
		s := darkened(c.diameter, c.thickness)
		s.Holes[0].Centre.X = c.aside
		v := find(t, examine(t, at(t, 120, 2), s), "dark at the seam")
		width, area := looked(s, 2000)
		assert.Equal(t, picture.Poor, v.Level)
		assert.InDelta(t, width, figure(t, v, "product through it"), 0.2)
		assert.InDelta(t, area, figure(t, v, "product through it, area"), 0.2)
		assert.Contains(t, v.Text, "not dark")
	}
}

// A hole beyond the edge of the picture shows nothing; a hair nearer, it does.
func TestAHoleBesideThePicture(t *testing.T) {
	s := darkened(10, 0)
	s.Holes[0].Centre.X = 15 + 5 + 0.01
	assert.Equal(t, picture.Good, find(t, examine(t, at(t, 120, 2), s), "dark at the seam").Level)
	s.Holes[0].Centre.X = 15 + 5 - 0.01
	assert.Equal(t, picture.Poor, find(t, examine(t, at(t, 120, 2), s), "dark at the seam").Level)
}

// A hole beside the product shows what nobody described: neither dark nor not. Nor is
// it known what a product of no size shows.
func TestAHoleThatShowsWhatIsNotKnown(t *testing.T) {
	s := darkened(4, 0)
	s.Product.Radius, s.Holes[0].Centre.X = scene.Is(20), 12
	v := find(t, examine(t, at(t, 120, 2), s), "dark at the seam")
	assert.Equal(t, picture.Unknown, v.Level)
	assert.Contains(t, v.Text, "not known")
	jumps := at(t, 120, 24).with("table", steady(0, 50))
	assert.Equal(t, picture.Unknown, find(t, examine(t, jumps, s), "seam in the picture").Level)
	s = darkened(4, 0)
	s.Product.Shape = scene.NoShape
	v = find(t, examine(t, at(t, 120, 2), s), "dark at the seam")
	assert.Equal(t, picture.Unknown, v.Level)
	assert.Contains(t, v.Missing, "shape and size of the product")
}

// What is seen through a hole is not hidden; a hole in another board is no hole in
// the dark.
func TestASeamSeenThroughAHole(t *testing.T) {
	jumps := at(t, 120, 24).with("table", steady(0, 50))
	s := darkened(10, 0)
	assert.Equal(t, picture.Poor, find(t, examine(t, jumps, s), "seam in the picture").Level)
	s.Holes[0].Centre.Y += 20
	assert.Contains(t, find(t, examine(t, jumps, s), "seam in the picture").Text, "hidden by the dark")
	assert.Equal(t, picture.Good, find(t, examine(t, jumps, s), "dark at the seam").Level)
}

// A dark behind the product's front hides nothing of it, nor does one that the front
// of the lens stands beyond.
func TestADarkInTheWrongPlace(t *testing.T) {
	s := darkened(1, 0)
	s.Holes = nil
	s.Dark.Centre.Y = -radius - 0.01
	assert.Equal(t, picture.Good, find(t, examine(t, at(t, 120, 2), s), "dark at the seam").Level)
	s.Dark.Centre.Y = -radius + 0.5 // a chord of it stands before the dark
	v := find(t, examine(t, at(t, 120, 2), s), "dark at the seam")
	assert.Contains(t, v.Text, "the product stands before it")
	assert.InDelta(t, 100*2*math.Sqrt(radius*radius-39.5*39.5)/(60*400.5/400), figure(t, v, "product before it"), 0.3, "a circle's chord, in a picture 60 mm wide there")
	s.Product.Shape, s.Product.Sides = scene.Prism, 4
	s.Dark.Centre.Y = -radius*math.Sqrt2/2 - 0.01
	assert.Equal(t, picture.Good, find(t, examine(t, at(t, 120, 2), s), "dark at the seam").Level, "the mouth of a box, whose face looks at the lens")
	s.Product.Facing = 20
	assert.Equal(t, picture.Poor, find(t, examine(t, at(t, 120, 2), s), "dark at the seam").Level, "turned, a corner stands before it")
	s = darkened(70, 0)
	s.Lens.FrontAhead = scene.Is(199.9)
	assert.NotContains(t, find(t, examine(t, at(t, 120, 2), s), "dark at the seam").Text, "not in front")
	s.Lens.FrontAhead = scene.Is(200.1)
	assert.Contains(t, find(t, examine(t, at(t, 120, 2), s), "dark at the seam").Text, "not in front")
}

// Through a hole the lens does not go through the dark.
func TestLensThroughAHoleInTheDark(t *testing.T) {
	s := darkened(70, 3)
	m := at(t, 120, 240).with("push", swing(0, 250, 2))
	_, told := find(t, examine(t, m, s), "dark at the seam").Figure("through it")
	assert.False(t, told)
	s.Holes[0].Diameter = scene.Is(5)
	s.Holes[0].Centre.X = 60
	_, told = find(t, examine(t, m, s), "dark at the seam").Figure("through it")
	assert.True(t, told)
}

// A larger hole never shows less, a thicker board never more.
func TestHolesInTheDarkAreMonotone(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		d, thick := rapid.Float64Range(1, 40).Draw(rt, "d"), rapid.Float64Range(0, 20).Draw(rt, "thick")
		x := rapid.Float64Range(-20, 20).Draw(rt, "x")
		seen := func(d, thick float64) float64 {
			s := darkened(d, thick)
			s.Holes[0].Centre.X = x
			r, err := picture.Look(at(t, 120, 2), s)
			assert.NoError(rt, err)
			v, _ := r.Find("dark at the seam")
			a, _ := v.Figure("product through it, area")
			return a
		}
		assert.LessOrEqual(rt, seen(d, thick), seen(d*1.3, thick)+1e-9)
		assert.LessOrEqual(rt, seen(d, thick+2), seen(d, thick)+1e-9)
	})
}

// Only what enters a hole has to pass it: a long thin front before a wide barrel,
// until the barrel comes to the board.
func TestAThinFrontBeforeAWideBarrel(t *testing.T) {
	s := bench()
	s.Holes = hole(70) // In a board from 97 to 103 mm before the lens
	s.Lens.FrontDiameter, s.Lens.FrontLength = scene.Is(20), scene.Is(100)
	s.Lens.BarrelDiameter, s.Lens.BarrelLength = scene.Is(80), scene.Is(150)
	for reach, level := range map[float64]picture.Level{96.5: picture.Good, 150: picture.Good, 196.8: picture.Good, 197.2: picture.Block} {
		v := find(t, examine(t, at(t, 120, 240).with("push", swing(0, reach, 2)), s), "hole")
		assert.Equal(t, level, v.Level, "%v mm: %s", reach, v.Text)
	}
	v := find(t, examine(t, at(t, 120, 240).with("push", swing(0, 196.8, 2)), s), "hole")
	assert.InDelta(t, 25, figure(t, v, "margin"), 1e-9, "of the front, which is what enters")
	v = find(t, examine(t, at(t, 120, 240).with("push", swing(0, 197.2, 2)), s), "hole")
	assert.InDelta(t, -5, figure(t, v, "margin"), 1e-9, "of the barrel")
	// Pass or not, on the way home and in a run-out too.
	m := at(t, 120, 24).with("push", steady(0, 0))
	m.axes[0].Home = 300
	v = find(t, examine(t, m, s), "hole")
	assert.Equal(t, picture.Block, v.Level)
	assert.Contains(t, v.Text, "on its way from home")
	assert.Nil(t, v.When)
	out := at(t, 120, 24).with("push", steady(0, 600))
	assert.Equal(t, picture.Good, find(t, examine(t, out, s), "hole").Level)
	out.out = 24
	assert.Equal(t, picture.Block, find(t, examine(t, out, s), "hole").Level)
}

// A barrel no longer than its front is all front.
func TestABarrelInsideItsFront(t *testing.T) {
	s := bench()
	s.Product.Shape = scene.NoShape
	s.Holes = hole(60.1)
	s.Lens.FrontDiameter, s.Lens.FrontLength = scene.Is(50), scene.Is(200)
	s.Lens.BarrelDiameter, s.Lens.BarrelLength = scene.Is(80), scene.Is(200)
	v := find(t, examine(t, at(t, 120, 240).with("push", swing(0, 200, 2)), s), "hole")
	assert.Equal(t, picture.Good, v.Level)
}
