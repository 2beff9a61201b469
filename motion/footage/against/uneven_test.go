package against

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/plan/sample/many"
)

// coarsely is how far off the poses of a film are that was encoded with too few bits: they stand, creep,
// jump, and are right again each time that it begins anew.
func coarsely(seed uint64, px float64) func(int, float64) [2]float64 {
	rng, off, creep := rand.New(rand.NewPCG(seed, 3)), [2]float64{}, [2]float64{}
	at := -1
	return func(i int, _ float64) [2]float64 {
		for ; at < i; at++ {
			for k := range off {
				switch u := rng.Float64(); {
				case u < 0.06: // a block comes anew
					off[k] += px * rng.NormFloat64()
				case u < 0.1:
					creep[k] = 0.1 * px * rng.NormFloat64()
				case u < 0.13:
					off[k], creep[k] = 0, 0
				}
				off[k] += creep[k]
			}
		}
		return off
	}
}

// A take that an encoder spoilt is not known, whatever faults its poses look like; it is known to go
// the other way where it does, and a blow is one where poses scatter evenly by as much.
func TestACoarseEncodingIsNoFault(t *testing.T) {
	n := many.Times(6, 60)
	for seed := range uint64(n) {
		p, k := fern()
		k.seed, k.noise, k.more = seed, 0.02, coarsely(seed, 0.6)
		r := laidOut(t, p, k)
		require.NotEqual(t, Differs, r.Verdict.Kind, "%d %s", seed, show(r))
		if r.Verdict.Kind == NotKnown {
			assert.Empty(t, r.Blows)
			assert.Nil(t, r.Shake)
		}
		assert.InDelta(t, k.zero, r.Frame0.Value, 0.3)
	}
	p, k := fern()
	k.noise, k.more = 0.02, coarsely(1, 0.6)
	k.gains[0] = [4]float64{-8, -0.4, 0, 0}
	r := laidOut(t, p, k)
	require.Equal(t, Differs, r.Verdict.Kind, show(r))
	assert.Equal(t, WrongWay, r.Verdict.Causes[0].Cause)

	p, k = fern()
	k.noise = 0.3
	k.more = func(i int, _ float64) [2]float64 { return [2]float64{0, 4 * fading((float64(i)-250)/24, 5, 0.06)} }
	r = laidOut(t, p, k)
	require.Equal(t, Differs, r.Verdict.Kind, show(r))
	require.Len(t, r.Blows, 1)
	assert.InDelta(t, 4, r.Blows[0].Px, 0.6)
}

// What scatters evenly is told from what does not, at its edge.
func TestUneven(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for share, want := range map[float64][2]float64{0: {2.4, 2.6}, 0.001: {2.4, 2.8}, 0.003: {2.5, mostUneven}, 0.03: {mostUneven, 20}} {
		s := series{n: 4000}
		l := &laid{series: s, weights: make([]float64, s.n)}
		l.rough = make([]float64, s.n)
		for k := range ways {
			l.r[k], l.sigma[k] = make([]float64, s.n), 0.1
		}
		for i := range l.weights {
			l.weights[i], l.rough[i] = 1, 1
			for k := range ways {
				l.r[k][i] = 0.1 * rng.NormFloat64()
				if rng.Float64() < share {
					l.r[k][i] *= 10
				}
			}
		}
		times, px := l.uneven()
		assert.Greater(t, times, want[0], "%g", share)
		assert.Less(t, times, want[1], "%g", share)
		assert.Greater(t, px, 0.1*times, "%g", share)
	}
}
