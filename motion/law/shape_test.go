package law

import (
	"math"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/diff/fd"
	"pgregory.net/rapid"
)

// rounding bounds a few operations on numbers near 1.
const rounding = 1e-14

func TestEnds(t *testing.T) {
	for _, l := range everyLaw(t) {
		for _, u := range []float64{0, -1, math.Inf(-1)} {
			assert.Equal(t, l.At(0), l.At(u), l.Name())
		}
		for _, u := range []float64{1, 2, math.Inf(1)} {
			assert.Equal(t, l.At(1), l.At(u), l.Name())
		}
		assert.Zero(t, l.At(0).S, l.Name())
		assert.Equal(t, 1., l.At(1).S, l.Name())
		if l.Name() == "uniform" {
			continue
		}
		assert.Zero(t, l.At(0).V, l.Name())
		assert.Zero(t, l.At(1).V, l.Name())
		soft := l.Name() != "harmonic" && l.Name() != "trapezoidal"
		assert.Equal(t, soft, l.At(0).A == 0, l.Name())
		assert.Equal(t, soft, l.At(1).A == 0, l.Name())
	}
}

func TestSymmetry(t *testing.T) {
	laws := everyLaw(t)
	rapid.Check(t, func(t *rapid.T) {
		l := rapid.SampledFrom(laws).Draw(t, "law")
		u := rapid.Float64Range(0, 1).Draw(t, "u")
		if nearBreak(l, u, 1e-9) { // each side of a jump has its own value
			t.Skip()
		}
		p, q, peaks := l.At(u), l.At(1-u), l.Peaks()
		assert.InDelta(t, 1, p.S+q.S, rounding)
		assert.InDelta(t, 0, p.V-q.V, rounding*peaks.A+rounding)
		assert.InDelta(t, 0, p.A+q.A, rounding*bound(peaks.J, peaks.A))
		assert.InDelta(t, 0, p.J-q.J, rounding*bound(peaks.J, 0)*1e3)
	})
}

// bound is f, or 1 + g where f is no number to scale by.
func bound(f, g float64) float64 {
	if math.IsInf(f, 1) {
		return 1 + g
	}
	return 1 + f
}

func TestNeverBackwards(t *testing.T) {
	laws := everyLaw(t)
	rapid.Check(t, func(t *rapid.T) {
		l := rapid.SampledFrom(laws).Draw(t, "law")
		a := rapid.Float64Range(0, 1).Draw(t, "a")
		b := rapid.Float64Range(a, 1).Draw(t, "b")
		assert.LessOrEqual(t, l.At(a).S, l.At(b).S+rounding)
		assert.GreaterOrEqual(t, l.At(a).V, 0.)
		assert.GreaterOrEqual(t, l.At(a).S, 0.)
		assert.LessOrEqual(t, l.At(a).S, 1.)
	})
}

// step of the finite difference: its error is step^2/6 times a third
// derivative, and rounding over step.
const step = 1e-5

func TestDerivatives(t *testing.T) {
	laws := everyLaw(t)
	rapid.Check(t, func(t *rapid.T) {
		l := rapid.SampledFrom(laws).Draw(t, "law")
		u := rapid.Float64Range(2*step, 1-2*step).Draw(t, "u")
		if nearBreak(l, u, 2*step) {
			t.Skip()
		}
		p := l.At(u)
		// The central difference of s is out by step^2/6 of the jerk.
		cubic := 1.01 * step * step / 6 * math.Abs(p.J)
		checkSlope(t, func(u float64) float64 { return l.At(u).S }, u, p.V, cubic)
		checkSlope(t, func(u float64) float64 { return l.At(u).V }, u, p.A, 0)
		checkSlope(t, func(u float64) float64 { return l.At(u).A }, u, p.J, 0)
	})
}

// checkSlope compares with gonum's central difference. The fifth derivative
// of the smooth laws is below 2e4, so the difference is out by step^2/6 of
// that, 3e-7; rounding of values up to 200 adds 200 eps/step, 4e-9.
func checkSlope(t *rapid.T, f func(float64) float64, u, want, more float64) {
	t.Helper()
	got := fd.Derivative(f, u, &fd.Settings{Formula: fd.Central, Step: step})
	require.InDelta(t, want, got, 1e-6*(1+math.Abs(want))+more)
}

