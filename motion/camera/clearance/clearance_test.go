package clearance_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"seamrail/motion/camera/clearance"
)

func square(x, y, half float64) clearance.Outline {
	return clearance.Bar(r2.Vec{X: x - half, Y: y}, r2.Vec{X: x + half, Y: y}, half)
}

// Closed forms.
func TestDistances(t *testing.T) {
	origin := r2.Vec{}
	for _, c := range []struct {
		name string
		a, b clearance.Outline
		want float64
	}{
		{"two discs", clearance.Disc(origin, 2), clearance.Disc(r2.Vec{X: 3, Y: 4}, 1), 2},
		{"disc in disc", clearance.Disc(origin, 2), clearance.Disc(r2.Vec{X: 1}, 1), -2},
		{"squares side by side", square(0, 0, 1), square(5, 0.5, 1), 3},
		{"squares corner to corner", square(0, 0, 1), square(5, 5, 1), 3 * math.Sqrt2},
		{"squares that overlap", square(0, 0, 1), square(1.5, 0.2, 1), -0.5},
		{"disc at a corner", square(0, 0, 1), clearance.Disc(r2.Vec{X: 4, Y: 5}, 2), 3},
		{"disc at a side", square(0, 0, 1), clearance.Disc(r2.Vec{X: 0.3, Y: 5}, 2), 2},
		{"two lines in line", clearance.Outline{Points: []r2.Vec{{}, {X: 1}}}, clearance.Outline{Points: []r2.Vec{{X: 3}, {X: 4}}}, 2},
		{"hexagon, corner on", clearance.Regular(origin, 10, 6, 0), clearance.Disc(r2.Vec{X: 30}, 5), 15},
		{"hexagon, face on", clearance.Regular(origin, 10, 6, 30), clearance.Disc(r2.Vec{X: 30}, 5), 25 - 10*math.Sqrt(3)/2},
		{"capsule and point", clearance.Outline{Points: []r2.Vec{{}, {X: 10}}, Round: 2}, clearance.Disc(r2.Vec{X: 5, Y: 7}, 0), 5},
	} {
		assert.InDelta(t, c.want, clearance.Distance(c.a, c.b), 1e-12, c.name)
		assert.InDelta(t, c.want, clearance.Distance(c.b, c.a), 1e-12, c.name)
	}
}

func TestGap(t *testing.T) {
	low := clearance.Body{Outline: clearance.Disc(r2.Vec{}, 10), High: 20}
	for _, c := range []struct{ x, bottom, want float64 }{
		{25, 10, 10},  // beside
		{0, 26, 6},    // above
		{23, 26, 10},  // aslant: 8 and 6
		{12, 18, -2},  // overlaps, up is the nearer way out than 3 sideways
		{14, 10, -1},  // overlaps by 1 sideways
		{15, 20, 0},   // touches along an edge
		{-23, 26, 10}, // the other side
	} {
		b := clearance.Body{Outline: clearance.Disc(r2.Vec{X: c.x}, 5), Low: c.bottom, High: c.bottom + 30}
		assert.InDelta(t, c.want, clearance.Gap(low, b), 1e-12, "%+v", c)
		assert.InDelta(t, c.want, clearance.Gap(b, low), 1e-12)
	}
}

func outline(t *rapid.T, name string) clearance.Outline {
	g := rapid.Float64Range(-100, 100)
	n := rapid.IntRange(1, 7).Draw(t, name+" corners")
	o := clearance.Outline{Round: rapid.Float64Range(0, 20).Draw(t, name+" round")}
	for range n {
		o.Points = append(o.Points, r2.Vec{X: g.Draw(t, name+" x"), Y: g.Draw(t, name+" y")})
	}
	return o
}

func moved(o clearance.Outline, by r2.Vec) clearance.Outline {
	out := clearance.Outline{Round: o.Round}
	for _, p := range o.Points {
		out.Points = append(out.Points, r2.Add(p, by))
	}
	return out
}

