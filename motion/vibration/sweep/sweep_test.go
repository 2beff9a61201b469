package sweep_test

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/vibration/ringdown"
	"seamrail/motion/vibration/spring"
	"seamrail/motion/vibration/sweep"
)

func (s scene) read(t *testing.T) (sweep.Reading, sweep.Modes) {
	t.Helper()
	l, r := s.record(rand.New(rand.NewSource(7)))
	x, err := sweep.Read(l, r)
	require.NoError(t, err)
	return x, sweep.Springs(x.Points, l.Damping)
}

// near is the mode nearest to a frequency.
func near(m sweep.Modes, f float64) sweep.Mode {
	best := m.Modes[0]
	for _, y := range m.Modes {
		if math.Abs(y.Spring.Frequency-f) < math.Abs(best.Spring.Frequency-f) {
			best = y
		}
	}
	return best
}

// What swings comes out of what a phone would have recorded, within what is told of it:
// light, heavy, several, near each other, and against each other; the record begun early,
// late, by a clock that is off, in another unit.
func TestTrueAgainstFound(t *testing.T) {
	swing := func(f, d, share float64) body { return body{spring.Spring{Frequency: f, Damping: d}, share} }
	for _, x := range []struct {
		name     string
		expected float64
		bodies   []body
		late     float64
		counts   float64
	}{
		{"usual", 0.02, []body{swing(5.4, 0.025, 1)}, -1.3, 1},
		{"light", 0.01, []body{swing(6.3, 0.012, 1)}, -20, 1e-3},
		{"heavy", 0.03, []body{swing(7.1, 0.12, 1)}, 1.1, 1},
		{"two", 0.02, []body{swing(5, 0.03, 0.7), swing(9, 0.02, 0.3)}, 0, 1 / 9806.65},
		{"near", 0.02, []body{swing(6, 0.02, 0.5), swing(6.7, 0.02, 0.5)}, -1.3, 1},
		{"against", 0.02, []body{swing(6, 0.02, 1.4), swing(8.5, 0.02, -0.4)}, -1.3, 1},
		{"late", 0.02, []body{swing(5.4, 0.025, 1)}, 21, 1}, // the marks before the sweep are missed
	} {
		s := usual()
		s.asked = sweep.Asked{Low: 4, High: 11, Damping: x.expected}
		s.bodies, s.late, s.counts = x.bodies, x.late, x.counts
		r, m := s.read(t)
		require.Len(t, m.Modes, len(x.bodies), x.name)
		for _, b := range x.bodies {
			y := near(m, b.spring.Frequency)
			t.Logf("%-8s true %.4g Hz, %.3g %%; found %.5g Hz give or take %.2g, %.3g %% give or take %.2g", x.name, b.spring.Frequency, 100*b.spring.Damping,
				y.Spring.Frequency, 2*y.FrequencySure, 100*y.Spring.Damping, 200*y.DampingSure)
			assert.InDelta(t, b.spring.Frequency, y.Spring.Frequency, 2*y.FrequencySure+2e-4*b.spring.Frequency, x.name)
			assert.InDelta(t, b.spring.Damping, y.Spring.Damping, 2*y.DampingSure+0.02*b.spring.Damping, x.name)
			assert.Less(t, y.FrequencySure, 2e-3*b.spring.Frequency, "%s: and it is known well", x.name)
		}
		assert.InDelta(t, x.counts, m.Gain, 0.03*x.counts, x.name)
		assert.False(t, m.RisesUp || m.RisesDown, x.name)
		assert.InDelta(t, -x.late, r.Clock.Offset, 0.1, x.name)
		if x.name == "late" {
			assert.Zero(t, r.Clock.RateSure)
			continue
		}
		assert.InDelta(t, s.ppm*1e-6, r.Clock.Rate, 2*r.Clock.RateSure, x.name)
	}
}

