package optimal_test

import (
	"errors"
	"fmt"
	"math"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"
	"pgregory.net/rapid"

	"seamrail/motion/law"
	"seamrail/motion/law/optimal"
	"seamrail/motion/plan/sample/many"
	"seamrail/motion/vibration"
	"seamrail/motion/vibration/spring"
)

// proved is how near to its bound a law must come: a millionth of a millionth,
// and ten for those whose functions hardly differ.
const proved = 1e-11

// Without a spring the signs change where Chebyshev's polynomials of the second
// kind do, at sin^2(k pi/2n) of the time, and the peaks are (n-1)! 4^(n-1)
// (T. J. Rivlin, Chebyshev Polynomials, Wiley 1990; the numbers by their
// formula). The first two are the textbook's triangle of speed and its four
// parabolas.
func TestChebyshev(t *testing.T) {
	for order, want := range map[int]float64{optimal.Acceleration: 4, optimal.Jerk: 32, optimal.Snap: 384} {
		s, err := optimal.Soften(order, optimal.Quiet{})
		require.NoError(t, err)
		assert.InEpsilon(t, want, s.Size, 1e-12)
		assert.InEpsilon(t, want, s.Bound, 1e-12)
		var breaks []float64
		for k := 1; k < order; k++ {
			sin := math.Sin(float64(k) * math.Pi / float64(2*order))
			breaks = append(breaks, sin*sin)
		}
		assert.InDeltaSlice(t, breaks, s.Law.Breaks(), 1e-12)
	}
}

// found is a law with what it was asked for.
type found struct {
	optimal.Softest
	q     optimal.Quiet
	order int
}

// grid is laws of every kind, among them swings near every fourth, where roots
// come into being; from two swings on there is always one.
var grid = sync.OnceValue(func() []found {
	var out []found
	for _, swings := range []float64{0.7, 1, 1.3, 1.8, 2, 2.5, 3.2, 3.9463, 4, 4.0184, 5.5, 7.3, 12.035, 49.7} {
		for order := optimal.Acceleration; order <= optimal.Snap; order++ {
			for _, q := range []optimal.Quiet{{Swings: swings}, {Swings: swings, Damping: 0.02}, {Swings: swings, Damping: 0.2}, {Swings: swings, Robust: true}} {
				s, err := optimal.Soften(order, q)
				if err != nil && swings < 2.6 && errors.Is(err, optimal.ErrBackwards) {
					continue
				}
				if err != nil {
					panic(fmt.Sprintf("%+v of order %d: %v", q, order, err))
				}
				out = append(out, found{s, q, order})
			}
		}
	}
	return out
})

func draw(t *rapid.T) (optimal.Softest, optimal.Quiet, int) {
	f := rapid.SampledFrom(grid()).Draw(t, "law")
	return f.Softest, f.q, f.order
}

// Any swings are answered: a law, or a plain no, below four or where the search is
// known not to end.
func TestAnySwings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := optimal.Quiet{Swings: rapid.Float64Range(0.5, 9).Draw(t, "swings"), Damping: rapid.SampledFrom([]float64{0, 0.001, 0.03, 0.3}).Draw(t, "damping")}
		s, err := optimal.Soften(rapid.IntRange(optimal.Acceleration, optimal.Snap).Draw(t, "order"), q)
		if err != nil {
			near := func(every float64) float64 { return math.Abs(q.Swings/every - math.Round(q.Swings/every)) }
			nearFourth, nearSecond := near(4) < 0.03, q.Damping == optimal.MinDamping && near(2) < 0.003
			require.True(t, q.Swings < 1 || nearFourth || nearSecond || errors.Is(err, optimal.ErrBackwards), "%+v: %v", q, err)
			require.True(t, q.Swings < 4 || errors.Is(err, optimal.ErrNoLaw), "%+v: %v", q, err)
			return
		}
		require.InDelta(t, 0, s.Size/s.Bound-1, proved)
	})
}

// The swing that is left is nothing, by the integration of another package.
func TestQuiet(t *testing.T) {
	many.Long(t)
	rapid.Check(t, func(t *rapid.T) {
		s, q, _ := draw(t)
		spring := spring.Spring{Frequency: q.Swings, Damping: q.Damping}
		require.Less(t, vibration.Residual(spring, s.Law, 1), 1e-9)
		if q.Robust { // no slope: what is left grows with the square of what is off
			near, far := spring, spring
			near.Frequency *= 1 + 1e-3
			far.Frequency *= 1 + 2e-3
			one, two := vibration.Residual(near, s.Law, 1), vibration.Residual(far, s.Law, 1)
			require.Less(t, one, 2e-3)
			if one > 1e-6 {
				require.InDelta(t, 4, two/one, 0.4)
			}
		}
	})
}

