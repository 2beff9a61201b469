package track_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/integrate/quad"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/track"
)

func at(sec int64, pos float64, f track.Feel) track.Key {
	return track.Key{Time: exact.Int(sec), Pos: pos, Feel: f}
}

// Out of 0 in the first quarter of 8 s and into 70 in the last: the even speed
// is 70/(8 (1 - 1/8 - 1/8)) = 35/3, reached by 3u^2 - 2u^3, whose integral is
// u^3 - u^4/2.
func TestEasesFollowTheirClosedForm(t *testing.T) {
	e := track.Feel{EaseIn: exact.New(1, 4), EaseOut: exact.New(1, 4)}
	tr := must(t)(track.Keys(exact.Int(16), track.KeysSpec{Keys: []track.Key{at(0, 0, e), at(8, 70, e)}}))
	const v = 35.0 / 3
	for _, u := range []float64{0, 0.1, 0.3, 0.5, 0.8, 1} {
		s := tr.At(2 * u)
		assert.InDelta(t, 2*v*(u*u*u-u*u*u*u/2), s.Pos, 1e-12)
		assert.InDelta(t, v*(3-2*u)*u*u, s.Vel, 1e-12)
		s = tr.At(2 + 4*u)
		assert.InDelta(t, v+v*4*u, s.Pos, 1e-11)
		assert.InDelta(t, v, s.Vel, 1e-11)
	}
	assert.InDelta(t, 70, tr.At(8).Pos, 1e-12)
	assert.InDelta(t, 0, tr.At(8).Vel, 1e-12)
	assert.InDelta(t, v, tr.Extremes().Speed.Value, 1e-11)
}

// An ease on one side only leaves the rest to the curve.
func TestEaseOutAloneLeavesTheNextKeyFree(t *testing.T) {
	tr := must(t)(track.Keys(exact.Int(12), track.KeysSpec{Keys: []track.Key{
		at(0, 0, track.Feel{EaseOut: exact.New(1, 2)}), at(4, 30, track.Feel{}), at(8, 10, track.Feel{}),
	}}))
	assert.InDelta(t, 0, tr.At(0).Vel, 1e-12)
	assert.InDelta(t, 30/(4*0.75), tr.At(2).Vel, 1e-11)
	assert.InDelta(t, 30, tr.At(4).Pos, 1e-12)
	assert.False(t, math.IsInf(tr.Extremes().Jerk.Value, 0), "acceleration is continuous")
}

func TestTensionTakesOffItsShareOfTheSpeed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tension := rapid.Float64Range(0, 1).Draw(t, "tension")
		keys := []track.Key{at(0, 0, track.Feel{}), at(3, rapid.Float64Range(5, 90).Draw(t, "pos"), track.Feel{}), at(7, 100, track.Feel{})}
		monotone := rapid.Bool().Draw(t, "monotone")
		free := must(t)(track.Keys(exact.Int(12), track.KeysSpec{Keys: keys, Monotone: monotone}))
		keys[1].Tension = tension
		tight := must(t)(track.Keys(exact.Int(12), track.KeysSpec{Keys: keys, Monotone: monotone}))
		size := math.Abs(free.Extremes().Speed.Value)
		assert.InDelta(t, (1-tension)*free.At(3).Vel, tight.At(3).Vel, rounding*size)
		assert.InDelta(t, (1-tension)*free.At(3).Acc, tight.At(3).Acc, rounding*size*100)
		assert.InDelta(t, keys[1].Pos, tight.At(3).Pos, rounding*100)
		assert.False(t, math.IsInf(tight.Extremes().Jerk.Value, 0))
		if monotone {
			assert.LessOrEqual(t, tight.Extremes().Max.Value, 100+1e-9)
		}
	})
}

// roughness is the integral of squared jerk over the loop by Gauss-Legendre
// quadrature between the breaks, exact for squares of parabolas.
func roughness(tr *track.Track) float64 {
	sum, breaks := 0.0, tr.Breaks()
	for i := 1; i < len(breaks); i++ {
		sum += quad.Fixed(func(sec float64) float64 { j := tr.At(sec).Jerk; return j * j }, breaks[i-1], breaks[i], 6, nil, 0)
	}
	return sum
}

// The curve stays within what its keys allow, and no other choice of places
// within that is smoother: the problem is convex, so looking near and far is
// proof enough.
func TestWithinFindsTheSmoothestCurve(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 8).Draw(t, "keys")
		var keys []track.Key
		for i := range n {
			k := at(int64(i), rapid.Float64Range(-50, 50).Draw(t, "pos"), track.Feel{})
			if i > 0 {
				k.Within = rapid.SampledFrom([]float64{0, 0.5, 4, 30}).Draw(t, "within")
			}
			keys = append(keys, k)
		}
		period := exact.Int(int64(n))
		tr := must(t)(track.Keys(period, track.KeysSpec{Keys: keys}))
		best := roughness(tr)
		for i, k := range keys {
			off := tr.At(float64(i)).Pos - k.Pos
			assert.LessOrEqual(t, math.Abs(off), k.Within+1e-9)
		}
		for range 12 {
			other := make([]track.Key, n)
			near := rapid.SampledFrom([]float64{0.001, 0.1, 1}).Draw(t, "near")
			for i, k := range keys {
				at := tr.At(float64(i)).Pos
				to := k.Pos + k.Within*rapid.Float64Range(-1, 1).Draw(t, "to")
				other[i] = track.Key{Time: k.Time, Pos: at + near*(to-at)}
			}
			rough := roughness(must(t)(track.Keys(period, track.KeysSpec{Keys: other})))
			// Keys still pull by a millionth of the stiffness of a knot.
			assert.GreaterOrEqual(t, rough, best*(1-1e-6)-1e-3, "and yet it was said to be the smoothest")
		}
	})
}

func TestFeelingsThatCannotBe(t *testing.T) {
	half, v := exact.New(1, 2), 3.0
	for name, keys := range map[string][]track.Key{
		"tension above 1":        {at(0, 0, track.Feel{Tension: 1.5}), at(1, 1, track.Feel{})},
		"tension of a speed":     {{Time: exact.Int(0), Speed: &v, Feel: track.Feel{Tension: 0.5}}},
		"ease through a speed":   {{Time: exact.Int(0), Speed: &v, Feel: track.Feel{EaseIn: half}}},
		"eases that overlap":     {at(0, 0, track.Feel{EaseOut: exact.New(2, 3)}), at(1, 1, track.Feel{EaseIn: half})},
		"ease to a place within": {at(0, 0, track.Feel{EaseOut: half}), at(1, 1, track.Feel{Within: 1})},
		"hold within":            {{Time: exact.Int(0), Hold: half, Feel: track.Feel{Within: 1}}},
		"within below 0":         {at(0, 0, track.Feel{Within: -1})},
	} {
		_, err := track.Keys(exact.Int(4), track.KeysSpec{Keys: keys})
		assert.Error(t, err, name)
	}
	_, err := track.Keys(exact.Int(4), track.KeysSpec{Monotone: true, Keys: []track.Key{at(0, 0, track.Feel{Within: 1})}})
	assert.Error(t, err)
}
