package law

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/integrate"
	"pgregory.net/rapid"
)

// panels of Simpson's rule in each smooth stretch: with 1/256 of a stretch as
// its step, its error is below 256^-4 of the fourth derivative, over 180.
const panels = 256

// simpson bounds that error for integrands whose fourth derivative is up to
// 1e4 in size.
const simpson = 1e-6

// over integrates f of the law and u by Simpson's rule between breaks.
func over(l Law, from, to float64, f func(u float64, p Point) float64) float64 {
	sum := 0.
	ends := append(breaks(l), 1)
	for _, end := range ends {
		if end <= from {
			continue
		}
		end = min(end, to)
		if end <= from {
			break
		}
		x, y := make([]float64, panels+1), make([]float64, panels+1)
		for i := range x {
			x[i] = from + (end-from)*float64(i)/panels
			u := x[i]
			if i == panels { // stay on this side of a jump
				u = math.Nextafter(u, 0)
			}
			y[i] = f(x[i], l.At(u))
		}
		sum += integrate.Simpsons(x, y)
		from = end
	}
	return sum
}

// TestIntegrals gets speed from acceleration, and travel from speed.
func TestIntegrals(t *testing.T) {
	laws := everyLaw(t)
	rapid.Check(t, func(t *rapid.T) {
		l := rapid.SampledFrom(laws).Draw(t, "law")
		u := rapid.Float64Range(1e-3, 1).Draw(t, "u")
		start := l.At(0)
		s := over(l, 0, u, func(_ float64, p Point) float64 { return p.V })
		v := over(l, 0, u, func(_ float64, p Point) float64 { return p.A })
		require.InDelta(t, l.At(u).S, s, simpson)
		require.InDelta(t, l.At(u).V-start.V, v, simpson)
		if !math.IsInf(l.Peaks().J, 1) {
			a := over(l, 0, u, func(_ float64, p Point) float64 { return p.J })
			require.InDelta(t, l.At(u).A-start.A, a, simpson*10)
		}
	})
}

func squaredJerk(l Law) float64 {
	return over(l, 0, 1, func(_ float64, p Point) float64 { return p.J * p.J })
}

// TestMinimumJerk: the integral of squared jerk of 3-4-5 is 720, and every
// other law at rest with no acceleration at its ends has more (Flash and Hogan
// 1985).
func TestMinimumJerk(t *testing.T) {
	least := squaredJerk(named(t, "3-4-5"))
	require.InDelta(t, 720, least, 720*simpson)
	compared := 0
	for _, l := range everyLaw(t) {
		if l.Name() == "3-4-5" || l.At(0).A != 0 || l.Name() == "uniform" {
			continue
		}
		compared++
		assert.Greater(t, squaredJerk(l), least, l.Name())
	}
	assert.GreaterOrEqual(t, compared, 5)
}

// TestMinimumJerkIsStationary adds u^3 (1-u)^3 (c0 + c1 u), which keeps the
// ends at rest, and gains jerk by it, as the cross term is nothing.
func TestMinimumJerkIsStationary(t *testing.T) {
	l := named(t, "3-4-5")
	bump := func(u, c0, c1 float64) float64 { // its third derivative
		// u^3 - 3u^4 + 3u^5 - u^6, and the same times u.
		d0 := 6 - 72*u + 180*u*u - 120*u*u*u
		d1 := 24*u - 180*u*u + 360*u*u*u - 210*u*u*u*u
		return c0*d0 + c1*d1
	}
	rapid.Check(t, func(t *rapid.T) {
		c0 := rapid.Float64Range(-5, 5).Draw(t, "c0")
		c1 := rapid.Float64Range(-5, 5).Draw(t, "c1")
		cross := over(l, 0, 1, func(u float64, p Point) float64 { return p.J * bump(u, c0, c1) })
		require.InDelta(t, 0, cross, 1e-4)
	})
}

// residual is how far an undamped spring swings after the move, as a share of
// the travel: the size of the speed curve's Fourier integral at r = T f swings
// a move.
func residual(l Law, r float64) float64 {
	re := over(l, 0, 1, func(u float64, p Point) float64 { return p.V * math.Cos(2*math.Pi*r*u) })
	im := over(l, 0, 1, func(u float64, p Point) float64 { return p.V * math.Sin(2*math.Pi*r*u) })
	return math.Hypot(re, im)
}

// TestResidualVibration compares with the table of residual amplitudes of each
// pulse (R. S. Ayre in the Shock and Vibration Handbook; values from memory:
// their closed forms give the four digits shown).
func TestResidualVibration(t *testing.T) {
	const digits = 6e-5 // half of the fourth digit, and a little
	r := []float64{0.5, 1, 1.5, 2, 2.5, 3}
	for name, want := range map[string][]float64{
		"harmonic":    {math.Pi / 4, 1. / 3, 0, .0667, 0, .0286},
		"cycloidal":   {.8488, .5, .1698, 0, .0243, 0},
		"trapezoidal": {.7897, .3420, 0, .0855, .0316, 0},
		"3-4-5":       {.8354, .4620, .1240, .0289, .0295, .0057},
	} {
		for i := range r {
			assert.InDelta(t, want[i], residual(named(t, name), r[i]), digits, "%s at %v", name, r[i])
		}
	}
}