// It is proved to be the softest, and a law it is.
func TestSoftest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, _, order := draw(t)
		require.InDelta(t, 0, s.Size/s.Bound-1, proved)
		l := s.Law
		require.Zero(t, l.At(0).S)
		require.Equal(t, 1.0, l.At(1).S)
		require.InDelta(t, 0, l.At(0).V, 1e-13)
		u := rapid.Float64Range(0, 1).Draw(t, "u")
		p, m := l.At(u), l.At(1-u)
		require.InDelta(t, 1, p.S+m.S, 1e-12)
		require.GreaterOrEqual(t, p.V, -1e-11)
		peaks := l.Peaks()
		require.LessOrEqual(t, math.Abs(p.V), peaks.V*(1+1e-9))
		require.LessOrEqual(t, math.Abs(p.A), peaks.A*(1+1e-9))
		require.LessOrEqual(t, math.Abs(p.J), peaks.J*(1+1e-9))
		switch order {
		case optimal.Acceleration:
			require.InEpsilon(t, s.Size, peaks.A, 1e-12)
		case optimal.Jerk:
			require.InEpsilon(t, s.Size, peaks.J, 1e-12)
		}
		require.InDelta(t, peaks.V, l.At(peaks.AtV).V, 1e-9*peaks.V)
	})
}

// In the middle all fits together: what the shares were found for.
func TestTheHalvesMeet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, _, order := draw(t)
		const h = 1e-9
		a, b := s.Law.At(0.5-h), s.Law.At(0.5+h)
		require.InDelta(t, a.S, b.S, 10*h)
		require.InDelta(t, a.V, b.V, 1e-9*s.Size)
		if order > optimal.Acceleration {
			require.InDelta(t, a.A, b.A, 1e-8*s.Size)
		}
		if order > optimal.Jerk {
			require.InDelta(t, a.J, b.J, 1e-8*s.Size)
		}
	})
}

// Each derivative is that of the one before, away from the breaks.
func TestDerivatives(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, _, _ := draw(t)
		const h = 1e-5
		u := rapid.Float64Range(0.01, 0.99).Draw(t, "u")
		for _, b := range s.Law.Breaks() {
			if math.Abs(b-u) < 2*h {
				return
			}
		}
		a, p, b := s.Law.At(u-h), s.Law.At(u), s.Law.At(u+h)
		require.InDelta(t, p.V, (b.S-a.S)/(2*h), 1e-6*s.Size)
		require.InDelta(t, p.A, (b.V-a.V)/(2*h), 1e-6*s.Size)
		require.InDelta(t, p.J, (b.A-a.A)/(2*h), 1e-6*s.Size)
	})
}

// No named law goes below the bound.
func TestNamedLawsKeepTheBound(t *testing.T) {
	acc, err := optimal.Soften(optimal.Acceleration, optimal.Quiet{})
	require.NoError(t, err)
	jerk, err := optimal.Soften(optimal.Jerk, optimal.Quiet{})
	require.NoError(t, err)
	compared := 0
	for _, l := range law.All() {
		if l.At(0).V != 0 {
			continue
		}
		compared++
		assert.GreaterOrEqual(t, l.Peaks().A, acc.Bound*(1-1e-12), l.Name())
		if l.At(0).A == 0 {
			assert.GreaterOrEqual(t, l.Peaks().J, jerk.Bound*(1-1e-12), l.Name())
		}
	}
	assert.Equal(t, 8, compared)
}

// With one swing in the move, the softest acceleration is two triangles of speed,
// each of half the travel and half a swing long: 8, with a stop between.
func TestOneSwing(t *testing.T) {
	s, err := optimal.Soften(optimal.Acceleration, optimal.Quiet{Swings: 1})
	require.NoError(t, err)
	assert.InEpsilon(t, 8, s.Size, 1e-12)
	assert.InDeltaSlice(t, []float64{0.25, 0.5, 0.75}, s.Law.Breaks(), 1e-12)
	assert.InDelta(t, 0, s.Law.At(0.5).V, 1e-12)
}

