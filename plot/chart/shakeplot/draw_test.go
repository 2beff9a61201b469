package shakeplot

import (
	"bytes"
	"errors"
	"image/png"
	"io"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/plot/internal/style"
)

// example has the shape of true curves: a spectrum of residuals and a swing
// that fades.
func example() Data {
	d := Data{
		Title: "After-shake of the rail", Notes: []string{"6 Hz, damping 3 %"}, Unit: "mm", Period: 1. / 6,
		Shot: &Point{"this shot", 0.3, 4}, Pixel: 0.1,
	}
	for _, name := range []string{"harmonic", "cycloidal", "3-4-5", "modified-sine", "trapezoidal"} {
		c := Curve{Name: name}
		for x := 0.05; x < 0.8; x += 0.005 {
			c.Seconds = append(c.Seconds, x)
			c.Swing = append(c.Swing, 30*math.Abs(math.Sin(6*math.Pi*x)/(1+40*x*x*float64(len(d.Curves)+1))))
		}
		d.Curves = append(d.Curves, c)
	}
	for _, name := range []string{"as it is", "zv"} {
		l := Line{Name: name}
		for x := 0.0; x < 6; x += 0.02 {
			l.Screen = append(l.Screen, x)
			l.Units = append(l.Units, math.Exp(-x)*math.Cos(9*x)/float64(1+10*len(d.Lines)))
		}
		d.Lines = append(d.Lines, l)
	}
	return d
}

func drawn(t *testing.T, format string, d Data) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, Draw(&b, format, d))
	return b.Bytes()
}

func TestEveryFormatIsDrawnTheSameTwice(t *testing.T) {
	for _, format := range []string{"png", "svg"} {
		assert.True(t, bytes.Equal(drawn(t, format, example()), drawn(t, format, example())), format)
	}
	assert.True(t, bytes.HasPrefix(drawn(t, "pdf", example()), []byte("%PDF-1.")))
	c, err := png.DecodeConfig(bytes.NewReader(drawn(t, "png", example())))
	require.NoError(t, err)
	assert.Equal(t, 1080, c.Width)
}

func TestEveryCurveIsNamed(t *testing.T) {
	d := example()
	svg := string(drawn(t, "svg", d))
	for _, c := range d.Curves {
		assert.Contains(t, svg, ">"+c.Name+"<")
	}
	for _, text := range []string{"this shot", "as it is", "zv", "1 swing", "3 swings", "seconds on screen"} {
		assert.Contains(t, svg, ">"+text+"<")
	}
	d.Lines, d.Shot = nil, nil
	svg = string(drawn(t, "svg", d))
	assert.NotContains(t, svg, "this shot")
	assert.NotContains(t, svg, "seconds on screen")
	d.Lines = []Line{{"still", []float64{0, 1}, []float64{0, 0}}}
	assert.NotContains(t, string(drawn(t, "svg", d)), "NaN")
}

func TestWhatCannotBeDrawn(t *testing.T) {
	assert.EqualError(t, Draw(io.Discard, "", example()), `format "" is not drawn here; use one of png, svg, pdf`)
	assert.ErrorContains(t, Draw(io.Discard, "png", Data{Period: 1}), "nothing to draw")
	d := example()
	d.Period = 0
	assert.ErrorContains(t, Draw(io.Discard, "png", d), "nothing to draw")
}

var errFull = errors.New("disk full")

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errFull }

func TestAFailingWriterIsReported(t *testing.T) {
	for _, format := range style.Formats {
		assert.ErrorIs(t, Draw(full{}, format, example()), errFull, format)
	}
}

func BenchmarkDraw(b *testing.B) {
	for _, format := range style.Formats {
		b.Run(format, func(b *testing.B) {
			for b.Loop() {
				if err := Draw(io.Discard, format, example()); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
