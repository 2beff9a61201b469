package track

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Polynomials are multiplied out from known roots, of which those inside
// (0, 1) must come back. Roots a hundredth apart or more are told apart to
// about 1e-9: rounding of the coefficients over the slope.
func TestRootsOfAProduct(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		picks := rapid.SliceOfNDistinct(rapid.IntRange(-50, 150), 1, 4, rapid.ID[int]).Draw(t, "roots")
		c := []float64{rapid.SampledFrom([]float64{-3, 1, 1e6}).Draw(t, "scale")}
		var want []float64
		for _, p := range picks {
			// Off the hundredths, so that no root falls on an end.
			r := float64(p)/100 + 0.0037
			c = times(c, r)
			if r > 0 && r < 1 {
				want = append(want, r)
			}
		}
		slices.Sort(want)
		got := roots(c)
		require.Len(t, got, len(want))
		for i := range want {
			assert.InDelta(t, want[i], got[i], 1e-9)
		}
	})
}

// times multiplies by (u - r).
func times(c []float64, r float64) []float64 {
	out := make([]float64, len(c)+1)
	for i, f := range c {
		out[i+1] += f
		out[i] -= r * f
	}
	return out
}

func TestRootsWithoutASignChange(t *testing.T) {
	assert.Empty(t, roots(nil))
	assert.Empty(t, roots([]float64{3}))
	assert.Empty(t, roots([]float64{0, 0, 0, 0}), "zero everywhere")
	assert.Empty(t, roots([]float64{0, 1}), "zero at the start")
	assert.Empty(t, roots([]float64{-1, 1}), "zero at the end")
	assert.Empty(t, roots([]float64{1, 0, 1}))
	assert.Equal(t, []float64{0.5}, roots([]float64{0.25, -1, 1}), "touches at a half")
}

// Both ends come back to the last digit, and the two halves, solved from
// opposite ends, are one polynomial.
func TestQuinticMeetsItsEnds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.Float64Range(-100, 100)
		a := end{0, f.Draw(t, "v0"), f.Draw(t, "a0")}
		b := end{f.Draw(t, "rise"), f.Draw(t, "v1"), f.Draw(t, "a1")}
		q := newQuintic(a, b)
		const denormal = 1e-300 // halving and doubling a number below this loses digits
		first, last := q.At(0), q.At(1)
		assert.Zero(t, first.S)
		assert.Equal(t, a.vel, first.V)
		assert.InDelta(t, a.acc, first.A, denormal)
		assert.Zero(t, last.S, "from the end")
		assert.Equal(t, b.vel, last.V)
		assert.InDelta(t, b.acc, last.A, denormal)
		const slack = 1e-10 // coefficients up to some thousands, times sixty, in float64
		for _, u := range []float64{0, 0.25, 0.5, 0.75, 1} {
			x, y := evaluate(&q.head, u), evaluate(&q.tail, 1-u)
			assert.InDelta(t, x.S, b.pos+y.S, slack)
			assert.InDelta(t, x.V, -y.V, slack)
			assert.InDelta(t, x.A, y.A, slack)
			assert.InDelta(t, x.J, -y.J, slack)
		}
	})
}