// cellsOfProgramme are the parts of half a move in which the linear programme
// below may choose the derivative.
const cellsOfProgramme = 120

// TestAgainstALinearProgramme chooses the derivative in each cell by the simplex
// method of a general numerics library. It may not change inside a cell, so it
// does no better than the softest, and less than a cell's worth worse.
func TestAgainstALinearProgramme(t *testing.T) {
	for _, c := range []struct {
		order int
		q     optimal.Quiet
	}{
		{optimal.Acceleration, optimal.Quiet{}},
		{optimal.Acceleration, optimal.Quiet{Swings: 2.7}},
		{optimal.Jerk, optimal.Quiet{}},
		{optimal.Jerk, optimal.Quiet{Swings: 1.4}},
		{optimal.Jerk, optimal.Quiet{Swings: 3.3}},
	} {
		s, err := optimal.Soften(c.order, c.q)
		require.NoError(t, err)
		least := programme(t, c.order, c.q.Swings)
		assert.GreaterOrEqual(t, least, s.Bound*(1-1e-6), "%+v", c)
		assert.InEpsilon(t, s.Size, least, 0.03, "%+v", c)
	}
}

// programme returns the least peak: f = (up - 1) peak in each cell, with 0 <= up
// <= 2, written as plus - minus with plus + minus + slack = peak.
func programme(t *testing.T, order int, swings float64) float64 {
	t.Helper()
	const n = cellsOfProgramme
	rows := conditions(order, swings)
	a := mat.NewDense(len(rows)+n, 3*n+1, nil)
	b := make([]float64, len(rows)+n)
	for i, r := range rows {
		for k := range n {
			from, to := 0.5*float64(k)/n, 0.5*float64(k+1)/n
			area := r.area(to) - r.area(from)
			a.Set(i, k, area)
			a.Set(i, n+k, -area)
		}
		b[i] = r.want
	}
	for k := range n {
		row := len(rows) + k
		a.Set(row, k, 1)
		a.Set(row, n+k, 1)
		a.Set(row, 2*n+k, 1)
		a.Set(row, 3*n, -1)
	}
	cost := make([]float64, 3*n+1)
	cost[3*n] = 1
	least, _, err := lp.Simplex(cost, a, b, 1e-10, nil)
	require.NoError(t, err)
	return least
}

type condition struct {
	area func(x float64) float64
	want float64
}

// conditions are written out by hand, x from the middle of the move: what half a
// move must integrate to.
func conditions(order int, swings float64) []condition {
	w := 2 * math.Pi * swings
	if order == optimal.Acceleration { // odd: against x and sin w x
		out := []condition{{func(x float64) float64 { return x * x / 2 }, -0.5}}
		if swings > 0 {
			out = append(out, condition{func(x float64) float64 { return -math.Cos(w*x) / w }, 0})
		}
		return out
	}
	out := []condition{ // even: against x^2, 1 and cos w x
		{func(x float64) float64 { return x * x * x / 3 }, 1},
		{func(x float64) float64 { return x }, 0},
	}
	if swings > 0 {
		out = append(out, condition{func(x float64) float64 { return math.Sin(w*x) / w }, 0})
	}
	return out
}

func TestQuietIsChecked(t *testing.T) {
	for name, q := range map[string]optimal.Quiet{
		"few": {Swings: 0.4}, "many": {Swings: 51}, "damping": {Swings: 3, Damping: 0.31}, "hardly any": {Swings: 3, Damping: 1e-9}, "negative": {Swings: 3, Damping: -0.1},
		"no swings": {Robust: true}, "both": {Swings: 3, Damping: 0.1, Robust: true}, "not a number": {Swings: math.NaN()},
	} {
		_, err := optimal.Soften(optimal.Jerk, q)
		assert.Error(t, err, name)
	}
	assert.Panics(t, func() { _, _ = optimal.Soften(1, optimal.Quiet{}) })
	_, err := optimal.Soften(optimal.Jerk, optimal.Quiet{Swings: 0.6})
	assert.ErrorIs(t, err, optimal.ErrBackwards)
}

func BenchmarkSoften(b *testing.B) {
	for name, q := range map[string]optimal.Quiet{"plain": {}, "quiet": {Swings: 3.3}, "damped": {Swings: 3.3, Damping: 0.02}, "robust": {Swings: 3.3, Robust: true}} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := optimal.Soften(optimal.Jerk, q); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
