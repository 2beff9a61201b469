package vibration

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/law"
	"seamrail/motion/vibration/spring"
)

func named(t testing.TB, name string) law.Law {
	t.Helper()
	l, err := law.Named(name)
	require.NoError(t, err)
	return l
}

func sinc(x float64) float64 {
	if x == 0 {
		return 1
	}
	return math.Sin(math.Pi*x) / (math.Pi * x)
}

// sphericalBessel is j_n(x) for n = 2 and 3 in closed form (Abramowitz and
// Stegun, 10.1.11).
func sphericalBessel(n int, x float64) float64 {
	sin, cos := math.Sincos(x)
	if n == 2 {
		return (3/(x*x*x)-1/x)*sin - 3/(x*x)*cos
	}
	return (15/(x*x*x*x)-6/(x*x))*sin - (15/(x*x*x)-1/x)*cos
}

// The undamped residual spectra. Those of the first four are the closed forms
// of R. S. Ayre's chapter of the Shock and Vibration Handbook. The speed of the
// polynomials is a power of 1-x^2 over x in [-1, 1], whose cosine transform is
// a spherical Bessel function (Poisson's integral, Abramowitz and Stegun
// 10.1.14): 15 j2(w)/w^2 and 105 j3(w)/w^3 with w = pi r.
var spectra = map[string]func(r float64) float64{
	"uniform":     sinc,
	"harmonic":    func(r float64) float64 { return math.Cos(math.Pi*r) / (1 - 4*r*r) },
	"cycloidal":   func(r float64) float64 { return sinc(r) / (1 - r*r) },
	"trapezoidal": func(r float64) float64 { return sinc(2*r/3) * sinc(r/3) },
	"3-4-5":       func(r float64) float64 { w := math.Pi * r; return 15 * sphericalBessel(2, w) / (w * w) },
	"4-5-6-7":     func(r float64) float64 { w := math.Pi * r; return 105 * sphericalBessel(3, w) / (w * w * w) },
}

// spectrumSlack is a few hundred roundings of a sum of a few dozen terms; the
// Bessel functions lose as much again below half a swing.
const spectrumSlack = 3e-13

func TestResidualSpectra(t *testing.T) {
	for name, form := range spectra {
		l := named(t, name)
		rapid.Check(t, func(t *rapid.T) {
			r := rapid.Float64Range(0.45, 12).Draw(t, "r")
			if math.Abs(r-0.5) < 1e-3 || math.Abs(r-1) < 1e-3 {
				t.Skip("the closed forms divide nothing by nothing")
			}
			f := rapid.Float64Range(0.2, 300).Draw(t, "f")
			got := Residual(spring.Spring{Frequency: f}, l, r/f)
			assert.InDelta(t, math.Abs(form(r)), got, spectrumSlack, "%s at r = %g", name, r)
		})
	}
}

// The table is of the same closed forms, computed apart from this program to
// the four digits shown.
func TestResidualTable(t *testing.T) {
	for _, c := range []struct {
		r                               float64
		harmonic, cycloidal, thirds, mj float64
	}{
		{0.5, math.Pi / 4, .8488, .7897, .8354},
		{1, 1. / 3, .5, .3420, .4620},
		{1.5, 0, .1698, 0, .1240},
		{2, .0667, 0, .0855, .0289},
		{2.5, 0, .0243, .0316, .0295},
		{3, .0286, 0, 0, .0057},
	} {
		s := spring.Spring{Frequency: 5}
		for name, want := range map[string]float64{
			"harmonic": c.harmonic, "cycloidal": c.cycloidal, "trapezoidal": c.thirds, "3-4-5": c.mj,
		} {
			assert.InDelta(t, want, Residual(s, named(t, name), c.r/5), 0.5e-4, "%s at r = %g", name, c.r)
		}
	}
}

// Up to a swing and a half every smoother law leaves more than the harmonic.
func TestSmootherLawsShakeMoreOnShortMoves(t *testing.T) {
	s := spring.Spring{Frequency: 8}
	for r := 0.5; r <= 1.6; r += 0.05 {
		plain := Residual(s, named(t, "harmonic"), r/8)
		for _, name := range []string{"cycloidal", "3-4-5", "4-5-6-7", "modified-sine"} {
			assert.Greater(t, Residual(s, named(t, name), r/8), plain, "%s at r = %g", name, r)
		}
	}
	for _, name := range []string{"cycloidal", "3-4-5", "4-5-6-7"} {
		assert.Less(t, Residual(s, named(t, name), 6.2/8), Residual(s, named(t, "harmonic"), 6.2/8), "a long move by %s", name)
	}
}

