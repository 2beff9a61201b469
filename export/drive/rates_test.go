package drive_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/export/drive/rate"
	"seamrail/export/drive/virtual"
	"seamrail/motion/rig"
	"seamrail/motion/words"
)

// ideal returns how long a board with a true clock takes over the take that is
// told with the known rate error, as a model of its step timer would foretell.
func ideal(t testing.TB, timer virtual.Timer, known float64) func(rounds int64) float64 {
	lasts := func(rounds int64) float64 { return told(t, timer, 0, known, rounds, nil).took() }
	one, many := lasts(2), lasts(idealRounds)
	each := (many - one) / (idealRounds - 2)
	return func(rounds int64) float64 { return one + float64(rounds-2)*each }
}

// idealRounds is enough for the time of a round to come out to a microsecond.
const idealRounds = 6

// told runs a take of so many rounds on a board of a clock, told with a known
// rate error.
func told(t testing.TB, timer virtual.Timer, clock, known float64, rounds int64, foretold func(int64) float64) *machine {
	t.Helper()
	tr := smooth(t, rig.Buffered, 96)
	tr.Plan().Rig.Controller.RateError = known
	take := chosen(t, tr, rounds)
	source := func() drive.Source { return program{words.New(tr, take)} }
	m := onVirtualWith(t, tr, rounds, source, func(o *virtual.Options) { o.ClockError, o.Timer = clock, timer })
	m.options.Foretold = foretold
	require.NoError(t, m.run().Err(), "%v", m.w.said)
	return m
}

// clocks are true errors of clocks.
var clocks = []float64{-0.003, 0, 0.0005, 0.00108, 0.005}

// What is kept of the rate is as near to the clock's true error as it says, for
// a fine timer and for one of 16 bits, from one take of many rounds and from
// takes of different lengths; and what is foretold with it is never further from
// what happens than it was before.
func TestRatesAreRates(t *testing.T) {
	const rounds = 16
	for name, timer := range map[string]virtual.Timer{"fine": {}, "16 bits": virtual.SixteenMHz} {
		foretold := ideal(t, timer, 0)
		for _, clock := range clocks {
			m := told(t, timer, clock, 0, rounds, foretold)
			one := m.w.passes
			var several []drive.Pass
			for _, n := range []int64{1, 2, 5, 9} {
				p := told(t, timer, clock, 0, n, foretold).w.passes[0]
				p.Laps = nil
				several = append(several, p)
			}
			before := math.Abs(foretold(rounds) - m.took())
			for from, passes := range map[string][]drive.Pass{"a long take": one, "several": several} {
				f, err := rate.Fit(0, passes)
				require.NoError(t, err)
				t.Logf("%s, %s: true %.4f %%, found %v from %d", name, from, clock*100, f, f.Points)
				assert.LessOrEqual(t, math.Abs(f.Rate-clock), f.Uncertainty)
				kept := 0.0
				if f.Betters(0) {
					kept = f.Rate
				}
				assert.LessOrEqual(t, math.Abs(foretold(rounds)*(1+kept)-m.took()), before+took, "as foretold for the same take")
				again := told(t, timer, clock, kept, rounds, nil)
				after := math.Abs(ideal(t, timer, kept)(rounds)*(1+kept) - again.took())
				assert.LessOrEqual(t, after, before+took, "as foretold for the next")
				t.Logf("foretold %.2f ms out, then %.2f", before*1e3, after*1e3)
			}
		}
	}
}

// took is how far the time between steps may be from that of the motion, in s:
// an interval at the slowest rate a ramp begins with.
const took = 50e-6

// What every take is late by once is no rate, and neither are takes that cannot
// tell.
func TestOffsetsAreNoRates(t *testing.T) {
	m := told(t, virtual.Timer{}, 0, 0, 12, nil)
	late := m.w.passes[0]
	late.Executed += 0.04 // as a dwell of a grain would seem
	f, err := rate.Fit(0, []drive.Pass{late})
	require.NoError(t, err)
	require.False(t, f.Betters(0), "%v", f)

	var several []drive.Pass
	for _, n := range []int64{1, 2, 4, 6} {
		p := told(t, virtual.Timer{}, 0, 0, n, nil).w.passes[0]
		p.Executed, p.Laps = p.Executed+0.04, nil
		several = append(several, p)
	}
	f, err = rate.Fit(0, several)
	require.NoError(t, err)
	require.False(t, f.Betters(0), "%v", f)

	for _, passes := range [][]drive.Pass{nil, several[:1], several[:2], {several[1], several[1], several[1], several[1]}} {
		_, err = rate.Fit(0, passes)
		require.Error(t, err)
	}
	_, err = rate.Fit(0, several[:1])
	require.EqualError(t, err, "the rate was not measured: 1 round cannot tell a clock that is slow from what every take is late by once; "+
		"film 12 rounds or more in one take, or 4 takes of different lengths")
}
