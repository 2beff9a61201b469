package motionplot

import (
	"io"
	"math"
	"strings"
	"testing"

	"seamrail/motion/scene"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/camera/picture"
	"seamrail/plot/internal/style"
)

// pushIn is the report on a lens of 50 mm focused at 400 mm that pushes in by
// 40 mm and back on a face, at f/16 with a spot of 0.02 mm: its depth of field
// is that of the thin lens, near and far u f2/(f2 +- N c (u - f)).
func pushIn() picture.Report {
	const f, u, n, c, frames = 50.0, 400.0, 16.0, 0.02, 24
	image := f * u / (u - f)
	var r picture.Report
	for k := range int64(frames) {
		phase := 2 * math.Pi * float64(k) / frames
		depth := 420 - 20*(1-math.Cos(phase))
		r.Rows = append(r.Rows, picture.Row{
			Frame: k, Seconds: float64(k) / 24, Magnification: image / depth, Focus: u, Drift: depth - u,
			Near: u * f * f / (f*f + n*c*(u-f)), Far: u * f * f / (f*f - n*c*(u-f)),
			Smear: picture.Smear{Together: 4 * math.Abs(math.Sin(phase))}, Clearance: depth - 60,
		})
	}
	return r
}

func named(t *testing.T, strips []Strip, name string) Strip {
	t.Helper()
	for _, s := range strips {
		if s.Name == name {
			return s
		}
	}
	require.Fail(t, "no strip", name)
	return Strip{}
}

func TestStripsOfAPicture(t *testing.T) {
	strips := FromPicture(pushIn(), scene.Bounds{})
	require.Len(t, strips, 4)
	s := named(t, strips, "smear")
	assert.Equal(t, "at most 4 px, frame 6", s.Note)
	assert.False(t, s.Over)
	m := named(t, strips, "magnification")
	assert.InDelta(t, 50.0/350*400/420, m.Values[0], 1e-12)
	assert.Equal(t, "0.136 to 0.15", m.Note)
	d := named(t, strips, "focus")
	assert.InDelta(t, 20, d.Values[0], 1e-12)
	assert.InDelta(t, -20, d.Values[12], 1e-12)
	assert.InDelta(t, 400*2500/2612.0-400, d.Low[0], 1e-9)
	assert.InDelta(t, 400*2500/2388.0-400, d.High[0], 1e-9)
	assert.True(t, d.Over, "-20 mm is nearer than the -17.1 that are sharp")
	assert.Equal(t, "not sharp at frame 0", d.Note)
	c := named(t, strips, "clearance")
	assert.Equal(t, "least 320 mm, frame 12", c.Note)
	assert.False(t, c.Over)
}

func TestStripsBeyondTheirBounds(t *testing.T) {
	strips := FromPicture(pushIn(), scene.Bounds{SoftSmear: 3, Clearance: 330})
	s := named(t, strips, "smear")
	assert.True(t, s.Over)
	assert.Equal(t, "4 px, frame 6, over 3", s.Note)
	c := named(t, strips, "clearance")
	assert.True(t, c.Over)
	assert.Equal(t, "320 mm, frame 12, 330 asked", c.Note)
	r := pushIn()
	r.Rows[5].Clearance = -1
	assert.Equal(t, "STRIKES at frame 5", named(t, FromPicture(r, scene.Bounds{}), "clearance").Note)
}

// What is not known is left out, and a gap in a curve stays one.
func TestStripsOfWhatIsNotKnown(t *testing.T) {
	r := pushIn()
	for i := range r.Rows {
		r.Rows[i].Smear.Together, r.Rows[i].Clearance = math.NaN(), math.NaN()
		r.Rows[i].Near, r.Rows[i].Far = math.NaN(), math.NaN()
	}
	strips := FromPicture(r, scene.Bounds{})
	require.Len(t, strips, 2)
	assert.Equal(t, "-20 to 20 mm", strips[1].Note)
	assert.False(t, strips[1].Over)
	assert.Empty(t, FromPicture(picture.Report{}, scene.Bounds{}))

	gap := Strip{Values: []float64{math.NaN(), 1, 2, math.Inf(1), 3, math.NaN()}}
	assert.Equal(t, [][2]int{{1, 3}, {4, 5}}, gap.runs())
	assert.Equal(t, [][2]int{{0, 2}}, Strip{Values: []float64{1, 2}}.runs())
}

