package repeats_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/footage"
	"seamrail/motion/footage/repeats"
)

// paper is a wallpaper of blots that come again every so many pixels, with grain, of which a share
// of the width is hidden by something that does not.
func paper(r *rand.Rand, px, py, grain, hidden float64) footage.Gray {
	g := footage.NewGray(640, 360)
	type wave struct{ a, b, phase, high float64 }
	var tile, thing []wave
	for range 6 {
		tile = append(tile, wave{float64(r.IntN(4)), float64(r.IntN(4)), 6 * r.Float64(), 0.05})
	}
	tile = append(tile, wave{1, 0, 0, 0.08}, wave{0, 1, 1, 0.08}) // so that nothing shorter repeats
	for range 40 {
		thing = append(thing, wave{0.3 * r.NormFloat64(), 0.3 * r.NormFloat64(), 6 * r.Float64(), 0.026})
	}
	for y := range g.Height {
		for x := range g.Width {
			v := 0.5 + 0.2*float64(x)/float64(g.Width) // one lamp, from the right
			if float64(x) < hidden*float64(g.Width) {
				for _, w := range thing {
					v += w.high * math.Sin(w.a*float64(x)+w.b*float64(y)+w.phase)
				}
			} else {
				for _, w := range tile {
					v += w.high * math.Sin(2*math.Pi*(w.a*float64(x)/px+w.b*float64(y)/py)+w.phase)
				}
			}
			g.Row(y)[x] = float32(v + grain*r.NormFloat64())
		}
	}
	return g
}

func TestAWallpaperRepeats(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 10 {
		px, py := 30+60*r.Float64(), 30+60*r.Float64()
		got, ok := repeats.Of(paper(r, px, py, 0.02, 0), 3)
		require.True(t, ok, "%g x %g", px, py)
		const near = 1.5 * 3 * 3 // recorded px, of which three are one, and three of those are looked at as one
		assert.LessOrEqual(t, math.Hypot(got.X, got.Y), 3*min(px, py)+near)
		if px < py-near {
			assert.InDelta(t, 3*px, got.X, near)
		}
		if py < px-near {
			assert.InDelta(t, 3*py, got.Y, near)
		}
		_, ok = repeats.Of(paper(r, px, py, 0.02, 0.08), 3)
		assert.True(t, ok, "with a thing at its edge, %g x %g", px, py)
		_, ok = repeats.Of(paper(r, px, py, 0.02, 0.6), 3)
		assert.False(t, ok, "where most is hidden, %g x %g", px, py)
	}
}

func TestWhatDoesNotRepeat(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	even := footage.NewGray(64, 36)
	_, ok := repeats.Of(even, 1)
	assert.False(t, ok, "even")
	_, ok = repeats.Of(footage.NewGray(1, 1), 1)
	assert.False(t, ok, "one pixel")
	for range 5 {
		_, ok = repeats.Of(paper(r, 50, 50, 0.02, 1), 1)
		assert.False(t, ok, "a thing")
		noise := footage.NewGray(200, 100)
		for n := range noise.Pix {
			noise.Pix[n] = float32(0.5 + 0.2*r.NormFloat64())
		}
		_, ok = repeats.Of(noise, 1)
		assert.False(t, ok, "noise")
		for n := range noise.Pix {
			noise.Pix[n] = float32(n%200) / 200
		}
		_, ok = repeats.Of(noise, 1)
		assert.False(t, ok, "a slope")
	}
}

func BenchmarkOf(b *testing.B) {
	g := paper(rand.New(rand.NewPCG(5, 6)), 50, 60, 0.02, 0)
	for b.Loop() {
		repeats.Of(g, 1)
	}
}
