package alike

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// No two pictures are nearer than their boxes say, whatever the boxes and the pictures are; and
// pictures that differ by the same everywhere are as far apart as that, so the bound is the best.
func TestBoxesDrawNothingApart(t *testing.T) {
	distance := func(a, b []float32) float64 {
		sum := 0.0
		for k := range a {
			d := float64(a[k]) - float64(b[k])
			sum += d * d
		}
		return math.Sqrt(sum)
	}
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.IntRange(1, 50).Draw(t, "width"), rapid.IntRange(1, 30).Draw(t, "height")
		b := newBoxes(w, h, rapid.IntRange(1, 13).Draw(t, "across"), rapid.IntRange(1, 10).Draw(t, "down"))
		pixel := rapid.Float32Range(0, 1)
		x := rapid.SliceOfN(pixel, w*h, w*h).Draw(t, "x")
		y := rapid.SliceOfN(pixel, w*h, w*h).Draw(t, "y")
		cx, cy := make([]float32, b.count()), make([]float32, b.count())
		b.fill(cx, x)
		b.fill(cy, y)
		slack := rounding * math.Sqrt(float64(w*h))
		require.LessOrEqual(t, distance(cx, cy), distance(x, y)+slack)

		even := rapid.Float32Range(0, 0.5).Draw(t, "even")
		for k := range y {
			y[k] = x[k] + even
		}
		b.fill(cy, y)
		require.InDelta(t, distance(x, y), distance(cx, cy), slack)
	})
}
