package optimal_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"
	"pgregory.net/rapid"

	"seamrail/motion/law/optimal"
)

// With all of the time in its falls it is 3u2 - 2u3, the cubic Hermite curve,
// with peaks 1.5, 6 and 12; with hardly any it is the triangle of speed, 2 and 4.
func TestCarriedClosedForms(t *testing.T) {
	l, err := optimal.NewCarried(0.5, 1)
	require.NoError(t, err)
	p := l.Peaks()
	assert.InEpsilon(t, 1.5, p.V, 1e-12)
	assert.InEpsilon(t, 6, p.A, 1e-12)
	assert.InEpsilon(t, 12, p.J, 1e-12)
	for u := 0.0; u <= 1; u += 0.125 {
		assert.InDelta(t, u*u*(3-2*u), l.At(u).S, 1e-15)
	}
	assert.Empty(t, l.Breaks())
	l, err = optimal.NewCarried(0.5, 1e-6)
	require.NoError(t, err)
	assert.InEpsilon(t, 4, l.Peaks().A, 1e-5)
}

func TestCarriedIsALaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, err := optimal.NewCarried(rapid.Float64Range(0.01, 0.5).Draw(t, "ramp"), rapid.Float64Range(0.01, 1).Draw(t, "jerk share"))
		require.NoError(t, err)
		u := rapid.Float64Range(0.001, 0.999).Draw(t, "u")
		p, m := l.At(u), l.At(1-u)
		require.InDelta(t, 1, p.S+m.S, 1e-12)
		require.InDelta(t, 0, p.A+m.A, 1e-9*l.Peaks().A)
		require.GreaterOrEqual(t, p.V, 0.0)
		require.LessOrEqual(t, p.V, l.Peaks().V*(1+1e-12))
		require.LessOrEqual(t, math.Abs(p.A), l.Peaks().A*(1+1e-12))
		require.InDelta(t, 0.5, l.At(0.5).S, 1e-12)
		require.Zero(t, l.At(0).S)
		require.Equal(t, 1.0, l.At(1).S)
		const h = 1e-6
		for _, b := range l.Breaks() {
			if math.Abs(b-u) < 2*h {
				return
			}
		}
		a, b := l.At(u-h), l.At(u+h)
		require.InDelta(t, p.V, (b.S-a.S)/(2*h), 1e-6*l.Peaks().J)
		require.InDelta(t, p.A, (b.V-a.V)/(2*h), 1e-6*l.Peaks().J)
		require.InDelta(t, p.J, (b.A-a.A)/(2*h), 1e-6*l.Peaks().J)
	})
}

func TestCarriedShares(t *testing.T) {
	for _, c := range [][2]float64{{0, 0.5}, {0.6, 0.5}, {0.5, 0}, {0.5, 1.1}, {math.NaN(), 0.5}, {0.5, math.NaN()}} {
		_, err := optimal.NewCarried(c[0], c[1])
		assert.Error(t, err, "%v", c)
	}
}

// The law that is named is within the limits, has the value that is told, and is
// never harsher than one without acceleration at its ends.
func TestWithinCarried(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, sec, l := drawMove(t)
		aim := rapid.SampledFrom([]optimal.Aim{optimal.MinSpeed, optimal.MinAcceleration, optimal.MinJerk}).Draw(t, "aim")
		h, err := optimal.WithinCarried(aim, d, sec, l)
		resting, restingErr := optimal.Within(aim, d, sec, l)
		if err != nil {
			require.Error(t, restingErr)
			return
		}
		if restingErr == nil {
			require.LessOrEqual(t, h.Value, resting.Value*(1+1e-9))
		}
		require.LessOrEqual(t, h.Value, h.Bound*(1+1e-11))
		named, err := optimal.NewCarried(h.Ramp, h.JerkShare)
		require.NoError(t, err)
		p := named.Peaks()
		got := [...]float64{p.V * d / sec, p.A * d / (sec * sec), p.J * d / (sec * sec * sec)}
		for i, limit := range []float64{l.Speed, l.Acceleration, l.Jerk} {
			require.LessOrEqual(t, got[i], limit*(1+1e-6))
		}
		require.InEpsilon(t, h.Value, got[aim], 1e-6)
	})
}

// TestCarriedAgainstALinearProgramme chooses the acceleration at the ends of cells
// of half a move by the simplex method of a general numerics library, as great as
// the limits let it, for the furthest travel. A straight line between two ends of
// cells keeps to limits that both keep to, so it does no better than the law, and
// little worse.
func TestCarriedAgainstALinearProgramme(t *testing.T) {
	for _, c := range []struct{ v, a, j float64 }{{100, 5, 40}, {1.3, 7, 60}, {100, 100, 12}, {1.6, 6, 20}} {
		most := furthestByProgramme(t, c.v, c.a, c.j)
		aim, want, limits := optimal.MinAcceleration, c.a, optimal.Limits{Speed: c.v, Acceleration: 2 * c.a, Jerk: c.j}
		if c.a > 50 { // which is no limit
			aim, want, limits = optimal.MinJerk, c.j, optimal.Limits{Speed: c.v, Acceleration: c.a, Jerk: 2 * c.j}
		}
		h, err := optimal.WithinCarried(aim, most, 1, limits)
		require.NoError(t, err)
		assert.LessOrEqual(t, h.Value, want*(1+1e-6), "%+v", c)
		assert.InEpsilon(t, want, h.Value, 0.03, "%+v", c)
	}
}

// furthestByProgramme: b_k, the deceleration k cells from the middle, is nothing
// there, grows by at most j a cell, is at most a, sums to at most v; travel is twice
// the sum of b x.
func furthestByProgramme(t *testing.T, v, a, j float64) float64 {
	t.Helper()
	const n = 40
	const cell = 0.5 / n
	rows := 2*n + 1
	m := mat.NewDense(rows, n+rows, nil)
	b, cost := make([]float64, rows), make([]float64, n+rows)
	for k := range n {
		m.Set(k, k, 1)
		b[k] = a
		m.Set(n+k, k, 1)
		if k > 0 {
			m.Set(n+k, k-1, -1)
		}
		b[n+k] = j * cell
		weight := cell
		if k == n-1 {
			weight /= 2 // the trapezium rule; the middle has none
		}
		m.Set(2*n, k, weight)
		// b runs straight between ends, so its product with x sums like this.
		x := cell * float64(k+1)
		cost[k] = -2 * cell * (3*x - cell) / 6
		if k < n-1 {
			cost[k] -= 2 * cell * (3*x + cell) / 6
		}
	}
	b[2*n] = v
	for i := range rows {
		m.Set(i, n+i, 1)
	}
	least, _, err := lp.Simplex(cost, m, b, 1e-12, nil)
	require.NoError(t, err)
	return -least
}
