package track

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
)

// The velocity of every gap, as a Bernstein polynomial of the fourth degree,
// has no coefficient against the rise. The coefficients are taken from the
// monomial ones by the standard change of basis, b_i = sum_j C(i,j)/C(4,j) c_j.
func TestMonotoneVelocityHasBernsteinCoefficientsOfOneSign(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var s KeysSpec
		at, pos := int64(0), int64(0)
		size := rapid.SampledFrom([]int64{1, 3, 20, 400})
		for range rapid.IntRange(2, 6).Draw(t, "keys") {
			s.Keys = append(s.Keys, Key{Time: exact.Int(at), Pos: float64(pos)})
			at += size.Draw(t, "wait")
			pos += size.Draw(t, "rise")
		}
		s.Advance = exact.Int(pos)
		r := newKeySpline(exact.Int(at), s)
		require.NoError(t, r.monotone())
		for i, l := range r.legs() {
			c := derive(l.curve.(*quintic).head[:])
			b := [5]float64{
				c[0], c[0] + c[1]/4, c[0] + c[1]/2 + c[2]/6,
				c[0] + 3*c[1]/4 + c[2]/2 + c[3]/4, c[0] + c[1] + c[2] + c[3] + c[4],
			}
			for _, f := range b {
				require.GreaterOrEqual(t, f, -1e-11*float64(pos), "gap %d: %v", i, b) // some hundred roundings of coefficients
			}
		}
	})
}

// Gaps of 1 s and 2 s with slopes of 1 and 4: the shorter gap has the greater weight,
// 9/(5/1 + 4/4) (worked by hand from the formula of Fritsch and Butland 1984).
func TestMonotoneSpeedIsTheWeightedHarmonicMean(t *testing.T) {
	r := newKeySpline(exact.Int(4), KeysSpec{Advance: exact.Int(10), Keys: []Key{
		{Time: exact.Int(0), Pos: 0}, {Time: exact.Int(1), Pos: 1}, {Time: exact.Int(3), Pos: 9},
	}})
	require.NoError(t, r.estimate(1))
	require.InDelta(t, 1.5, r.knots[1].vel, 1e-15)
}
