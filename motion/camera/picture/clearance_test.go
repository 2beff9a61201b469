package picture_test

import (
	"math"
	"testing"

	"seamrail/motion/scene"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"seamrail/motion/camera/picture"
	"seamrail/motion/track"
)

// A cylinder of 40 mm, the lens' front 440 mm from its axis, pushed in 300.
func TestClearanceOfACylinder(t *testing.T) {
	v := find(t, examine(t, at(t, 120, 240).with("push", swing(0, 300, 2)), bench()), "clearance")
	assert.InDelta(t, 100, figure(t, v, "gap"), 1e-6)
	assert.InDelta(t, 1, v.When.Seconds, 1e-3)
	assert.Equal(t, picture.Good, v.Level)
}

func TestCollision(t *testing.T) {
	r := examine(t, at(t, 120, 240).with("push", swing(0, 402, 2)), bench())
	v := find(t, r, "clearance")
	assert.InDelta(t, -2, figure(t, v, "gap"), 1e-6)
	assert.Equal(t, picture.Block, v.Level)
	assert.True(t, r.Blocks())
	assert.Contains(t, v.Text, "do not drive")
	assert.Equal(t, []string{"the camera 17 mm farther back"}, v.Cures.Words()[:1])
	assert.Contains(t, find(t, r, "way to the start").Text, "home")
}

// The corners of a square stand farther out than its faces: sqrt 2 times.
func TestSweptCircle(t *testing.T) {
	s := bench()
	s.Product = scene.Product{Shape: scene.Box, Width: scene.Is(60), Depth: scene.Is(60), Height: scene.Is(50)}
	still := find(t, examine(t, at(t, 120, 24).with("push", steady(380, 0)), s), "clearance")
	assert.InDelta(t, 30, figure(t, still, "gap"), 1e-9, "60 mm to the axis, less the half box")
	assert.InDelta(t, 60-30*math.Sqrt2, figure(t, still, "gap to swept circle"), 1e-9)
	turning := find(t, examine(t, at(t, 120, 120).with("push", steady(380, 0)).with("table", steady(0, 90)), s), "clearance")
	assert.InDelta(t, 60-30*math.Sqrt2, figure(t, turning, "gap"), 1e-3, "half-way a corner looks at the lens")
	assert.InDelta(t, 0.5, turning.When.Seconds, 0.01)
}

// A product that does not close on itself finds every place in some round.
func TestClearanceOfManyRounds(t *testing.T) {
	s := bench()
	s.Product = scene.Product{Shape: scene.Box, Width: scene.Is(60), Depth: scene.Is(60), Height: scene.Is(50)}
	v := find(t, examine(t, at(t, 120, 120).with("push", steady(380, 0)).with("table", steady(0, 7)), s), "clearance")
	assert.InDelta(t, 60-30*math.Sqrt2, figure(t, v, "gap"), 1e-6)
}

// The lens above a low product passes over it.
func TestClearanceAbove(t *testing.T) {
	s := bench()
	s.Stand.Height = scene.Is(100)
	v := find(t, examine(t, at(t, 120, 240).with("push", swing(0, 440, 2)), s), "clearance")
	assert.InDelta(t, 100-30-50, figure(t, v, "gap"), 1e-6)
}

func hole(diameter float64) []scene.Hole {
	return []scene.Hole{{Centre: r3.Vec{Y: -distance + 100, Z: 25}, Diameter: scene.Is(diameter), Thickness: 6}}
}

