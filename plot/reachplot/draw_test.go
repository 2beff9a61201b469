package reachplot

import (
	"bytes"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/require"
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

func TestScratch(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, Draw(&b, "png", example()))
	os.WriteFile("/tmp/h6-reach.png", b.Bytes(), 0o644)
}