// A hand that begins and ends the record knocks on the phone, and a phone loses samples now
// and then.
func TestHandsAndGaps(t *testing.T) {
	s := usual()
	s.asked, s.late = sweep.Asked{Low: 4, High: 8, Damping: 0.025}, -6
	l, r := s.record(rand.New(rand.NewSource(7)))
	kept := ringdown.Record{Series: make([][]float64, 1)}
	last := r.Times[len(r.Times)-1]
	for i, at := range r.Times {
		v := r.Series[0][i]
		for _, knock := range []float64{0.5, last - 0.5} {
			if since := at - knock; since >= 0 {
				v += 20 * math.Exp(-30*since) * math.Cos(400*since)
			}
		}
		if math.Mod(at, 11) < 10.8 {
			kept.Times, kept.Series[0] = append(kept.Times, at), append(kept.Series[0], v)
		}
	}
	x, err := sweep.Read(l, kept)
	require.NoError(t, err)
	m := sweep.Springs(x.Points, l.Damping)
	require.Len(t, m.Modes, 1)
	assert.InDelta(t, 5.4, m.Modes[0].Spring.Frequency, 2*m.Modes[0].FrequencySure)
	assert.InDelta(t, 6, x.Clock.Offset, 0.1)
}

// What does not swing within the band is not found in it, and a rise to its end is told.
func TestNoneAndTheEdge(t *testing.T) {
	s := usual()
	s.bodies = []body{{spring.Spring{Frequency: 60, Damping: 0.05}, 1}}
	_, m := s.read(t)
	assert.Empty(t, m.Modes)
	assert.False(t, m.RisesUp || m.RisesDown, "within noise it goes with its foot")
	s.bodies[0].spring.Frequency = 17
	_, m = s.read(t)
	assert.Empty(t, m.Modes)
	assert.True(t, m.RisesUp)
	assert.False(t, m.RisesDown)
	s.bodies[0].spring.Frequency = 2.9
	_, m = s.read(t)
	assert.Empty(t, m.Modes)
	assert.True(t, m.RisesDown)
	s.bodies[0].spring.Frequency = 15 // just within: both its sides are seen
	_, m = s.read(t)
	require.Len(t, m.Modes, 1)
	assert.InDelta(t, 15, m.Modes[0].Spring.Frequency, 0.05)
	assert.False(t, m.RisesUp)
	s.bodies[0].spring = spring.Spring{Frequency: 15.8, Damping: 0.025} // one side is not
	_, m = s.read(t)
	assert.Empty(t, m.Modes)
	assert.True(t, m.RisesUp)
}

// A slow phone tells up to four tenths of its rate, and says so; a swing beyond is no
// resonance below.
func TestASlowPhone(t *testing.T) {
	s := usual()
	s.rate = 25
	x, m := s.read(t)
	assert.InDelta(t, 10, x.Aliased, 0.5)
	require.Len(t, m.Modes, 1)
	assert.InDelta(t, 5.4, m.Modes[0].Spring.Frequency, 0.03)
	s.bodies[0].spring.Frequency = 14
	_, m = s.read(t)
	assert.Empty(t, m.Modes)
	s.rate = 8
	l, r := s.record(rand.New(rand.NewSource(7)))
	_, err := sweep.Read(l, r)
	assert.ErrorContains(t, err, "let the phone measure faster")
}

// A record that is none of this sweep, or not all of it, is refused with why.
func TestRecordsThatAreRefused(t *testing.T) {
	s := usual()
	l, r := s.record(rand.New(rand.NewSource(7)))
	short := ringdown.Record{Times: r.Times[:2000], Series: [][]float64{r.Series[0][:2000]}}
	_, err := sweep.Read(l, short)
	assert.ErrorContains(t, err, "too short: it holds 10")
	s.cut = 40 // the marks after the sweep, and the last of its frequencies
	_, err = sweep.Read(s.record(rand.New(rand.NewSource(7))))
	assert.ErrorContains(t, err, "too short")
	s.cut, s.late = 40, -80
	_, err = sweep.Read(s.record(rand.New(rand.NewSource(7))))
	assert.ErrorContains(t, err, "does not hold")
	noise := usual()
	noise.bodies, noise.late = nil, -5
	_, err = sweep.Read(noise.record(rand.New(rand.NewSource(7))))
	assert.ErrorContains(t, err, "no mark of the sweep is seen")
	long := ringdown.Record{Times: append([]float64{}, r.Times...), Series: r.Series}
	long.Times[len(long.Times)-1] = 1e12
	_, err = sweep.Read(l, long)
	assert.ErrorContains(t, err, "is its first column the time?")
	off := usual()
	off.ppm = 20_000
	_, err = sweep.Read(off.record(rand.New(rand.NewSource(7))))
	assert.ErrorContains(t, err, "no crystal does")
}

