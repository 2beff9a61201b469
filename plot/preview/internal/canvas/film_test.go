package canvas_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"seamrail/plot/preview/internal/canvas"
)

func exposed(l ...canvas.Light) (r, g, b uint8) {
	f := canvas.NewFilm(1, 1)
	for _, one := range l {
		c := canvas.New(1, 1)
		c.Row(0, one)
		f.Add(c)
	}
	p := f.Develop(1).RGBAAt(0, 0)
	return p.R, p.G, p.B
}

// The mean of black and white is half the light, which sRGB codes as 188 (IEC
// 61966-2-1: 0.5 is 0.7354 of full code), not as 128.
func TestMeansAreOfLight(t *testing.T) {
	r, g, b := exposed(canvas.Light{}, white)
	assert.Equal(t, [3]uint8{188, 188, 188}, [3]uint8{r, g, b})
	// The mid grey of photographers, 18 %, is 118 (common practice).
	r, _, _ = exposed(canvas.Light{R: 11796})
	assert.EqualValues(t, 118, r)
}

// Every code comes back as it was, however often it is added to itself.
func TestCodesComeBack(t *testing.T) {
	for code := range uint32(256) {
		l := canvas.Coded(code<<16 | code<<8 | code)
		for _, n := range []int{1, 2, 3, 7, 48} {
			many := make([]canvas.Light, n)
			for i := range many {
				many[i] = l
			}
			r, g, b := exposed(many...)
			assert.Equal(t, [3]uint8{uint8(code), uint8(code), uint8(code)}, [3]uint8{r, g, b}, "%d times", n)
		}
	}
}

// A film is as good as new once it was developed.
func TestDevelopClears(t *testing.T) {
	f, c := canvas.NewFilm(1, 1), canvas.New(1, 1)
	c.Row(0, white)
	f.Add(c)
	f.Develop(1)
	c.Row(0, canvas.Light{})
	f.Add(c)
	assert.Zero(t, f.Develop(1).RGBAAt(0, 0).R)
	assert.Panics(t, func() { f.Develop(1) })
	assert.Panics(t, func() { f.Add(canvas.New(2, 1)) })
}

func TestLightStaysWithinBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := rapid.Uint16()
		l := canvas.Light{R: g.Draw(t, "r"), G: g.Draw(t, "g"), B: g.Draw(t, "b")}
		to := canvas.Light{R: g.Draw(t, "to r"), G: g.Draw(t, "to g"), B: g.Draw(t, "to b")}
		k := rapid.Float64Range(0, 4).Draw(t, "k")
		assert.InDelta(t, min(65535, k*float64(l.R)), float64(l.Times(k).R), 1)
		assert.Equal(t, l, l.Toward(to, 0))
		assert.Equal(t, to, l.Toward(to, 1))
		mid := l.Toward(to, k/4)
		assert.GreaterOrEqual(t, mid.G, min(l.G, to.G))
		assert.LessOrEqual(t, mid.G, max(l.G, to.G))
	})
}
