package rate_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/export/drive/rate"
)

// pass is a take of rounds of a period, on a clock that is slow, with all late by
// once and each time out by up to jitter either way; s.
func pass(rng *rand.Rand, rounds int64, period, slow, once, jitter float64) drive.Pass {
	out := func() float64 { return once + jitter*(2*rng.Float64()-1) }
	p := drive.Pass{Rounds: rounds, RoundForetold: period, Foretold: float64(rounds) * period}
	p.Executed = p.Foretold*(1+slow) + out()
	for r := int64(1); r < rounds; r++ {
		p.Laps = append(p.Laps, drive.Lap{Round: r, Seconds: float64(r)*period*(1+slow) + out()})
	}
	return p
}

// The truth lies within the uncertainty as often as it should, whatever all are
// late by, by the rounds of takes and by takes of different lengths.
func TestTheTruthIsWithin(t *testing.T) {
	const trials = 3000
	rng := rand.New(rand.NewPCG(3, 14))
	for name, film := range map[string]func(slow, once float64) []drive.Pass{
		"rounds": func(slow, once float64) []drive.Pass {
			return []drive.Pass{pass(rng, 12, 4, slow, once, 1e-3)}
		},
		"rounds of two takes": func(slow, once float64) []drive.Pass {
			return []drive.Pass{pass(rng, 6, 4, slow, once, 1e-3), pass(rng, 9, 4, slow, once/2, 1e-3)}
		},
		"takes": func(slow, once float64) (out []drive.Pass) {
			for _, rounds := range []int64{1, 3, 6, 10} {
				p := pass(rng, rounds, 4, slow, once, 1e-3)
				p.Laps = nil
				out = append(out, p)
			}
			return out
		},
	} {
		within, worse := 0, 0
		for range trials {
			known := 2e-3 * (2*rng.Float64() - 1)
			truth := 5e-3 * (2*rng.Float64() - 1)
			if rng.IntN(2) == 0 {
				truth = known + 1e-4*(2*rng.Float64()-1)
			}
			// What is seen is beyond what was told with the known rate.
			f, err := rate.Fit(known, film((1+truth)/(1+known)-1, 0.05*rng.Float64()))
			require.NoError(t, err)
			if math.Abs(f.Rate-truth) <= f.Uncertainty {
				within++
			}
			if f.Betters(known) && math.Abs(f.Rate-truth) > math.Abs(known-truth) {
				worse++
			}
		}
		t.Logf("%s: within the uncertainty in %d of %d; keeping it made %d worse", name, within, trials, worse)
		require.Greater(t, within, trials*98/100, name)
		require.Less(t, worse, trials/200, name)
	}
}

// Times that scatter tell of something else, and are refused in words; a few
// rounds too, with how many would do.
func TestWhatCannotBeTold(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 7))
	_, err := rate.Fit(0, []drive.Pass{pass(rng, 20, 4, 1e-3, 0, 0.05)})
	require.ErrorContains(t, err, "the rounds scatter by ")
	require.ErrorContains(t, err, "so they tell of the wire or of this computer")
	for period, want := range map[float64]string{0.5: "film 35 rounds or more", 4: "film 12 rounds or more", 60: "film 8 rounds or more"} {
		_, err = rate.Fit(0, []drive.Pass{pass(rng, 2, period, 1e-3, 0, 0)})
		require.ErrorContains(t, err, want)
	}
	require.Equal(t, "0.1080 % +/- 0.0040 %", rate.Found{Rate: 0.00108, Uncertainty: 0.00004}.String())
}
