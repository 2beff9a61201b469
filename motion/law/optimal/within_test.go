package optimal_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/optimize"
	"pgregory.net/rapid"

	"seamrail/motion/law"
	"seamrail/motion/law/optimal"
)

var none = math.Inf(1)

// Without other limits they are the textbook's: the triangle of speed for the
// acceleration, four parabolas for the jerk, and no ramps for the speed.
func TestWithinNothing(t *testing.T) {
	const d, sec = 60, 0.6
	h, err := optimal.Within(optimal.MinAcceleration, d, sec, optimal.Limits{Speed: none, Acceleration: none, Jerk: 1e12})
	require.NoError(t, err)
	assert.InEpsilon(t, 4*d/(sec*sec), h.Value, 1e-4, "the jerk of 1e12 costs a little")
	h, err = optimal.Within(optimal.MinAcceleration, d, sec, optimal.Limits{Speed: none, Acceleration: 1e6, Jerk: none})
	require.NoError(t, err)
	assert.InEpsilon(t, 4*d/(sec*sec), h.Value, 1e-12)
	assert.InDelta(t, 0.5, h.Ramp, 1e-12)
	assert.Zero(t, h.JerkShare)
	h, err = optimal.Within(optimal.MinJerk, d, sec, optimal.Limits{Speed: none, Acceleration: 1e6, Jerk: none})
	require.NoError(t, err)
	assert.InEpsilon(t, 32*d/(sec*sec*sec), h.Value, 1e-9)
	assert.InDelta(t, 0.5, h.JerkShare, 1e-6)
	// v of a trapezoid that takes its time: d/v + v/a = T.
	const a = 3000.0
	h, err = optimal.Within(optimal.MinSpeed, d, sec, optimal.Limits{Speed: none, Acceleration: a, Jerk: none})
	require.NoError(t, err)
	assert.InEpsilon(t, a*(sec-math.Sqrt(sec*sec-4*d/a))/2, h.Value, 1e-12)
}

func drawMove(t *rapid.T) (d, sec float64, l optimal.Limits) {
	d = rapid.Float64Range(1, 300).Draw(t, "d")
	sec = rapid.Float64Range(0.1, 10).Draw(t, "sec")
	room := func(what string, least float64) float64 {
		return least * math.Exp(rapid.Float64Range(-0.2, 3).Draw(t, what))
	}
	return d, sec, optimal.Limits{Speed: room("v", d/sec), Acceleration: room("a", 4*d/(sec*sec)), Jerk: room("j", 32*d/(sec*sec*sec))}
}

// The law that is named is within the limits and has the value that is told, a
// hair above what is proved.
func TestWithin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, sec, l := drawMove(t)
		aim := rapid.SampledFrom([]optimal.Aim{optimal.MinSpeed, optimal.MinAcceleration, optimal.MinJerk}).Draw(t, "aim")
		h, err := optimal.Within(aim, d, sec, l)
		if err != nil {
			var short optimal.TooShort
			require.ErrorAs(t, err, &short)
			require.Greater(t, short.Least, sec)
			require.InEpsilon(t, law.Fastest(d, l.Speed, l.Acceleration, l.Jerk).T, short.Least, 1e-12)
			return
		}
		require.LessOrEqual(t, h.Value, h.Bound*(1+1e-11))
		named, err := law.SevenSegment(h.Ramp, h.JerkShare)
		require.NoError(t, err)
		p := named.Peaks()
		got := [...]float64{p.V * d / sec, p.A * d / (sec * sec), p.J * d / (sec * sec * sec)}
		for i, limit := range []float64{l.Speed, l.Acceleration, l.Jerk} {
			require.LessOrEqual(t, got[i], limit*(1+1e-6))
		}
		require.InEpsilon(t, h.Value, got[aim], 1e-6)
	})
}

// TestAgainstAnOptimiser lets the simplex of J. A. Nelder and R. Mead, of a general
// numerics library, look among all seven-segment laws for a lesser value: it finds
// the same, and none below.
func TestAgainstAnOptimiser(t *testing.T) {
	const d, sec = 60.0, 0.6
	l := optimal.Limits{Speed: 170, Acceleration: 1500, Jerk: 30000}
	for _, aim := range []optimal.Aim{optimal.MinSpeed, optimal.MinAcceleration, optimal.MinJerk} {
		h, err := optimal.Within(aim, d, sec, l)
		require.NoError(t, err)
		share := func(x float64) float64 { return 0.5 / (1 + math.Exp(-x)) }
		cost := func(x []float64) float64 {
			s, err := law.SevenSegment(max(share(x[0]), 1e-6), max(share(x[1]), 1e-6))
			require.NoError(t, err)
			p := s.Peaks()
			got := [...]float64{p.V * d / sec, p.A * d / (sec * sec), p.J * d / (sec * sec * sec)}
			over := 0.0
			for i, limit := range []float64{l.Speed, l.Acceleration, l.Jerk} {
				over += max(0, got[i]/limit-1)
			}
			return got[aim]/h.Value + 1e3*over
		}
		best := math.Inf(1)
		for _, begin := range [][]float64{{0, 0}, {2, 0}, {0, 2}, {2, 2}} {
			r, err := optimize.Minimize(optimize.Problem{Func: cost}, begin, nil, &optimize.NelderMead{})
			require.NoError(t, err)
			best = min(best, r.F)
		}
		assert.InDelta(t, 1, best, 2e-3, "%v", aim)
		assert.GreaterOrEqual(t, best, 1-1e-9, "%v", aim)
	}
}

func TestWithinPanics(t *testing.T) {
	l := optimal.Limits{Speed: 100, Acceleration: 100, Jerk: 100}
	assert.Panics(t, func() { _, _ = optimal.Within(optimal.MinJerk, 0, 1, l) })
	assert.Panics(t, func() { _, _ = optimal.Within(optimal.MinJerk, 1, math.NaN(), l) })
}

func BenchmarkWithin(b *testing.B) {
	l := optimal.Limits{Speed: 400, Acceleration: 3000, Jerk: 60000}
	for b.Loop() {
		if _, err := optimal.Within(optimal.MinAcceleration, 60, 0.6, l); err != nil {
			b.Fatal(err)
		}
	}
}
