package canvas_test

import (
	"image"
	"image/color"
	"image/draw"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/image/vector"
	"pgregory.net/rapid"

	"seamrail/plot/preview/internal/canvas"
)

var white = canvas.Light{R: 65535, G: 65535, B: 65535}

// covered is the share of each pixel that was painted white on black.
func covered(c *canvas.Canvas, x, y int) float64 { return float64(c.At(x, y).R) / 65535 }

// near allows for what the canvas leaves alone as nearly nothing, and for
// rounding to 16 bits.
const near = 1.0/4096 + 1.0/32768

func TestSharesOfPixels(t *testing.T) {
	c := canvas.New(4, 4)
	c.Fill(white, 1, []canvas.Point{{X: 0.5, Y: 1}, {X: 2.25, Y: 1}, {X: 2.25, Y: 2.5}, {X: 0.5, Y: 2.5}})
	want := [4][4]float64{{}, {0.5, 1, 0.25, 0}, {0.25, 0.5, 0.125, 0}, {}}
	for y := range 4 {
		for x := range 4 {
			assert.InDelta(t, want[y][x], covered(c, x, y), near, "%d, %d", x, y)
		}
	}
	c = canvas.New(2, 1)
	c.Fill(white, 1, []canvas.Point{{X: 0, Y: 0}, {X: 2, Y: 1}, {X: 0, Y: 1}})
	assert.InDelta(t, 0.75, covered(c, 0, 0), near, "a slope across two pixels leaves a quarter")
	assert.InDelta(t, 0.25, covered(c, 1, 0), near)
}

func TestOpacityMixes(t *testing.T) {
	c := canvas.New(1, 1)
	c.Row(0, canvas.Light{R: 1000, G: 2000, B: 3000})
	c.Fill(canvas.Light{R: 5000, G: 2000, B: 1000}, 0.25, []canvas.Point{{X: -1, Y: -1}, {X: 2, Y: -1}, {X: 2, Y: 2}, {X: -1, Y: 2}})
	assert.Equal(t, canvas.Light{R: 2000, G: 2000, B: 2500}, c.At(0, 0))
}

// A hole runs the other way round.
func TestHoles(t *testing.T) {
	c := canvas.New(6, 6)
	c.Fill(white, 1,
		[]canvas.Point{{X: 0, Y: 0}, {X: 6, Y: 0}, {X: 6, Y: 6}, {X: 0, Y: 6}},
		[]canvas.Point{{X: 2, Y: 2}, {X: 2, Y: 4}, {X: 4, Y: 4}, {X: 4, Y: 2}})
	assert.Zero(t, covered(c, 2, 3))
	assert.EqualValues(t, 1, covered(c, 1, 3))
	assert.EqualValues(t, 1, covered(c, 4, 3))
}

func point(t *rapid.T, reach float32) canvas.Point {
	g := rapid.Float32Range(-reach, 32+reach)
	return canvas.Point{X: g.Draw(t, "x"), Y: g.Draw(t, "y")}
}

// Against the library's rasteriser of vector graphics, for triangles within the
// picture and beyond it. Its mask has 8 bits; wider than 512 px it reckons in
// floats, below that more coarsely than is compared here.
func TestAgainstTheImageLibrary(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := []canvas.Point{point(t, 8), point(t, 8), point(t, 8)}
		c := canvas.New(32, 32)
		c.Fill(white, 1, p)
		r := vector.NewRasterizer(600, 32)
		r.MoveTo(p[0].X, p[0].Y)
		r.LineTo(p[1].X, p[1].Y)
		r.LineTo(p[2].X, p[2].Y)
		r.ClosePath()
		mask := image.NewAlpha(image.Rect(0, 0, 600, 32))
		r.DrawOp = draw.Src
		r.Draw(mask, mask.Rect, image.NewUniform(color.White), image.Point{})
		for y := range 32 {
			for x := range 32 {
				require.InDelta(t, float64(mask.AlphaAt(x, y).A)/255, covered(c, x, y), 2.0/255, "%d, %d of %v", x, y, p)
			}
		}
	})
}

// What is painted of a triangle within the picture is its area, by the shoelace
// formula.
func TestAreas(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := []canvas.Point{point(t, 0), point(t, 0), point(t, 0)}
		area := 0.0
		for i, a := range p {
			b := p[(i+1)%3]
			area += float64(a.X)*float64(b.Y) - float64(b.X)*float64(a.Y)
		}
		c, sum := canvas.New(32, 32), 0.0
		c.Fill(white, 1, p)
		for y := range 32 {
			for x := range 32 {
				sum += covered(c, x, y)
			}
		}
		// An edge crosses at most 63 pixels.
		require.InDelta(t, math.Abs(area)/2, sum, 3*63*near)
	})
}

// Two fills that share an edge in one fill leave no gap, and nothing of one fill
// is left for the next.
func TestNoGapWithinAFill(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x0, x1 := rapid.Float32Range(1, 15).Draw(t, "top"), rapid.Float32Range(1, 15).Draw(t, "bottom")
		c := canvas.New(16, 16)
		for range 2 {
			c.Fill(white, 1,
				[]canvas.Point{{X: 0, Y: 0}, {X: x0, Y: 0}, {X: x1, Y: 16}, {X: 0, Y: 16}},
				[]canvas.Point{{X: x0, Y: 0}, {X: 16, Y: 0}, {X: 16, Y: 16}, {X: x1, Y: 16}})
		}
		for y := range 16 {
			for x := range 16 {
				require.InDelta(t, 1, covered(c, x, y), near)
			}
		}
	})
}

func TestNothingToFill(t *testing.T) {
	c := canvas.New(4, 4)
	nan := float32(math.NaN())
	for _, p := range [][]canvas.Point{nil, {{X: 1, Y: 1}}, {{X: 1, Y: 1}, {X: 3, Y: 1}}, {{X: 0, Y: -9}, {X: 4, Y: -9}, {X: 4, Y: -5}},
		{{X: 9, Y: 0}, {X: 12, Y: 0}, {X: 12, Y: 4}}, {{X: nan, Y: nan}, {X: 1, Y: nan}, {X: 1, Y: 3}}} {
		c.Fill(white, 1, p)
	}
	for i := range 16 {
		assert.Zero(t, covered(c, i%4, i/4))
	}
}

func TestFillTakesNoMemory(t *testing.T) {
	c := canvas.New(64, 64)
	p := []canvas.Point{{X: 3, Y: 5}, {X: 60, Y: 12}, {X: 30, Y: 61}}
	assert.Zero(t, testing.AllocsPerRun(20, func() { c.Fill(white, 0.5, p) }))
}

func BenchmarkFill(b *testing.B) {
	c := canvas.New(320, 180)
	p := []canvas.Point{{X: 60, Y: 10}, {X: 260, Y: 20}, {X: 250, Y: 170}, {X: 70, Y: 175}}
	for b.Loop() {
		c.Fill(white, 1, p)
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/28_000, "ns/px")
}
