package reachplot

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

// example has the shape of true curves: at a limit of acceleration a loop
// grows with the root of the travel, by each law's own factor.
func example() Data {
	d := Data{
		Title: "How short a loop can be",
		Lines: []string{"rail, there and back, captured at 119.88, played at 23.976"},
		Unit:  "mm", Whole: 400,
		Shot: &Point{Name: "this shot", Travel: 60, Screen: 6.006},
	}
	for _, c := range []struct {
		name   string
		factor float64
	}{{"harmonic", 4.93}, {"cycloidal", 6.28}, {"modified-trapezoid", 4.89}, {"modified-sine", 5.53},
		{"3-4-5", 5.77}, {"4-5-6-7", 7.51}, {"trapezoidal", 4.5}, {"seven-segment", 6}} {
		var curve Curve
		curve.Name = c.name
		for x := 10.0; x <= 400; x += 10 {
			curve.Travel = append(curve.Travel, x)
			curve.Screen = append(curve.Screen, 10*math.Sqrt(c.factor*x/3000))
		}
		d.Curves = append(d.Curves, curve)
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

func TestEveryCurveIsNamedAtItsEnd(t *testing.T) {
	d := example()
	svg := string(drawn(t, "svg", d))
	for _, c := range d.Curves {
		assert.Contains(t, svg, ">"+c.Name+"<")
	}
	assert.Contains(t, svg, ">this shot<")
	assert.Contains(t, svg, ">end of travel<")
	d.Whole, d.Shot = 0, nil
	svg = string(drawn(t, "svg", d))
	assert.NotContains(t, svg, "this shot")
	assert.NotContains(t, svg, "end of travel")
}

// TestCurvesOfEveryLength has laws that can do no travel, or one alone.
func TestCurvesOfEveryLength(t *testing.T) {
	d := example()
	d.Curves[0] = Curve{Name: "never"}
	d.Curves[1] = Curve{Name: "once", Travel: []float64{40}, Screen: []float64{3}}
	svg := string(drawn(t, "svg", d))
	assert.NotContains(t, svg, ">never<")
	assert.Contains(t, svg, ">once<")
	assert.NotContains(t, svg, "NaN")
}

func TestWhatCannotBeDrawn(t *testing.T) {
	assert.EqualError(t, Draw(io.Discard, "", example()),
		`format "" is not drawn here; use one of png, svg, pdf`)
	assert.ErrorContains(t, Draw(io.Discard, "png", Data{Curves: []Curve{{Name: "never"}}}), "no law has a loop")
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
