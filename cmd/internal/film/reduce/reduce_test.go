package reduce_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/cmd/internal/film/reduce"
	"seamrail/motion/footage"
)

// reduced is what comes of a frame.
func reduced(t require.TestingT, from footage.Gray, r reduce.Region, scale float64) (reduce.Grid, footage.Gray) {
	g, err := reduce.NewGrid(from.Width, from.Height, r, scale)
	require.NoError(t, err)
	var out footage.Gray
	rows := reduce.NewRows(g)
	for range 2 { // the second time in the memory of the first
		rows.Begin(&out)
		for y := range from.Height {
			rows.Row(y, from.Row(y))
		}
	}
	return g, out
}

func counted(width, height int) footage.Gray {
	g := footage.NewGray(width, height)
	for i := range g.Pix {
		g.Pix[i] = float32(i)
	}
	return g
}

func TestReduced(t *testing.T) {
	from := counted(5, 4) // 0..4, 5..9, 10..14, 15..19
	for name, c := range map[string]struct {
		region reduce.Region
		scale  float64
		want   footage.Gray
	}{
		"as it is": {want: from},
		"region":   {region: reduce.Region{X: 1, Y: 2, Width: 2, Height: 2}, want: footage.Gray{Width: 2, Height: 2, Pix: []float32{11, 12, 16, 17}}},
		"half":     {scale: 0.5, want: footage.Gray{Width: 2, Height: 2, Pix: []float32{3, 5, 13, 15}}},
		"a third":  {scale: 0.333333, want: footage.Gray{Width: 1, Height: 1, Pix: []float32{6}}},
		"half of a region": {region: reduce.Region{X: 3, Y: 1, Width: 2, Height: 3}, scale: 0.5,
			want: footage.Gray{Width: 1, Height: 1, Pix: []float32{11}}},
		// Squares of 2.5 px: columns 0, 1 and half of 2.
		"two fifths": {scale: 0.4, want: footage.Gray{Width: 2, Height: 1,
			Pix: []float32{(0 + 1 + 2*.5 + 5 + 6 + 7*.5 + (10+11+12*.5)*.5) / 6.25, (2*.5 + 3 + 4 + 7*.5 + 8 + 9 + (12*.5+13+14)*.5) / 6.25}}},
	} {
		t.Run(name, func(t *testing.T) {
			_, got := reduced(t, from, c.region, c.scale)
			assert.Equal(t, c.want.Width, got.Width)
			assert.Equal(t, c.want.Height, got.Height)
			assert.InDeltaSlice(t, c.want.Pix, got.Pix, 1e-5)
		})
	}
}

// A picture whose brightness is where its pixels are tells where those of the result lie.
func TestNothingIsMoved(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		width, height := rapid.IntRange(1, 60).Draw(t, "width"), rapid.IntRange(1, 60).Draw(t, "height")
		r := reduce.Region{X: rapid.IntRange(0, width-1).Draw(t, "x"), Y: rapid.IntRange(0, height-1).Draw(t, "y")}
		r.Width, r.Height = rapid.IntRange(1, width-r.X).Draw(t, "w"), rapid.IntRange(1, height-r.Y).Draw(t, "h")
		least := 1 / float64(min(r.Width, r.Height))
		scale := rapid.OneOf(rapid.Just(0.5), rapid.Just(1/3.), rapid.Float64Range(0.02, 1)).
			Filter(func(s float64) bool { return s >= least }).Draw(t, "scale")
		for _, across := range []bool{true, false} {
			from := footage.NewGray(width, height)
			for i := range from.Pix {
				from.Pix[i] = float32(i / width)
				if across {
					from.Pix[i] = float32(i % width)
				}
			}
			g, got := reduced(t, from, r, scale)
			require.InDelta(t, float64(r.Width)*scale, float64(g.Width), 1)
			for i, v := range got.Pix {
				x, y := g.Recorded(float64(i%g.Width), float64(i/g.Width))
				if across {
					y = x
				}
				require.InDelta(t, slope(y, g.Step), float64(v), 2e-4, "pixel %d at step %v", i, g.Step)
			}
		}
	})
}

// slope is the mean of a brightness of floor(at + 1/2) over a box: pixels are steps, so that a
// box that ends within one is not quite at its middle.
func slope(middle, step float64) float64 {
	sum := func(to float64) float64 { // of steps from 0, whose pixel 0 begins there
		n := math.Floor(to)
		return n*(n-1)/2 + (to-n)*n
	}
	return (sum(middle+0.5+step/2) - sum(middle+0.5-step/2)) / step
}

func TestGridRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		region reduce.Region
		scale  float64
		want   string
	}{
		"beyond":    {reduce.Region{X: 5, Width: 6, Height: 1}, 1, "region of 6 x 1 px at 5, 0 is not within the frame; it has 10 x 8 px"},
		"negative":  {reduce.Region{X: -1, Width: 6, Height: 1}, 1, "not within"},
		"empty":     {reduce.Region{X: 1}, 1, "not within"},
		"huge":      {reduce.Region{X: 1, Width: math.MaxInt, Height: 1}, 1, "not within"},
		"larger":    {reduce.Region{}, 1.5, "scale 1.5 must be above 0"},
		"none":      {reduce.Region{}, -1, "must be above 0"},
		"not any":   {reduce.Region{}, math.NaN(), "must be above 0"},
		"too small": {reduce.Region{}, 0.1, "leaves nothing of a region of 10 x 8 px; use at least 0.125"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := reduce.NewGrid(10, 8, c.region, c.scale)
			assert.ErrorContains(t, err, c.want)
		})
	}
}

// What aliases when every other pixel is left out is grey in the mean.
func TestFineStripesAreGrey(t *testing.T) {
	from := footage.NewGray(40, 40)
	for i := range from.Pix {
		from.Pix[i] = float32(i % 2)
	}
	_, got := reduced(t, from, reduce.Region{}, 0.5)
	for _, v := range got.Pix {
		require.InDelta(t, 0.5, v, 1e-6)
	}
}

func BenchmarkRowsHalf(b *testing.B) {
	g, err := reduce.NewGrid(1920, 1080, reduce.Region{}, 0.5)
	require.NoError(b, err)
	rows, row := reduce.NewRows(g), make([]float32, 1920)
	var out footage.Gray
	for b.Loop() {
		rows.Begin(&out)
		for y := range 1080 {
			rows.Row(y, row)
		}
	}
}

func BenchmarkRowsTwoFifths(b *testing.B) {
	g, err := reduce.NewGrid(1920, 1080, reduce.Region{}, 0.4)
	require.NoError(b, err)
	rows, row := reduce.NewRows(g), make([]float32, 1920)
	var out footage.Gray
	for b.Loop() {
		rows.Begin(&out)
		for y := range 1080 {
			rows.Row(y, row)
		}
	}
}
