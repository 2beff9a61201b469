package topview

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/plot/vg"
	"pgregory.net/rapid"
)

func square(x, y, side vg.Length) []vg.Point {
	return []vg.Point{{X: x, Y: y}, {X: x + side, Y: y}, {X: x + side, Y: y + side}, {X: x, Y: y + side}}
}

func turnedBack(points []vg.Point) []vg.Point {
	out := make([]vg.Point, len(points))
	for i, p := range points {
		out[len(points)-1-i] = p
	}
	return out
}

func area(points []vg.Point) float64 {
	if len(points) < 3 {
		return 0
	}
	a := float64(doubleArea(points)) / 2
	if a < 0 {
		return -a
	}
	return a
}

func TestCommonOfSquares(t *testing.T) {
	a := square(0, 0, 2)
	for _, c := range []struct {
		b    []vg.Point
		want float64
	}{
		{square(1, 1, 2), 1}, {square(0.5, 0.5, 1), 1}, {a, 4}, {square(3, 0, 2), 0}, {square(-1, 0, 2), 2},
		{[]vg.Point{{X: 0, Y: 0}, {X: 4, Y: 0}, {X: 0, Y: 4}}, 4}, // its long side passes the corner (2, 2)
		{[]vg.Point{{X: 0, Y: 0}, {X: 3, Y: 0}, {X: 0, Y: 3}}, 3.5},
	} {
		assert.InDelta(t, c.want, area(common(a, c.b)), 1e-12, "%v", c.b)
		assert.InDelta(t, c.want, area(common(a, turnedBack(c.b))), 1e-12, "whichever way it runs")
		assert.InDelta(t, c.want, area(common(c.b, a)), 1e-12, "whichever comes first")
	}
}

func point(t *rapid.T, name string) vg.Point {
	g := rapid.Float64Range(-10, 10)
	return vg.Point{X: vg.Length(g.Draw(t, name+" x")), Y: vg.Length(g.Draw(t, name+" y"))}
}

// What two triangles share is in both and no larger than either.
func TestCommonIsInBoth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) []vg.Point {
			return []vg.Point{point(t, name+" 1"), point(t, name+" 2"), point(t, name+" 3")}
		}
		a, b := draw("a"), draw("b")
		if area(a) < 1e-3 || area(b) < 1e-3 {
			t.Skip("slivers")
		}
		got := common(a, b)
		assert.LessOrEqual(t, area(got), min(area(a), area(b))+1e-9)
		assert.InDelta(t, area(got), area(common(b, a)), 1e-9)
	})
}

// cuts agrees with a thousand points along the segment, but where it only
// grazes the box.
func TestCutsAgreesWithPointsAlong(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := segment{point(t, "p"), point(t, "q")}
		p := point(t, "corner")
		b := box{p.X, p.Y, p.X + 3, p.Y + 2}
		touched := func(b box) bool {
			for k := range 1001 {
				if b.has(s.along(vg.Length(k) / 1000)) {
					return true
				}
			}
			return false
		}
		if touched(b.grown(-0.05)) {
			assert.True(t, s.cuts(b))
		}
		if !touched(b.grown(0.05)) {
			assert.False(t, s.cuts(b))
		}
	})
}

func TestAlongside(t *testing.T) {
	line := segment{vg.Point{}, vg.Point{X: 100}}
	at := func(x0, y0, x1, y1 vg.Length) segment { return segment{vg.Point{X: x0, Y: y0}, vg.Point{X: x1, Y: y1}} }
	for _, c := range []struct {
		s    segment
		want bool
	}{
		{line, true}, {at(100, 0, 0, 0), true}, {at(50, 5, 150, 5), true}, {at(0, 15, 100, 15), false},
		{at(100, 0, 200, 0), false}, {at(-100, 0, 0, 0), false}, {at(50, -50, 50, 50), false}, {at(0, 0, 100, 3), true},
	} {
		assert.Equal(t, c.want, alongside(line, c.s), "%v", c.s)
		assert.Equal(t, c.want, alongside(c.s, line), "%v", c.s)
	}
}