// A swing that is damped far less than was expected has neither built up nor points enough:
// what is found of it is not true, and is seen to be less than was expected.
func TestALightSwingIsSeenToBeLight(t *testing.T) {
	s := usual()
	s.asked.Damping = 0.04
	s.bodies[0].spring.Damping = 0.008
	_, m := s.read(t)
	require.NotEmpty(t, m.Modes)
	assert.InDelta(t, 5.4, m.Modes[0].Spring.Frequency, 0.2)
	assert.Greater(t, m.Scatter, 2., "no springs would have done that")
	assert.Less(t, m.Modes[0].Spring.Damping, 0.5*0.04)
}

func TestTheLogReadsBack(t *testing.T) {
	l, _, _ := usual().driven()
	back, err := sweep.Parse(l.Text())
	require.NoError(t, err)
	assert.Equal(t, l.Axis, back.Axis)
	require.Len(t, back.Bursts, len(l.Bursts))
	assert.InDelta(t, l.Bursts[9].Push, back.Bursts[9].Push, 1e-3)
	assert.InDelta(t, l.Marks[3].From, back.Marks[3].From, 1e-4)
	for text, says := range map[string]string{
		"":                                  "has 5 bursts or more",
		"Time (s),x\n0,1\n":                 "none of a sweep's",
		"mark,1\n":                          "none of a sweep's",
		"mark,a,2\n":                        "no number",
		"burst,1,2,-3,4\n":                  "no number from 0 on",
		"axis,rail,mm\n\"":                  "no table of a sweep",
		l.Text() + "burst,1,2,3,4\n":        "come after",
		l.Text() + "mark,5,4\n":             "must last",
		"axis,rail,mm\nburst,1,NaN,3,4\n":   "no number",
		"axis,rail,mm\ndamping,+Inf\n":      "no number",
		"axis,rail\n":                       "none of a sweep's",
		l.Text() + "mark,1e300,2e300\n":     "it may go on for 86400 s",
		"axis,rail,mm\nwhatever,1,2,3,4,\n": "none of a sweep's",
	} {
		_, err := sweep.Parse(text)
		assert.ErrorContains(t, err, says, "%q", text)
	}
}

func TestWhatIsAsked(t *testing.T) {
	a := sweep.Asked{Low: 3, High: 16, Damping: 0.02}
	all, err := a.Frequencies()
	require.NoError(t, err)
	assert.Equal(t, 3., all[0])
	assert.InDelta(t, 16, all[len(all)-1], 1e-9)
	for i := 1; i < len(all); i++ {
		assert.LessOrEqual(t, all[i]-all[i-1], 2*0.02*all[i]/3, "three in each half-power width")
	}
	assert.InDelta(t, math.Exp(-3), math.Exp(-2*math.Pi*0.02*float64(a.Periods())*2/3), 0.01, "within 5 %% when it is read")
	for _, bad := range []sweep.Asked{{16, 3, 0.02}, {3, 3, 0.02}, {0, 3, 0.02}, {3, 2000, 0.02}, {3, 16, 0}, {3, 16, 2}, {3, 16, math.NaN()}, {1, 100, 0.001}} {
		_, err := bad.Frequencies()
		assert.Error(t, err, "%+v", bad)
	}
}