// Symmetric, no faster than the movement, and true to its word: moved apart by
// an overlap along some direction, the outlines touch.
func TestDistanceProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := outline(t, "a"), outline(t, "b")
		d := clearance.Distance(a, b)
		assert.False(t, math.IsNaN(d))
		assert.InDelta(t, d, clearance.Distance(b, a), 1e-9)
		step := r2.Vec{X: rapid.Float64Range(-5, 5).Draw(t, "dx"), Y: rapid.Float64Range(-5, 5).Draw(t, "dy")}
		assert.LessOrEqual(t, math.Abs(clearance.Distance(moved(a, step), b)-d), r2.Norm(step)+1e-9)
		angle := rapid.Float64Range(-180, 180).Draw(t, "turn")
		assert.InDelta(t, d, clearance.Distance(a.Turned(angle), b.Turned(angle)), 1e-9)
		if d < 0 {
			assert.InDelta(t, 0, best(a, b, -d), 0.02*math.Max(1, -d))
		}
	})
}

// best is the greatest distance any move of that length brings, by trying.
func best(a, b clearance.Outline, length float64) float64 {
	most := math.Inf(-1)
	for k := range 720 {
		s, c := math.Sincos(float64(k) * math.Pi / 360)
		most = math.Max(most, clearance.Distance(moved(a, r2.Vec{X: c * length, Y: s * length}), b))
	}
	return most
}

// Against brute force: the nearest of many points on the sides.
func TestDistanceAgainstSampling(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := clearance.Regular(r2.Vec{}, rapid.Float64Range(1, 30).Draw(t, "ra"), rapid.IntRange(3, 9).Draw(t, "ka"), rapid.Float64Range(0, 360).Draw(t, "ta"))
		away := r2.Vec{X: rapid.Float64Range(70, 150).Draw(t, "x"), Y: rapid.Float64Range(-80, 80).Draw(t, "y")}
		b := clearance.Regular(away, rapid.Float64Range(1, 30).Draw(t, "rb"), rapid.IntRange(3, 9).Draw(t, "kb"), rapid.Float64Range(0, 360).Draw(t, "tb"))
		least := math.Inf(1)
		for _, p := range along(a) {
			for _, q := range along(b) {
				least = math.Min(least, r2.Norm(r2.Sub(p, q)))
			}
		}
		d := clearance.Distance(a, b)
		assert.LessOrEqual(t, d, least+1e-9)
		assert.InDelta(t, least, d, 0.6, "points are 1/40 of a side apart")
	})
}

func along(o clearance.Outline) []r2.Vec {
	var out []r2.Vec
	for i, p := range o.Points {
		q := o.Points[(i+1)%len(o.Points)]
		for k := range 40 {
			out = append(out, r2.Add(p, r2.Scale(float64(k)/40, r2.Sub(q, p))))
		}
	}
	return out
}

func FuzzGap(f *testing.F) {
	f.Add(0.0, 0.0, 1.0, 3.0, 4.0, 2.0, 6)
	f.Add(1e-300, 1.0, 0.0, 1.0, 1e-300, 0.0, 3)
	f.Fuzz(func(t *testing.T, ax, ay, ar, bx, by, br float64, k int) {
		for _, v := range []float64{ax, ay, ar, bx, by, br} {
			if math.IsNaN(v) || math.Abs(v) > 1e6 {
				t.Skip()
			}
		}
		k = 3 + (k%61+61)%61
		a := clearance.Body{Outline: clearance.Regular(r2.Vec{X: ax, Y: ay}, math.Abs(ar), k, bx), High: 10}
		b := clearance.Body{Outline: clearance.Bar(r2.Vec{X: bx, Y: by}, r2.Vec{X: by, Y: ax}, math.Abs(br)), Low: 5, High: 20}
		d := clearance.Gap(a, b)
		if math.IsNaN(d) || math.IsInf(d, 0) {
			t.Fatalf("gap is %g", d)
		}
		if e := clearance.Gap(b, a); math.Abs(d-e) > 1e-6*(1+math.Abs(d)) {
			t.Fatalf("gap is %g one way and %g the other", d, e)
		}
	})
}

func BenchmarkDistance(b *testing.B) {
	hexagon := clearance.Regular(r2.Vec{}, 40, 6, 0)
	barrel := clearance.Bar(r2.Vec{Y: -300}, r2.Vec{Y: -120}, 35)
	for b.Loop() {
		clearance.Distance(hexagon, barrel)
	}
}