// A lens of 60 mm through a hole of 70, 2 mm off: 3 mm all round.
func TestHole(t *testing.T) {
	s := bench()
	s.Holes = hole(70)
	s.Holes[0].Centre.X = 2
	m := at(t, 120, 240).with("push", swing(0, 200, 2))
	v := find(t, examine(t, m, s), "hole")
	assert.InDelta(t, 3, figure(t, v, "margin"), 1e-9)
	assert.InDelta(t, 97, figure(t, v, "depth"), 1e-3)
	a := figure(t, v, "misalignment") * math.Pi / 180
	assert.InDelta(t, 3, 30*(1/math.Cos(a)-1)+103*math.Tan(a), 1e-2, "103 mm in, and the front aslant")
	s.Holes[0].Centre.X = 6
	v = find(t, examine(t, m, s), "hole")
	assert.InDelta(t, -1, figure(t, v, "margin"), 1e-9)
	assert.Equal(t, picture.Block, v.Level)
	assert.Equal(t, []string{"a hole of 78 mm"}, v.Cures.Words())
	s.Holes[0].Diameter = scene.Is(78)
	assert.InDelta(t, 3, figure(t, find(t, examine(t, m, s), "hole"), "margin"), 1e-9)
	assert.Contains(t, find(t, examine(t, at(t, 120, 24).with("push", swing(0, 90, 2)), s), "hole").Text, "never enters")
}

// A rail off the hole's axis carries the lens sideways by the sine of it. The
// front has left the hole when its barrel of 56 mm is farthest off.
func TestHoleAskew(t *testing.T) {
	s := bench()
	s.Holes = hole(80)
	s.Stand.Slides = []scene.Slide{{Axis: "push", Heading: 2}}
	v := find(t, examine(t, at(t, 120, 240).with("push", swing(0, 200, 2)), s), "hole")
	assert.InDelta(t, 40-28-200*math.Sin(2*math.Pi/180), figure(t, v, "margin"), 1e-6)
}

// scene draws a scene and a motion, and its mirror image.
func drawn(t *rapid.T, outer testing.TB) (scene.Scene, fake, scene.Scene, fake) {
	num := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
	s := bench()
	s.Product.Shape = scene.Shape(rapid.IntRange(0, 3).Draw(t, "shape"))
	s.Product.Sides, s.Product.Facing = rapid.IntRange(3, 9).Draw(t, "sides"), num("facing", -180, 180)
	s.Product.Width, s.Product.Depth = scene.Is(num("width", 5, 90)), scene.Is(num("depth", 5, 90))
	s.Product.Offset = r2.Vec{X: num("offset", -20, 20)}
	s.Stand.Aside, s.Stand.Pan = scene.Is(num("aside", -40, 40)), scene.Is(num("stand pan", -8, 8))
	s.Stand.Height, s.Stand.Tilt = scene.Is(num("height", -50, 150)), scene.Is(num("stand tilt", -20, 20))
	heading := num("heading", -180, 180)
	s.Stand.Slides = []scene.Slide{{Axis: "rail", Heading: heading, Rise: num("rise", -30, 30)}}
	s.Stand.PivotBehind = scene.Is(num("pivot", 0, 100))
	s.Backlash = map[string]float64{"rail": 0.1}
	m := at(outer, 120, 30)
	swung, turned, panned := num("rail", -60, 60), num("turned", -200, 200), num("panned", -10, 10)
	a := m.with("rail", swing(0, swung, 0.25)).with("table", steady(0, turned)).with("pan", steady(0, panned))
	b := m.with("rail", swing(0, swung, 0.25)).with("table", steady(0, -turned)).with("pan", steady(0, -panned))
	o := s
	o.Product.Facing, o.Product.Offset.X = -s.Product.Facing, -s.Product.Offset.X
	o.Stand.Aside.Value, o.Stand.Pan.Value = -s.Stand.Aside.Value, -s.Stand.Pan.Value
	o.Stand.Slides = []scene.Slide{{Axis: "rail", Heading: -heading, Rise: s.Stand.Slides[0].Rise}}
	return s, a, o, b
}

// Mirror the scene and every answer stays: what is asked has no left or right.
func TestMirroredScene(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s, m, o, w := drawn(rt, t)
		a, errA := picture.Look(m, s)
		b, errB := picture.Look(w, o)
		require.Equal(rt, errA == nil, errB == nil)
		if errA != nil {
			return
		}
		require.Equal(rt, len(a.Verdicts), len(b.Verdicts))
		for i, v := range a.Verdicts {
			u := b.Verdicts[i]
			require.Equal(rt, len(v.Figures), len(u.Figures), v.Check)
			for k, f := range v.Figures {
				assert.False(rt, math.IsNaN(f.Value), "%s of %s", f.Name, v.Check)
				assert.InDelta(rt, f.Value, u.Figures[k].Value, 1e-5*math.Max(1, math.Abs(f.Value)), "%s of %s", f.Name, v.Check)
			}
		}
	})
}