func breaks(l Law) []float64 {
	if b, ok := l.(Breaker); ok {
		return b.Breaks()
	}
	return nil
}

func nearBreak(l Law, u, within float64) bool {
	for _, b := range breaks(l) {
		if math.Abs(u-b) < within {
			return true
		}
	}
	return false
}

// TestBreaks: in order, inside, and At gives the value just after each.
func TestBreaks(t *testing.T) {
	for _, l := range everyLaw(t) {
		last := 0.
		for _, b := range breaks(l) {
			require.Greater(t, b, last, l.Name())
			require.Less(t, b, 1., l.Name())
			last = b
			on, after := l.At(b), l.At(math.Nextafter(b, 1))
			slack := 1e-12 * bound(l.Peaks().J, l.Peaks().A) / 1e-3
			assert.InDelta(t, after.S, on.S, rounding, l.Name())
			assert.InDelta(t, after.V, on.V, slack, l.Name())
			assert.InDelta(t, after.A, on.A, slack, "%s at %v", l.Name(), b)
			assert.InDelta(t, after.J, on.J, slack*10, "%s at %v", l.Name(), b)
		}
	}
}

// TestContinuity: position and speed never jump, nor acceleration where jerk
// is bounded.
func TestContinuity(t *testing.T) {
	for _, l := range everyLaw(t) {
		for _, b := range append(breaks(l), 0.5) {
			before, after := l.At(math.Nextafter(b, 0)), l.At(b)
			assert.InDelta(t, before.S, after.S, rounding, l.Name())
			assert.InDelta(t, before.V, after.V, rounding*(1+l.Peaks().A), l.Name())
			if j := l.Peaks().J; !math.IsInf(j, 1) {
				assert.InDelta(t, before.A, after.A, rounding*(1+j), l.Name())
			}
		}
	}
}

// TestSinCos compares with the library, itself good to an ulp.
func TestSinCos(t *testing.T) {
	const ulps = 3 * 0x1p-53
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(0, math.Pi/4).Draw(t, "x")
		sin, cos := sinCos(x)
		require.InDelta(t, math.Sin(x), sin, ulps*x)
		require.InDelta(t, math.Cos(x), cos, ulps)
		w := rapid.Float64Range(0, 0.5).Draw(t, "w")
		sin, cos = quarter(w)
		require.InDelta(t, math.Sin(math.Pi*w), sin, ulps)
		require.InDelta(t, math.Cos(math.Pi*w), cos, ulps)
	})
	sin, cos := quarter(0.5)
	assert.Equal(t, [2]float64{1, 0}, [2]float64{sin, cos})
}

// TestLessSin compares x - sin x with its series in 300 bits.
func TestLessSin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := math.Exp(rapid.Float64Range(math.Log(1e-80), math.Log(math.Pi)).Draw(t, "log x"))
		want := bigLessSin(x)
		// Three bits lost above seriesBelow, a few roundings below it.
		require.InEpsilon(t, want, lessSin(x, math.Sin(x)), 16*0x1p-53)
	})
}

func bigLessSin(x float64) float64 {
	const bits, terms = 300, 40
	square := new(big.Float).SetPrec(bits).SetFloat64(x)
	square.Mul(square, square)
	term := new(big.Float).SetPrec(bits).SetFloat64(x)
	sum := new(big.Float).SetPrec(bits)
	for n := 1; n < terms; n++ {
		term.Mul(term, square)
		term.Quo(term, new(big.Float).SetInt64(int64(-2*n*(2*n+1))))
		sum.Sub(sum, term)
	}
	f, _ := sum.Float64()
	return f
}

// TestTinyStart: at the very start each law follows its first term, with no
// loss of digits. The first term left out is below u^2 * 100 of it.
func TestTinyStart(t *testing.T) {
	for _, l := range everyLaw(t) {
		p := l.At(0)
		for _, u := range []float64{1e-12, 2e-9, 1e-8} {
			var want float64
			switch {
			case l.Name() == "uniform":
				want = u
			case l.Name() == "4-5-6-7":
				want = 35 * u * u * u * u
			case p.A != 0:
				want = p.A / 2 * u * u
			default:
				want = p.J / 6 * u * u * u
			}
			assert.InEpsilon(t, want, l.At(u).S, 1e-7, "%s at %v", l.Name(), u)
		}
	}
}