func TestPictureTakesThePlaceOfRatesAndSeam(t *testing.T) {
	d := lantern()
	assert.EqualError(t, Draw(io.Discard, "svg", d, Options{Picture: true}), "nothing to draw: nothing is known of the picture")
	d.Strips = FromPicture(pushIn(), scene.Bounds{})
	d.Strips[0].Values[3] = math.NaN()
	for _, format := range style.Formats {
		require.NoError(t, Draw(io.Discard, format, d, Options{Picture: true}))
	}
	svg := string(drawn(t, "svg", d, Options{Picture: true}))
	for _, text := range []string{"position, mm", "smear", "magnification", "focus", "clearance", "sharp", "not sharp at frame 0"} {
		assert.Contains(t, svg, ">"+text+"<")
	}
	assert.NotContains(t, svg, "NaN")
	assert.NotContains(t, svg, "The seam, magnified")
	assert.NotContains(t, svg, "acceleration")
	assert.NotContains(t, string(drawn(t, "svg", d, Options{})), "magnification")
}

// A bound far from the curve would squeeze it flat and is not drawn.
func TestLevelsFarOffAreLeftOut(t *testing.T) {
	s := Strip{Values: []float64{300, 320}, Levels: []Level{{0, "strikes"}, {290, "asked"}}}
	pan := style.Panel{Top: stripPlot}
	shown := s.frame(&pan)
	assert.Equal(t, []Level{{290, "asked"}}, shown)
	assert.Greater(t, pan.Y0, 200.0)
	s.Levels = []Level{{310, "asked"}, {311, "crowded"}, {301, "apart"}}
	assert.Equal(t, []Level{{310, "asked"}, {301, "apart"}}, s.frame(&pan))
	s.Zero = true
	s.frame(&pan)
	assert.LessOrEqual(t, pan.Y0, 0.0)
}

func TestThinningKeepsPeaks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 5000).Draw(t, "n")
		at := rapid.IntRange(0, n-1).Draw(t, "peak")
		xs, ys := make([]float64, n), make([]float64, n)
		for i := range xs {
			xs[i], ys[i] = float64(i), math.Sin(float64(i))
		}
		ys[at] = rapid.SampledFrom([]float64{9, -9}).Draw(t, "size")
		x, y := thinned(xs, ys)
		assert.LessOrEqual(t, len(x), 2*samples)
		assert.Contains(t, y, ys[at])
		for i := 1; i < len(x); i++ {
			assert.LessOrEqual(t, x[i-1], x[i])
		}
	})
}

func TestShortNumbers(t *testing.T) {
	for v, want := range map[float64]string{2.369: "2.37", -30.95: "-31", 0.1387: "0.139", 0: "0", 1234: "1230", 99.96: "100"} {
		assert.Equal(t, want, short(v))
	}
	assert.False(t, strings.Contains(short(math.NaN()), "NaN"))
}

// A loop of two minutes and a half at 120 a second: as many rows as are looked
// at one by one.
func BenchmarkDrawPicture(b *testing.B) {
	d, r := lantern(), pushIn()
	for len(r.Rows) < 20_000 {
		r.Rows = append(r.Rows, r.Rows[len(r.Rows)-24])
	}
	for i := range r.Rows {
		r.Rows[i].Seconds = d.Period * float64(i) / float64(len(r.Rows))
	}
	for b.Loop() {
		d.Strips = FromPicture(r, scene.Bounds{})
		if err := Draw(io.Discard, "svg", d, Options{Picture: true}); err != nil {
			b.Fatal(err)
		}
	}
}

// Light is drawn as a share of that in the brightest frame, where a lamp changes: two
// stops under it are a quarter.
func TestLightIsDrawnWhereItChanges(t *testing.T) {
	nan := math.NaN()
	row := func(k int64, under float64) picture.Row {
		return picture.Row{Frame: k, Seconds: float64(k) / 24, Magnification: nan, Smear: picture.Smear{Together: nan},
			Drift: nan, Near: nan, Far: nan, Clearance: nan, Under: under}
	}
	r := picture.Report{Fades: true, Rows: []picture.Row{row(0, 2), row(1, 0), row(2, 1)}}
	strips := FromPicture(r, scene.Bounds{})
	require.Len(t, strips, 1)
	assert.Equal(t, []float64{25, 100, 50}, strips[0].Values)
	assert.Equal(t, "down by 2 stops, frame 0", strips[0].Note)
	r.Rows[0].Under = math.Inf(1)
	assert.Equal(t, "down to nothing, frame 0", FromPicture(r, scene.Bounds{})[0].Note)
	r.Fades = false
	assert.Empty(t, FromPicture(r, scene.Bounds{}))
}
