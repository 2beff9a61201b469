package law

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// closedForm bounds the rounding of a closed form against its published one.
const closedForm = 1e-9

// handbook bounds a printed table: it shows 5.777 for 10/sqrt 3 = 5.7735 and
// 7.526 for 84 sqrt 5/25 = 7.5132, so its fourth digit is not to be trusted.
const handbook = 2e-3

func named(t testing.TB, name string) Law {
	t.Helper()
	l, err := Named(name)
	require.NoError(t, err)
	return l
}

// The closed forms and the printed values are those of R. L. Norton, Design of
// Machinery, cam chapter, and VDI 2143-1. What is printed is from memory: the
// closed forms beside it hold it. It is 0 where no value is remembered.
var published = []struct {
	name    string
	peaks   [3]float64
	printed [3]float64
}{
	{"uniform", [3]float64{1, 0, 0}, [3]float64{1, 0, 0}},
	{"harmonic", [3]float64{math.Pi / 2, math.Pi * math.Pi / 2, math.Pow(math.Pi, 3) / 2}, [3]float64{1.571, 4.935, 15.50}},
	{"cycloidal", [3]float64{2, 2 * math.Pi, 4 * math.Pi * math.Pi}, [3]float64{2, 6.283, 39.478}},
	{"modified-trapezoid", [3]float64{2, 8 * math.Pi / (math.Pi + 2), 32 * math.Pi * math.Pi / (math.Pi + 2)}, [3]float64{2, 4.888, 61.426}},
	{"modified-sine", [3]float64{4 * math.Pi / (math.Pi + 4), 4 * math.Pi * math.Pi / (math.Pi + 4), 16 * math.Pow(math.Pi, 3) / (math.Pi + 4)}, [3]float64{1.760, 5.528, 69.466}},
	{"3-4-5", [3]float64{15. / 8, 10 / math.Sqrt(3), 60}, [3]float64{1.875, 5.777, 60}},
	{"4-5-6-7", [3]float64{35. / 16, 84 * math.Sqrt(5) / 25, 52.5}, [3]float64{2.188, 7.526, 52.5}},
	{"trapezoidal", [3]float64{1.5, 4.5, math.Inf(1)}, [3]float64{1.5, 4.5, math.Inf(1)}},
	// Thirds of thirds, from the areas under speed and acceleration:
	// 3/2, 3/2 / (2/9), 27/4 / (1/9).
	{"seven-segment", [3]float64{1.5, 6.75, 60.75}, [3]float64{}},
}

func TestPeakFactors(t *testing.T) {
	require.Len(t, published, len(All()), "a law without a published check")
	for _, c := range published {
		p := named(t, c.name).Peaks()
		for i, got := range []float64{p.V, p.A, p.J} {
			assertRelative(t, c.peaks[i], got, closedForm, c.name)
			if c.printed[i] != 0 {
				assertRelative(t, c.printed[i], got, handbook, c.name)
			}
		}
	}
}

func assertRelative(t *testing.T, want, got, tolerance float64, what string) {
	t.Helper()
	if want == got { // both infinite, or both nothing
		return
	}
	assert.InDelta(t, want, got, tolerance*math.Abs(want), what)
}

// samples are enough that a smooth peak lies within 1e-9 of a sampled one:
// the nearest is within 1/2^14 of it, and the worst curvature is about 600.
const samples = 1 << 13

// TestPeaksAreTheGreatest looks for a greater value between the ends, and for
// the peak where it is said to be.
func TestPeaksAreTheGreatest(t *testing.T) {
	const room = 1 + 1e-12 // rounding of a few operations
	for _, l := range everyLaw(t) {
		p := l.Peaks()
		for i := range samples + 1 {
			at := l.At(float64(i) / samples)
			require.LessOrEqual(t, math.Abs(at.V), p.V*room, l.Name())
			require.LessOrEqual(t, math.Abs(at.A), p.A*room, l.Name())
			require.LessOrEqual(t, math.Abs(at.J), p.J*room, l.Name())
		}
		assertRelative(t, p.V, math.Abs(l.At(p.AtV).V), closedForm, l.Name())
		assertRelative(t, p.A, math.Abs(l.At(p.AtA).A), closedForm, l.Name())
		if !math.IsInf(p.J, 1) {
			assertRelative(t, p.J, math.Abs(l.At(p.AtJ).J), closedForm, l.Name())
			continue
		}
		near := 1e-9 // of a break: far above rounding, far below a ramp
		jump := l.At(p.AtJ+near).A - l.At(p.AtJ-near).A
		assert.Greater(t, math.Abs(jump), 1., "%s: no jump of acceleration where jerk is unbounded", l.Name())
	}
}

// TestPeaksComeFirst finds no sample as great before the stated place. A
// hundredth before a peak, every law is below it by more than slack: a wave of
// acceleration by (2 pi/100)^2/2, a cosine of jerk by more, and speed, whose
// top is the flattest, by (pi/100)^2/2.
func TestPeaksComeFirst(t *testing.T) {
	const clear, slack = 0.01, 1e-4
	for _, l := range everyLaw(t) {
		p := l.Peaks()
		for i := range samples {
			u := float64(i) / samples
			at := l.At(u)
			if u < p.AtV-clear {
				require.Less(t, math.Abs(at.V), p.V*(1-slack), l.Name())
			}
			if u < p.AtA-clear {
				require.Less(t, math.Abs(at.A), p.A*(1-slack), l.Name())
			}
			if u < p.AtJ-clear && !math.IsInf(p.J, 1) {
				require.Less(t, math.Abs(at.J), p.J*(1-slack), l.Name())
			}
		}
	}
}

// everyLaw is every named law and a few made to measure, degenerate ones
// among them.
func everyLaw(t testing.TB) []Law {
	laws := All()
	for _, ramp := range []float64{0.01, 0.2, 0.5} {
		l, err := Trapezoidal(ramp)
		require.NoError(t, err)
		laws = append(laws, l)
		for _, share := range []float64{0.05, 0.3, 0.5} {
			l, err := SevenSegment(ramp, share)
			require.NoError(t, err)
			laws = append(laws, l)
		}
	}
	return laws
}
