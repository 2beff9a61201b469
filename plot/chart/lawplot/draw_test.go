package lawplot

import (
	"bytes"
	"errors"
	"image/png"
	"io"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/law"
	"seamrail/plot/internal/style"
)

func example() Data {
	return Data{
		Title: "Laws for one pass of the rail",
		Lines: []string{"60 mm in 0.5506 s, from rest to rest"},
		Unit:  "mm", Travel: 60, Seconds: 0.5506, Laws: law.All(),
		Speed: 400, Acc: 1300, Jerk: 60000,
	}
}

func drawn(t *testing.T, format string, d Data, opt Options) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, Draw(&b, format, d, opt))
	return b.Bytes()
}

func TestEveryFormatIsDrawnTheSameTwice(t *testing.T) {
	for _, format := range []string{"png", "svg"} {
		assert.True(t, bytes.Equal(drawn(t, format, example(), Options{}), drawn(t, format, example(), Options{})), format)
	}
	assert.True(t, bytes.HasPrefix(drawn(t, "pdf", example(), Options{}), []byte("%PDF-1.")))
}

func TestJerkAddsAPanel(t *testing.T) {
	size := func(opt Options) int {
		c, err := png.DecodeConfig(bytes.NewReader(drawn(t, "png", example(), opt)))
		require.NoError(t, err)
		assert.Equal(t, 1080, c.Width)
		return c.Height
	}
	// One pixel: each height is rounded on its own.
	assert.InDelta(t, float64(titleRoom+plotHeight+rowGap)*style.DPI/72, size(Options{Jerk: true})-size(Options{}), 1)
}

func TestTheKeyNamesEveryLawAndWhatIsOver(t *testing.T) {
	svg := string(drawn(t, "svg", example(), Options{}))
	for _, name := range law.Names() {
		assert.Contains(t, svg, ">"+name+"<")
	}
	assert.Contains(t, svg, ">limit 1300 mm/s²<")
	assert.Contains(t, svg, ">over  1487<", "4-5-6-7 passes 1300 mm/s²")
	assert.NotContains(t, svg, "NaN")
}

// TestPeaksFromRest uses peak factors of Norton, Design of Machinery, cam
// chapter: 3-4-5 speed 15/8; harmonic acceleration pi^2/2, its jerk unbounded
// from rest.
func TestPeaksFromRest(t *testing.T) {
	d := Data{Travel: 2, Seconds: 0.5}
	get := func(name string, r row) float64 {
		l, err := law.Named(name)
		require.NoError(t, err)
		return d.peak(l, r)
	}
	assert.InDelta(t, 15.0/8*2/0.5, get("3-4-5", all[1]), 1e-12)
	assert.InDelta(t, math.Pi*math.Pi/2*2/0.25, get("harmonic", all[2]), 1e-12)
	assert.True(t, math.IsInf(get("harmonic", all[3]), 1))
	assert.True(t, math.IsInf(get("uniform", all[2]), 1))
	assert.Equal(t, 4.0, get("uniform", all[1]))
}

func TestACurveStartsAndEndsAtRest(t *testing.T) {
	d := example()
	for _, l := range d.Laws {
		for _, r := range all[1:] {
			xs, ys := d.sample(l, r)
			assert.Zero(t, ys[0])
			assert.Zero(t, ys[len(ys)-1])
			assert.Equal(t, d.Seconds, xs[len(xs)-1])
		}
	}
}

func TestWhatCannotBeDrawn(t *testing.T) {
	assert.EqualError(t, Draw(io.Discard, "jpeg", example(), Options{}),
		`format "jpeg" is not drawn here; use one of png, svg, pdf`)
	for name, spoil := range map[string]func(*Data){
		"no laws": func(d *Data) { d.Laws = nil },
		"travel":  func(d *Data) { d.Travel = -1 },
		"time":    func(d *Data) { d.Seconds = math.NaN() },
	} {
		d := example()
		spoil(&d)
		assert.ErrorContains(t, Draw(io.Discard, "png", d, Options{}), "nothing to compare", name)
	}
}

var errFull = errors.New("disk full")

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errFull }

func TestAFailingWriterIsReported(t *testing.T) {
	for _, format := range style.Formats {
		assert.ErrorIs(t, Draw(full{}, format, example(), Options{}), errFull, format)
	}
}

func BenchmarkDraw(b *testing.B) {
	for _, format := range style.Formats {
		b.Run(format, func(b *testing.B) {
			for b.Loop() {
				if err := Draw(io.Discard, format, example(), Options{Jerk: true}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