// A gap changes no faster than the camera moves.
func TestClearanceIsContinuous(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s, _, _, _ := drawn(rt, t)
		way := rapid.Float64Range(0, 3).Draw(rt, "way")
		from := rapid.Float64Range(0, 300).Draw(rt, "from")
		gap := func(to float64) (float64, bool) {
			r, err := picture.Look(at(t, 120, 2).with("rail", steady(to, 0)), s)
			if err != nil {
				return 0, false
			}
			v, _ := r.Find("clearance")
			return v.Figure("gap")
		}
		a, ok1 := gap(from)
		b, ok2 := gap(from + way)
		if ok1 && ok2 {
			assert.LessOrEqual(rt, math.Abs(a-b), way+1e-9)
		}
	})
}

// However thin board and lens, and however fast: what passes is seen.
func TestHoleIsNotMissed(t *testing.T) {
	s := bench()
	s.Holes = hole(70)
	s.Holes[0].Thickness, s.Holes[0].Centre.X = 0, 6
	s.Lens.BarrelDiameter = scene.Number{}
	v := find(t, examine(t, at(t, 24, 10).with("push", swing(0, 200, 10.0/24)), withShutter(s, 1.0/50)), "hole")
	assert.InDelta(t, -1, figure(t, v, "margin"), 1e-9)
}

// A round product off the table's axis comes nearest between two frames.
func TestNearestBetweenFrames(t *testing.T) {
	s := bench()
	s.Product.Offset = r2.Vec{X: 20}
	s.Product.Radius = scene.Is(15)
	turn := func(sec float64) track.State { return track.State{Pos: -35 - 55*math.Mod(sec, 1.05), Vel: -55} }
	v := find(t, examine(t, at(t, 20, 21).with("table", turn).with("push", steady(300, 0)), withShutter(s, 1.0/50)), "clearance")
	assert.InDelta(t, distance-300-20-15, figure(t, v, "gap to swept circle"), 1e-9)
	s.Product.Alike = 1
	whole := func(sec float64) track.State { return track.State{Pos: -360 / 1.05 * sec, Vel: -360 / 1.05} }
	v = find(t, examine(t, at(t, 20, 21).with("table", whole).with("push", steady(300, 0)), withShutter(s, 1.0/50)), "clearance")
	assert.InDelta(t, distance-300-20-15, figure(t, v, "gap"), 1e-9)
	assert.InDelta(t, 1.05/4, v.When.Seconds, 1e-4, "a quarter of a turn brings it to the lens")
}

// In its run-up and its run-out a carriage may come nearer than in the loop.
func TestRampsMayComeNearer(t *testing.T) {
	m := at(t, 120, 12).with("push", steady(0, 100))
	gap := func(m fake) float64 { return figure(t, find(t, examine(t, m, bench()), "clearance"), "gap") }
	assert.InDelta(t, 400-10, gap(m), 1e-6)
	m.out = 24
	assert.InDelta(t, 400-30, gap(m), 1e-6)
	back := at(t, 120, 12).with("push", steady(0, -100))
	assert.InDelta(t, 400, gap(back), 1e-6)
	back.up = 36
	assert.InDelta(t, 400-30, gap(back), 1e-6)
	v := find(t, examine(t, back, bench()), "clearance")
	assert.Equal(t, int64(-36), v.When.Frame)
}

// A barrel aslant in a hole takes up its radius over the cosine.
func TestHoleAslant(t *testing.T) {
	s := bench()
	s.Holes = hole(80)
	s.Holes[0].Thickness, s.Holes[0].Heading = 0, 12
	m := at(t, 120, 12).with("push", steady(150, 0))
	m.axes[0].Home = 150
	v := find(t, examine(t, m, s), "hole")
	assert.InDelta(t, 40-28/math.Cos(12*math.Pi/180), figure(t, v, "margin"), 1e-9)
}
