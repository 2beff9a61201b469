package drive_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/export/drive/rate"
	"seamrail/export/drive/virtual"
	"seamrail/motion/controller/program"
	"seamrail/motion/plan/sample/many"
	"seamrail/motion/spec/rig"
)

// tellings are what rig files may say of the timer of a board.
var tellings = map[string]rig.StepTimer{"fine": {Known: true}, "16 bits": {Hz: 16e6, Known: true}}

// told runs a take of so many rounds that is planned and foretold for a board of a
// timer with a known rate error, on one whose clock is slow by another.
func told(t testing.TB, timer rig.StepTimer, clock, known float64, rounds int64) *machine {
	t.Helper()
	tr := smooth(t, rig.Buffered, 96)
	c := &tr.Plan().Rig.Controller
	c.Timer, c.RateError = timer, known
	if timer.Hz == 0 {
		c.SlowestStepRate = 0
	}
	take := followed(t, tr, rounds)
	source := func() drive.Source { return program.New(tr, take.Take) }
	m := onVirtualWith(t, tr, rounds, source, func(o *virtual.Options) { o.ClockError = clock })
	m.options.Foretold = func(rounds int64) float64 {
		x := take.Expected
		return x.Executed + float64(rounds-x.Rounds)*x.RoundExecuted
	}
	require.NoError(t, m.run().Err(), "%v", m.w.said)
	return m
}

// clocks are true errors of clocks.
var clocks = []float64{-0.003, 0, 0.0005, 0.00108, 0.005}

// What is kept of the rate is as near to the clock's true error as it says, for
// a fine timer and for one of 16 bits, from one take of many rounds and from
// takes of different lengths, with nothing known before and with a wrong rate
// known; and what is foretold with it, by a model of the timer, is never further
// from what happens than it was before.
func TestRatesAreRates(t *testing.T) {
	many.Long(t)
	const rounds = 16
	for name, timer := range tellings {
		for _, known := range []float64{0, 0.0012} {
			for _, clock := range clocks {
				m := told(t, timer, clock, known, rounds)
				one := m.w.passes
				var several []drive.Pass
				for _, n := range []int64{1, 2, 5, 9} {
					p := told(t, timer, clock, known, n).w.passes[0]
					p.Laps = nil
					several = append(several, p)
				}
				before := m.missed(rounds)
				for from, passes := range map[string][]drive.Pass{"a long take": one, "several": several} {
					f, err := rate.Fit(known, passes)
					require.NoError(t, err)
					assert.LessOrEqual(t, math.Abs(f.Rate-clock), f.Uncertainty)
					kept := known
					if f.Betters(known) {
						kept = f.Rate
					}
					after := told(t, timer, clock, kept, rounds).missed(rounds)
					t.Logf("%s, %.4f %% known, %s: true %.4f %%, found %v from %d; foretold %.2f ms out, then %.2f",
						name, known*100, from, clock*100, f, f.Points, before*1e3, after*1e3)
					assert.LessOrEqual(t, after, before+took)
				}
			}
		}
	}
}

// missed is by how much a take lasted longer or shorter than was foretold.
func (m *machine) missed(rounds int64) float64 {
	return math.Abs(m.options.Foretold(rounds) - m.took())
}

// took is how far the time between steps may be from that of the motion, in s:
// an interval at the slowest rate a ramp begins with.
const took = 50e-6

// What every take is late by once is no rate, and neither are takes that cannot
// tell.
func TestOffsetsAreNoRates(t *testing.T) {
	timer := tellings["fine"]
	m := told(t, timer, 0, 0, 12)
	late := m.w.passes[0]
	late.Executed += 0.04 // as a dwell of a grain would seem
	f, err := rate.Fit(0, []drive.Pass{late})
	require.NoError(t, err)
	require.False(t, f.Betters(0), "%v", f)

	var several []drive.Pass
	for _, n := range []int64{1, 2, 4, 6} {
		p := told(t, timer, 0, 0, n).w.passes[0]
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