// TestDampedResidual compares with classical Runge-Kutta steps.
func TestDampedResidual(t *testing.T) {
	for _, l := range law.All() {
		if l.Name() == "uniform" {
			continue // its impulses are no right-hand side
		}
		s, sec := spring.Spring{Frequency: 3, Damping: 0.07}, 0.41
		want := s.Swing(integrated(s, func(t float64) float64 { return l.At(t/sec).A / (sec * sec) }, breaksOf(l, sec)))
		assert.InDelta(t, want, Residual(s, l, sec), 1e-9, l.Name())
	}
}

func breaksOf(l law.Law, sec float64) []float64 {
	out := []float64{0}
	if b, ok := l.(law.Breaker); ok {
		for _, u := range b.Breaks() {
			out = append(out, u*sec)
		}
	}
	return append(out, sec)
}

// integrated is the state at the last break, from rest, by steps of the
// classical fourth order; accelerations are taken inside each stretch.
func integrated(s spring.Spring, acc func(float64) float64, breaks []float64) spring.State {
	const steps = 2000
	w := s.Omega()
	var x spring.State
	for i := 0; i+1 < len(breaks); i++ {
		from, to := breaks[i], breaks[i+1]
		h := (to - from) / steps
		slope := func(t float64, x spring.State) spring.State {
			in := math.Min(math.Max(t, from+1e-12), to-1e-12)
			return spring.State{Pos: x.Vel, Vel: -2*s.Damping*w*x.Vel - w*w*x.Pos - acc(in)}
		}
		for k := range steps {
			t := from + h*float64(k)
			a := slope(t, x)
			b := slope(t+h/2, spring.State{Pos: x.Pos + h/2*a.Pos, Vel: x.Vel + h/2*a.Vel})
			c := slope(t+h/2, spring.State{Pos: x.Pos + h/2*b.Pos, Vel: x.Vel + h/2*b.Vel})
			d := slope(t+h, spring.State{Pos: x.Pos + h*c.Pos, Vel: x.Vel + h*c.Vel})
			x.Pos += h / 6 * (a.Pos + 2*b.Pos + 2*c.Pos + d.Pos)
			x.Vel += h / 6 * (a.Vel + 2*b.Vel + 2*c.Vel + d.Vel)
		}
	}
	return x
}

// The cycloidal law leaves nothing after 2, 3, 4 swings, the harmonic after
// 1.5, 2.5 and so on: zeros of the spectra above.
func TestCleanDurations(t *testing.T) {
	frame := exact.New(1, 120)
	s := spring.Spring{Frequency: 4} // 30 frames a swing
	var got []int64
	for _, c := range CleanDurations(s, named(t, "cycloidal"), frame, 20, 130) {
		got = append(got, c.Frames)
		assert.InDelta(t, 0, c.Left, spectrumSlack)
		assert.Equal(t, exact.New(c.Frames, 120), c.Seconds)
	}
	assert.Equal(t, []int64{60, 90, 120}, got)
	got = nil
	for _, c := range CleanDurations(s, named(t, "harmonic"), frame, 20, 110) {
		got = append(got, c.Frames)
	}
	assert.Equal(t, []int64{45, 75, 105}, got)
	best := Best(CleanDurations(s, named(t, "3-4-5"), frame, 20, 130), 2)
	require.Len(t, best, 2)
	assert.LessOrEqual(t, best[0].Left, best[1].Left)
	assert.Panics(t, func() { CleanDurations(s, named(t, "3-4-5"), frame, 0, 3) })
}

func TestResidualPanics(t *testing.T) {
	l := named(t, "3-4-5")
	assert.Panics(t, func() { Residual(spring.Spring{}, l, 1) })
	assert.Panics(t, func() { Residual(spring.Spring{Frequency: 5}, l, 0) })
	assert.Panics(t, func() { Residual(spring.Spring{Frequency: 5}, l, math.NaN()) })
}

func BenchmarkResidual(b *testing.B) {
	s, l := spring.Spring{Frequency: 6, Damping: 0.03}, named(b, "3-4-5")
	for b.Loop() {
		Residual(s, l, 0.4)
	}
}
